package sling

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"plumbhook/units"
)

// lift is a need with what follows from it, ready to be asked about a family.
type lift struct {
	need    Need
	book    *book
	dynamic float64
	legs    []demand
	set     *setCheck            // nil: no check of the set
	lowest  map[string]factorRow // common hitch factors found so far
}

// demand is one leg: its tension × dynamic as a mass, and how it takes hold.
type demand struct {
	name    string
	load    units.Mass
	hitch   string
	contact float64 // m; 0: not stated
	length  float64 // m; 0: not known
	parts   float64 // what a basket's parts hold beside plumb ones; 1: plumb, or no basket
	choke   float64 // degrees, angle of choke; 0: not stated, or no choker
}

// Choose answers which families may be used and in which size.
//
// A basket counts 2 × the vertical rating × cos(half the angle between its two
// parts); where that is not stated they are taken as side by side, and a warning
// says so. Under EN a set of two to four legs (a basket counting
// as two) is checked as a whole too: load × dynamic ÷ mode factor must not exceed
// the rating of a leg, 1.4 or 1.0 for two and 2.1 or 1.5 for three and four legs,
// up to 45° and up to 60° from vertical, nor the printed rating of the set where
// the table has one. The greater requirement counts.
//
// The error is a need that cannot be answered (no rule set, a tension that is
// not a number, two legs of one name) or a fault in the tables. That no sling may
// be used, or that a leg is too flat, is no error but a line in Answer.Reasons.
func Choose(need Need) (Answer, error) {
	if err := need.check(); err != nil {
		return Answer{}, err
	}
	b, err := openBook()
	if err != nil {
		return Answer{}, fmt.Errorf("sling: tables: %w", err)
	}
	l := newLift(need, b)
	var a Answer
	l.require(&a)
	if err := l.angles(&a); err != nil {
		return Answer{}, err
	}
	l.caution(&a)
	a.Warnings = append(a.Warnings, l.fittings()...)
	fits := false
	for _, f := range b.under(need.Rules) {
		v := l.verdict(f)
		fits = fits || v.Choice != nil
		a.Families = append(a.Families, v)
	}
	for _, s := range l.stockSets() {
		fits = fits || s.Complete()
		a.Stock = append(a.Stock, s)
	}
	if !fits {
		a.Reasons = append(a.Reasons, fmt.Sprintf("no usable sling: no family under %s may be used here and is large enough; the reasons stand with each family", need.Rules))
	}
	return a, nil
}

func newLift(need Need, b *book) *lift {
	l := &lift{need: need, book: b, dynamic: max(1, need.Dynamic), lowest: map[string]factorRow{}}
	for _, leg := range need.Legs {
		l.legs = append(l.legs, demand{leg.Name, units.Force(float64(leg.Tension) * l.dynamic).Mass(), hitchOf(leg), leg.Contact, leg.Length, partsOf(leg), chokeOf(leg)})
	}
	l.set = newSet(need, units.Force(float64(need.Weight)*l.dynamic).Mass())
	return l
}

// require fills in what each leg must be rated for by the common factors.
func (l *lift) require(a *Answer) {
	a.Required, a.Hitch = map[string]units.Mass{}, map[string]float64{}
	dynamic := Factor{"dynamic", l.dynamic, "stated", "stated"}
	if l.need.Dynamic == 0 {
		dynamic = Factor{"dynamic", 1, "no dynamic allowance taken", "assumed"}
	}
	a.Factors = append(a.Factors, dynamic)
	var floor units.Mass
	for _, hitch := range l.hitches() {
		name := "hitch: " + hitch
		if hitch == vertical && slices.ContainsFunc(l.need.Legs, func(leg Leg) bool { return leg.Hitch == "" }) {
			name += " (taken where none is stated)"
		}
		a.Factors = append(a.Factors, l.commonHitch(hitch).as(name))
	}
	a.Factors = append(a.Factors, l.spread()...)
	if l.set.valid(l) {
		var mode factorRow
		floor, mode = l.set.required(l)
		a.SetRequired, a.SetFactor = floor, mode.value*l.commonHitch(l.set.hitch).value
		a.Factors = append(a.Factors, mode.as(fmt.Sprintf("mode, check of the set: %d parts, %s° from vertical", l.set.parts, mode.valid)))
		choke := l.commonHitch(l.set.hitch)
		if choke.value != 1 {
			a.Factors = append(a.Factors, choke.as("choke, check of the set"))
		}
		a.Working = Working{Set: floor, SetLoad: l.set.load, Mode: mode.as("mode"), Choke: choke.as("choke")}
	}
	own := units.Mass(-1)
	for _, leg := range l.legs {
		a.Hitch[leg.name] = l.commonHitch(leg.hitch).value * leg.parts
		need := leg.load / units.Mass(a.Hitch[leg.name])
		a.Required[leg.name] = max(need, floor)
		if need > own {
			own, a.Governing = need, leg.name
			a.Working.own(leg, l.commonHitch(leg.hitch), need)
		}
	}
	a.RequiredMass = a.Required[a.Governing]
}

// hitches returns the hitches in use, each once.
func (l *lift) hitches() (out []string) {
	for _, hitch := range []string{vertical, choker, basket} {
		for _, leg := range l.legs {
			if leg.hitch == hitch {
				out = append(out, hitch)
				break
			}
		}
	}
	return out
}

// anyFamily stands for all families of a rule set, for rows keyed "any".
func anyFamily(rules Rules) familyRow {
	return familyRow{rules: rules, family: anyOne, material: anyOne}
}

// hitch returns the hitch factor of a family; [book.complete] has seen it there.
func (l *lift) hitch(f familyRow, hitch string) factorRow {
	return l.book.rows(f, "hitch", hitch)[0]
}

// commonHitch is the lowest hitch factor of all families under the rule set.
func (l *lift) commonHitch(hitch string) factorRow {
	row, known := l.lowest[hitch]
	if !known {
		row = l.common(func(f familyRow) (factorRow, bool) { return l.hitch(f, hitch), true })
		l.lowest[hitch] = row
	}
	return row
}

// common returns the row of lowest value over the families, so that what is
// required by it is enough for each. It cites every family that has this value,
// with the weakest basis; the note says so where families differ.
func (l *lift) common(of func(familyRow) (factorRow, bool)) factorRow {
	var rows []factorRow
	lowest := factorRow{value: math.Inf(1)}
	for _, f := range l.book.under(l.need.Rules) {
		if row, ok := of(f); ok {
			rows = append(rows, row)
			if row.value < lowest.value {
				lowest = row
			}
		}
	}
	var sources []string
	differ := false
	for _, row := range rows {
		if row.value != lowest.value {
			differ = true
			continue
		}
		for _, source := range strings.Split(row.source, "; ") {
			if !slices.Contains(sources, source) {
				sources = append(sources, source)
			}
		}
		if slices.Index(bases, row.basis) > slices.Index(bases, lowest.basis) {
			lowest.basis = row.basis
		}
	}
	lowest.source, lowest.note = strings.Join(sources, "; "), ""
	if differ {
		lowest.note = "the lowest of all families, here of " + lowest.family
	}
	return lowest
}
