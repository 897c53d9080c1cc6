package lift

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"

	"plumbhook/takeoff"
)

// Published is one printed value, and the way that leads to it: a load file, the
// question that is asked of it, and the figure of the answer.
type Published struct {
	Name      string  `json:"name"`
	Question  string  `json:"question"` // weigh, legs, slings
	Load      string  `json:"load"`     // the load file
	Figure    string  `json:"figure"`   // path in the JSON of the answer
	Value     float64 `json:"value"`    // as printed, in the unit of the figure
	Tolerance float64 `json:"tolerance"`
	Source    string  `json:"source"`
	Basis     string  `json:"basis"` // read, from memory, derived here
}

// PrintedCheck is how a published value and the program's compare.
type PrintedCheck struct {
	Published
	Got   float64 `json:"got"`
	Holds bool    `json:"holds"`
	Fault string  `json:"fault,omitempty"` // why there is no figure to compare
}

// Verified are all checks of one table.
type Verified struct {
	Checks []PrintedCheck `json:"checks"`
	Failed int            `json:"failed"`
}

var (
	publishedColumns = []string{"name", "question", "load", "figure", "value", "tolerance", "source", "basis"}
	publishedBases   = []string{"read", "from memory", "derived here"}
)

// ReadPublished reads a table of published values, a CSV with the columns name,
// question, load, figure, value, tolerance, source and basis. Errors name the row.
func ReadPublished(r io.Reader) ([]Published, error) {
	rows, err := csv.NewReader(r).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("published values: %w", err)
	}
	if len(rows) == 0 || !slices.Equal(rows[0], publishedColumns) {
		return nil, fmt.Errorf("published values: the columns must be %s", strings.Join(publishedColumns, ", "))
	}
	var all []Published
	for i, row := range rows[1:] {
		p := Published{Name: row[0], Question: row[1], Load: row[2], Figure: row[3], Source: row[6], Basis: row[7]}
		var wrong [2]error
		p.Value, wrong[0] = strconv.ParseFloat(row[4], 64)
		p.Tolerance, wrong[1] = strconv.ParseFloat(row[5], 64)
		switch {
		case wrong[0] != nil || wrong[1] != nil:
			err = errors.Join(wrong[:]...)
		case math.IsNaN(p.Value) || math.IsInf(p.Value, 0):
			err = errors.New("a value must be a number")
		case !(p.Tolerance > 0) || math.IsInf(p.Tolerance, 0):
			err = errors.New("a tolerance must be a number and more than nothing")
		case p.Name == "" || p.Source == "" || !slices.Contains(publishedBases, p.Basis):
			err = fmt.Errorf("a row has a name, a source, and one of the bases %s", strings.Join(publishedBases, ", "))
		}
		if err != nil {
			return nil, fmt.Errorf("published values, row %d, %s: %w", i+2, p.Name, err)
		}
		all = append(all, p)
	}
	return all, nil
}

// asked is a question and the load file that it is asked of.
type asked struct{ question, load string }

// answered is what the program said to it: the JSON, taken apart, or an error.
type answered struct {
	result any
	err    error
}

// Verify asks the program for each published figure. Rows that ask the same of the same
// load file share its answer.
func Verify(rows []Published) Verified {
	var v Verified
	answers := map[asked]answered{}
	for _, row := range rows {
		c := PrintedCheck{Published: row}
		key := asked{row.Question, row.Load}
		a, known := answers[key]
		if !known {
			a.result, a.err = row.answer()
			answers[key] = a
		}
		if err := a.err; err != nil {
			c.Fault = err.Error()
		} else if got, err := figureOf(a.result, row.Figure); err != nil {
			c.Fault = err.Error()
		} else {
			c.Got, c.Holds = got, math.Abs(got-row.Value) <= row.Tolerance
		}
		if !c.Holds {
			v.Failed++
		}
		v.Checks = append(v.Checks, c)
	}
	return v
}

// answer goes the way from load file to the JSON of the answer, as a user would.
func (p Published) answer() (any, error) {
	l, err := takeoff.ReadFrom(strings.NewReader(p.Load), p.Name, noFiles{}, takeoff.Options{As: "yaml"})
	if err != nil {
		return nil, err
	}
	var result any
	switch p.Question {
	case "weigh":
		result, err = Weigh(l, Options{})
	case "legs":
		result, err = Legs(l, Options{})
	case "slings":
		result, err = Slings(l, Options{})
	default:
		err = fmt.Errorf("no question %q", p.Question)
	}
	if err != nil {
		return nil, err
	}
	text, err := json.Marshal(result)
	if err != nil {
		return nil, err
	}
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.UseNumber()
	var document any
	err = decoder.Decode(&document)
	return document, err
}

// noFiles is a folder without files: a published value stands by itself.
type noFiles struct{}

func (noFiles) Open(name string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// figureOf finds a figure in the JSON of a result by its path: keys with dots
// between them, [3] for the fourth of a list, [pick=A] for the first that has that.
func figureOf(at any, path string) (float64, error) {
	for _, step := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' }) {
		if at = into(at, step); at == nil {
			return 0, fmt.Errorf("there is no %q in the answer, at %q", path, step)
		}
	}
	number, ok := at.(json.Number)
	if !ok {
		return 0, fmt.Errorf("%q is no figure", path)
	}
	return number.Float64()
}

// into takes one step of a path; nil: there is nothing.
func into(at any, step string) any {
	choice, list := strings.CutSuffix(step, "]")
	if !list {
		group, _ := at.(map[string]any)
		return group[step]
	}
	all, _ := at.([]any)
	key, want, chosen := strings.Cut(choice, "=")
	if !chosen {
		if i, err := strconv.Atoi(choice); err == nil && i >= 0 && i < len(all) {
			return all[i]
		}
		return nil
	}
	for _, one := range all {
		if group, ok := one.(map[string]any); ok && fmt.Sprint(group[key]) == want {
			return one
		}
	}
	return nil
}
