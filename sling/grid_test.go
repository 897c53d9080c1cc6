package sling

import (
	"fmt"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"
)

// outOf are the chemicals that a stuff must never meet, typed from 29 CFR
// 1926.251 and 1910.184 (nylon, polyester and polypropylene web) and, from
// memory, ASME B30.9, EN 1492, EN 818-6, EN 13414-2 and textile handbooks.
var outOf = map[string][]string{
	"nylon": {"acid", "bleach", "phenolics"}, "polyester": {"alkali"}, "polypropylene under US": {"alkali"}, "aramid": {"acid", "alkali", "bleach"},
	"yarn": {"alkali"}, "steel": {"acid"}, "aluminium": {"acid", "alkali"},
}

// stuff is what a family is made of, by what the trade calls it.
func stuff(rules Rules, family, material string) (body, of string) {
	switch body = map[string]string{"alloy_chain": "chain", "wire_rope": "rope", "metal_mesh": "mesh"}[family]; {
	case body == "rope" && strings.Contains(material, "aluminium"):
		return body, "aluminium"
	case body != "":
		return body, "steel"
	case strings.HasPrefix(material, "nylon") || material == "polyamide":
		return "textile", "nylon"
	case strings.HasPrefix(material, "polypropylene") && rules == US:
		return "textile", "polypropylene under US"
	case family == "two_path_round_sling":
		return "textile", "yarn"
	}
	fibre, _, _ := strings.Cut(material, ",")
	return "textile", fibre
}

// place is one combination of surroundings, as the test knows it.
type place struct {
	temperature *float64
	chemicals   []string // nil: not stated
	edge        float64  // mm; below 0: none, notStated: not stated
	protected   bool
	finished    bool
	outdoors    bool
	conditions  int // one bit for each of conditions
}

const notStated = -2

func (p place) stated() Surroundings {
	s := Surroundings{Temperature: p.temperature, Chemicals: p.chemicals, ChemicalsStated: p.chemicals != nil, EdgesStated: p.edge != notStated,
		EdgesNone: p.edge == -1, Outdoors: &p.outdoors, Conditions: map[string]bool{}}
	if p.edge >= 0 {
		r := p.edge / 1000
		s.EdgeRadius = &r
	}
	if p.protected {
		s.EdgeProtection = "corner pads"
	}
	if p.finished {
		s.Surface = "finished"
	}
	for i, c := range conditions {
		if p.has(i) {
			s.Conditions[c] = true
		}
	}
	return s
}

func (p place) has(i int) bool { return p.conditions&(1<<i) != 0 }

func (p place) is(condition string) bool { return p.has(slices.Index(conditions, condition)) }

// out reports whether a rigger must not take the family to the place at all.
func (p place) out(rules Rules, family, material string, low, high float64) bool {
	body, of := stuff(rules, family, material)
	if t := p.temperature; t != nil && (*t < low || *t > high) {
		return true
	}
	hot := p.temperature != nil && *p.temperature > 50
	for _, c := range p.chemicals {
		words := strings.Fields(c)
		plain := words[len(words)-1]
		if c == "sea water" || c == "organic solvent" {
			plain, words = c, words[:1]
		}
		strong := hot || len(words) > 1 && words[0] != "dilute"
		if slices.Contains(outOf[of], plain) || of == "polyester" && strong && (plain == "acid" || plain == "bleach") {
			return true
		}
	}
	return body == "textile" && (p.is("weld spatter") || p.edge >= 0 && p.edge < 2 && !p.protected)
}

// doubtful reports whether the place gives reason enough that a plain yes would
// be wrong.
func (p place) doubtful(rules Rules, family, material string) bool {
	body, of := stuff(rules, family, material)
	textile, bare := body == "textile", body != "textile" && !strings.Contains(material, "filled")
	switch {
	case p.temperature == nil || p.chemicals == nil || p.edge == notStated,
		p.is("shock") || p.is("weld spatter"),
		p.edge >= 0 && (textile || body == "mesh" || p.edge < 3), // no rope and no chain of the tables is thinner than 3 mm
		textile && (p.outdoors || p.is("people near") || p.is("repeated use") || p.is("abrasive")),
		body == "rope" && (p.is("people near") || p.is("repeated use") || p.is("abrasive") || p.is("hard to inspect")),
		p.is("hard to inspect") && (body == "mesh" || strings.Contains(family, "round_sling") || family == "synthetic_rope"),
		p.is(byHand) && body == "mesh", // of unknown weight
		p.finished && bare:
		return true
	}
	return slices.ContainsFunc(p.chemicals, func(c string) bool {
		return c == "treacle" || of == "steel" && c == "sea water" || of == "nylon" && c == "sea water" || of == "polyester" && strings.HasSuffix(c, "acid") ||
			strings.HasSuffix(c, "bleach") || strings.HasPrefix(c, "hot ")
	})
}

