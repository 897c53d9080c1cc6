package lift

import (
	"crypto/sha256"
	_ "embed"
	"encoding/csv"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"plumbhook/density"
	"plumbhook/sling"
	"plumbhook/takeoff"
)

//go:embed trace.csv
var traceCSV string

// traceHeader is the first line of the table of formulas.
var traceHeader = []string{"figure", "formula", "inputs", "source", "basis", "code"}

// traceBases are the words that say how well a formula is known. One that the
// program works out from its own inputs is computed; stated is in the load file; of
// a figure that is looked up the row of the table tells.
var traceBases = []string{"read", "from memory", "computed", "common practice", "stated", "of the row"}

// sourceOfRow stands for what the looked up row says of itself, beside the figure.
const sourceOfRow = "source and basis of the row"

// traceRow says how one figure of the results comes about. The figure is named
// by the type that holds it and its JSON key; * stands for all of a type.
type traceRow struct {
	formula string   // in words and symbols, with its unit
	inputs  []string // other figures; "file:" keys of the load file; "table:" tables of the program
	source  string   // as the code states it
	basis   string
	code    string // file and function that works it out
}

// traceTable reads the table of formulas, once.
var traceTable = sync.OnceValues(func() (map[string]traceRow, error) {
	rows, err := csv.NewReader(strings.NewReader(traceCSV)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("trace.csv: %w", err)
	}
	if len(rows) == 0 || !slices.Equal(rows[0], traceHeader) {
		return nil, fmt.Errorf("trace.csv: want a first line %q", strings.Join(traceHeader, ","))
	}
	table := map[string]traceRow{}
	for i, row := range rows[1:] {
		if _, twice := table[row[0]]; twice {
			return nil, fmt.Errorf("trace.csv: row %d: %s is there twice", i+2, row[0])
		}
		one := traceRow{formula: row[1], inputs: []string{}, source: row[3], basis: row[4], code: row[5]}
		if row[2] != "" {
			one.inputs = strings.Split(row[2], "; ")
		}
		table[row[0]] = one
	}
	return table, nil
})

// Tables are the tables that are built into the program, each with the first
// twelve digits of its SHA-256: the edition that figures were looked up in.
func Tables() map[string]string {
	all := map[string]string{"lift/trace.csv": traceCSV}
	maps.Copy(all, density.Tables())
	maps.Copy(all, sling.Tables())
	maps.Copy(all, takeoff.Tables())
	for name, text := range all {
		sum := sha256.Sum256([]byte(text))
		all[name] = hex.EncodeToString(sum[:])[:12]
	}
	return all
}
