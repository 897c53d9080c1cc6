package sling

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/units"
)

// expected is one line of testdata/suitability.csv: a verdict written down by
// hand from the source that it names, never from the program's tables.
type expected struct {
	at               string
	need             Need
	family, material string
	use              string
	says             []string // in the reasons, or the family's factors
	speaks           string   // whether what is said speaks for or against the family, or any
}

// expectations reads testdata/suitability.csv. Empty cells: a load of 500 kg, a
// vertical hitch, nothing stated. `edges` may name a protection after a comma,
// `hitch` a contact, `also` conditions of the place, denied by "no" before them.
func expectations(t *testing.T) []expected {
	file, err := os.Open("testdata/suitability.csv")
	require.NoError(t, err)
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	var out []expected
	for i, line := range lines[1:] {
		c := map[string]string{}
		for j, name := range lines[0] {
			c[name] = line[j]
		}
		e := expected{at: fmt.Sprintf("line %d: %v", i+2, line), family: c["family"], material: c["material"], use: c["use"],
			says: strings.Split(c["says"], " | "), speaks: c["speaks"]}
		require.True(t, c["source"] != "" && c["basis"] != "" && slices.Contains([]string{"for", "against", "any"}, e.speaks), e.at)
		load := 500.0
		if c["load"] != "" {
			load, err = strconv.ParseFloat(c["load"], 64)
			require.NoError(t, err, e.at)
		}
		e.need = one(Rules(c["rules"]), kilograms(load))
		if hitch, contact, _ := strings.Cut(c["hitch"], " "); hitch != "" {
			e.need.Legs[0].Hitch, e.need.Legs[0].Contact = hitch, metres(t, contact)
		}
		e.need.Surroundings = surroundings(t, c)
		require.NoError(t, e.need.check(), e.at)
		out = append(out, e)
	}
	return out
}

func surroundings(t *testing.T, c map[string]string) Surroundings {
	s := Surroundings{Surface: c["surface"], Conditions: map[string]bool{}}
	if c["temperature"] != "unstated" {
		degrees, err := units.ParseTemperature(c["temperature"])
		require.NoError(t, err)
		s.Temperature = celsius(float64(degrees))
	}
	if c["chemicals"] != "unstated" {
		s.Chemicals, s.ChemicalsStated = []string{c["chemicals"]}, true
	}
	switch radius, protection, _ := strings.Cut(c["edges"], ", "); radius {
	case "unstated":
	case "none":
		s.EdgesNone, s.EdgesStated = true, true
	default:
		r := metres(t, radius)
		s.EdgeRadius, s.EdgesStated, s.EdgeProtection = &r, true, protection
	}
	if c["outdoors"] != "" {
		out := c["outdoors"] == "true"
		s.Outdoors = &out
	}
	for _, also := range strings.Split(c["also"], "; ") {
		if name, denied := strings.CutPrefix(also, "no "); also != "" {
			s.Conditions[name] = !denied
		}
	}
	return s
}

func metres(t *testing.T, length string) float64 {
	if length == "" {
		return 0
	}
	m, err := units.ParseLength(length, units.LengthUnit{})
	require.NoError(t, err)
	return float64(m)
}

// judged asks a book about one family.
func judged(b *book, need Need, family, material string) (Verdict, familyRow) {
	for i := range b.families { // not by under, which copies them: this is asked half a million times
		if f := &b.families[i]; f.rules == need.Rules && f.family == family && f.material == material {
			return newLift(need, b).verdict(*f), *f
		}
	}
	return Verdict{Use: "no such family"}, familyRow{}
}

// fault says what a book answers otherwise than the line; "": nothing.
func (e expected) fault(b *book) string {
	v, f := judged(b, e.need, e.family, e.material)
	if v.Use != e.use {
		return fmt.Sprintf("%s, want %s\n%s", v.Use, e.use, strings.Join(v.Reasons, "\n"))
	}
	if (e.use == No || f.byTag) != (v.Choice == nil) {
		return "a size where there can be none, or none where the load is within all"
	}
	text := slices.Clone(v.Reasons)
	for _, x := range v.Factors {
		text = append(text, fmt.Sprintf("%.4g × %s", x.Value, x.Name))
	}
	against := strings.Join(v.Against, "\n")
	for _, says := range e.says {
		if !strings.Contains(strings.Join(text, "\n"), says) {
			return fmt.Sprintf("does not say %q:\n%s", says, strings.Join(text, "\n"))
		}
		if e.speaks != "any" && strings.Contains(against, says) != (e.speaks == "against") {
			return fmt.Sprintf("%q must speak %s it:\n%s", says, e.speaks, strings.Join(text, "\n"))
		}
	}
	return ""
}

func TestSuitability(t *testing.T) {
	for _, e := range expectations(t) {
		assert.Empty(t, e.fault(tables(t)), e.at)
	}
}
