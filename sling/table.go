package sling

import (
	"embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

//go:embed tables/*.csv
var files embed.FS

// bases are the words that a row may give for what it stands on, strongest first.
var bases = []string{"read", "computed", "from memory", "common practice"}

// cite is where a figure comes from and how well it is known.
type cite struct {
	source, basis, note string
}

// String prints the citation for a reader; a basis weaker than "read" is said.
func (c cite) String() string {
	text := c.source
	switch {
	case strings.HasPrefix(c.source, "no source"):
		text = c.basis + ", " + c.source
	case c.basis != "read":
		text += ", " + c.basis
	}
	if c.note != "" {
		text += "; " + c.note
	}
	return text
}

// record is one row of a CSV table, by column, with its place for messages.
type record struct {
	at    string
	cells map[string]string
}

func (r record) cite() cite {
	return cite{r.cells["source"], r.cells["basis"], r.cells["note"]}
}

// number reads a cell as a plain number.
func (r record) number(column string) (float64, error) {
	x, err := strconv.ParseFloat(r.cells[column], 64)
	if err != nil {
		return 0, fmt.Errorf("%s: column %s: %q is not a number", r.at, column, r.cells[column])
	}
	return x, nil
}

// readTable reads tables/name.csv. The first line must name the columns given,
// in that order, and a row without source or with an unknown basis is refused:
// every figure must be traceable.
func readTable(name string, columns ...string) ([]record, error) {
	text, err := files.ReadFile("tables/" + name + ".csv")
	if err != nil {
		return nil, err
	}
	return parseTable(name, string(text), columns)
}

func parseTable(name, text string, columns []string) ([]record, error) {
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s.csv: %w", name, err)
	}
	if len(lines) < 2 || !slices.Equal(lines[0], columns) {
		return nil, fmt.Errorf("%s.csv: want rows under the columns %s", name, strings.Join(columns, ","))
	}
	var out []record
	for i, line := range lines[1:] {
		r := record{at: fmt.Sprintf("%s.csv: row %d", name, i+2), cells: map[string]string{}}
		for j, column := range columns {
			r.cells[column] = line[j]
		}
		if r.cells["source"] == "" || !slices.Contains(bases, r.cells["basis"]) {
			return nil, fmt.Errorf("%s: want a source and a basis out of %s", r.at, strings.Join(bases, ", "))
		}
		if rules := Rules(r.cells["rules"]); slices.Contains(columns, "rules") && rules != US && rules != EN {
			return nil, fmt.Errorf("%s: rules %q, want US or EN", r.at, rules)
		}
		out = append(out, r)
	}
	return out, nil
}
