package sling

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTableRefusesRows: a row that cannot be traced or read is refused with its
// place.
func TestTableRefusesRows(t *testing.T) {
	columns := []string{"rules", "value", "source", "basis"}
	for text, want := range map[string]string{
		"rules,value,source,basis\n":                                "want rows under the columns",
		"rules,value,basis,source\nUS,1,read,x\n":                   "want rows under the columns",
		"rules,value,source,basis\nUS,1,,read\n":                    "x.csv: row 2: want a source",
		"rules,value,source,basis\nUS,1,a,read\nUS,1,a,guess\n":     "x.csv: row 3: want a source and a basis",
		"rules,value,source,basis\nUK,1,a,read\n":                   `rules "UK", want US or EN`,
		"rules,value,source,basis\nUS,1,read\n":                     "wrong number of fields",
		"rules,value,source,basis\nUS,\"1,EN 818-4,from memory\n\n": "x.csv",
	} {
		_, err := parseTable("x", text, columns)
		assert.ErrorContains(t, err, want, text)
	}
	rows, err := parseTable("x", "rules,value,source,basis\nEN,1.4,EN 818-4,from memory\n", columns)
	assert.NoError(t, err)
	assert.Equal(t, "EN 818-4, from memory", rows[0].cite().String())
	_, err = record{at: "x.csv: row 2", cells: map[string]string{"value": "1,4"}}.number("value")
	assert.ErrorContains(t, err, `x.csv: row 2: column value: "1,4" is not a number`)
}

func TestInterval(t *testing.T) {
	for text, in := range map[string]map[float64]bool{
		"[0, 45]":   {0: true, 45: true, 45.0000001: true, 45.00001: false, -1: false},
		"(45, 60]":  {45: false, 45.1: true, 60: true, 60.1: false},
		"(2, inf)":  {2: false, 2.1: true, 1e9: true},
		"":          {-1e9: true, 0: true, 1e9: true},
		"[400, 40]": nil, "[1,2]": nil, "1, 2": nil, "[a, 2]": nil, "[": nil, "[, ]": nil, "{1, 2}": nil,
	} {
		v, err := parseInterval(text)
		if in == nil {
			assert.Error(t, err, text)
			continue
		}
		assert.NoError(t, err, text)
		for x, want := range in {
			assert.Equal(t, want, v.holds(x), "%g in %q", x, text)
		}
	}
}