var chemicalLists = [][]string{nil, {"none"}, {"treacle"}, {"acid"}, {"alkali"}, {"bleach"}, {"oil"}, {"organic solvent"}, {"sea water"}, {"phenolics"},
	{"dilute acid"}, {"hot acid"}, {"concentrated bleach"}, {"hot alkali"}, {"oil", "acid"}}

// around returns temperatures in °C at and around limits, and none.
func around(low, high float64) (out []*float64) {
	for _, t := range []float64{-90, low - 0.3, low, 20, 49, 60, high, high + 0.3, 600} {
		out = append(out, celsius(t))
	}
	return append(out, nil)
}

// TestNoFamilyOutsideItsLimits asks each family about every combination of
// surroundings: each temperature at and around its limits × each chemical × each
// edge × surface × outdoors, with no and with every condition of the place; and
// all 128 combinations of those conditions in fewer places. A family is out if
// and only if the sources bar it, and never a plain yes where anything is in
// doubt or was not stated.
func TestNoFamilyOutsideItsLimits(t *testing.T) {
	t.Parallel()
	var asked atomic.Int64
	t.Run("of", func(t *testing.T) { // waits for all within
		for _, line := range limits(t) {
			t.Run(fmt.Sprint(line.rules, " ", line.family, " ", line.material), func(t *testing.T) {
				t.Parallel()
				asked.Add(int64(askEverywhere(t, line)))
			})
		}
	})
	require.Greater(t, asked.Load(), int64(400_000))
	t.Logf("%d places", asked.Load())
}

// askEverywhere asks one family about every place, and returns how many.
func askEverywhere(t *testing.T, line limit) (asked int) {
	b := tables(t)
	ask := func(p place) {
		need := one(line.rules, kilograms(200))
		need.Surroundings = p.stated()
		v, f := judged(b, need, line.family, line.material)
		if out := p.out(line.rules, line.family, line.material, line.low, line.high); out != (v.Use == No) {
			require.Equal(t, out, v.Use == No, "%s %s %s out at %+v: %v", line.rules, line.family, line.material, need.Surroundings, v.Reasons)
		}
		if v.Use == Yes && (f.byTag || p.doubtful(line.rules, line.family, line.material)) || v.Use == No && v.Choice != nil {
			require.Fail(t, "offered too gladly", "%s %s %s at %+v: %v", line.rules, line.family, line.material, need.Surroundings, v.Reasons)
		}
		asked++
	}
	every := 1<<len(conditions) - 1
	for _, temperature := range around(line.low, line.high) {
		for _, chemicals := range chemicalLists {
			for _, edge := range []float64{notStated, -1, 0, 1.9, 2, 500} {
				for flags := range 8 {
					p := place{temperature: temperature, chemicals: chemicals, edge: edge, protected: flags&1 != 0, finished: flags&2 != 0, outdoors: flags&4 != 0}
					ask(p)
				}
				ask(place{temperature: temperature, chemicals: chemicals, edge: edge, protected: true, conditions: every})
			}
		}
	}
	for of := range every + 1 {
		for _, temperature := range []*float64{celsius(20), celsius(line.high), celsius(line.high + 0.3), nil} {
			for _, chemicals := range [][]string{nil, {"none"}, {"bleach"}, {"hot acid"}} {
				ask(place{temperature: temperature, chemicals: chemicals, edge: -1, conditions: of})
			}
		}
		ask(place{temperature: celsius(20), chemicals: []string{"none"}, edge: 0, protected: true, conditions: of})
	}
	return asked
}
