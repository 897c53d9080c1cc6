package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// Surroundings is where the lift is made and what the slings touch. A nil or
// false field was not stated, which is not the same as harmless.
type Surroundings struct {
	Stated          bool
	Temperature     *units.Temperature
	Chemicals       []string // none, if ChemicalsStated
	ChemicalsStated bool
	EdgeRadius      *float64 // m; 0: sharp; nil with EdgesStated: rounded, radius not stated
	EdgesNone       bool
	EdgesStated     bool
	EdgeProtection  string // what covers the edge; "": nothing is stated to
	Surface         string
	Outdoors        *bool
	Conditions      map[string]bool // by the names of their keys; what is not in it was not stated
}

// condition is the key of a condition that is stated by a plain yes or no.
func condition(name, means string, also ...string) key[Surroundings] {
	return key[Surroundings]{name: name, also: also, takes: aYesOrNo + ": " + means, read: func(r *reader, n *yaml.Node, s *Surroundings) {
		if b, ok := r.yesOrNo(n); ok {
			if s.Conditions == nil {
				s.Conditions = map[string]bool{}
			}
			s.Conditions[name] = b
		}
	}}
}

// Limits is what the planner asks of the lift. nil: no limit stated.
type Limits struct {
	LeastFromHorizontal *units.FromHorizontal
	Headroom            *float64 // m, hook to the top of the load
	Tilt                *units.Turn
	Crane               *Crane
	Reach
}

// hottest in °C is the greatest temperature that is taken for meant: above it
// there is no load left to lift.
const hottest = 3000

var surroundingKeys = []key[Surroundings]{
	{name: "temperature", takes: "a temperature with its unit, such as 20 C", read: func(r *reader, n *yaml.Node, s *Surroundings) {
		if t, ok := quantity(r, n, "a temperature with its unit, such as 20 C", units.ParseTemperature); ok {
			if t > hottest {
				r.bad(n, fmt.Sprintf("%s is hotter than any lift", short(n.Value)), "look at the number and its unit")
				return
			}
			s.Temperature = &t
		}
	}},
	{name: "chemicals", takes: someChemicals, read: readChemicals},
	{name: "edges", takes: someEdges, read: readEdges},
	{name: "surface", takes: "what the slings must not mark, such as finished", read: func(r *reader, n *yaml.Node, s *Surroundings) {
		s.Surface, _ = r.text(n)
	}},
	{name: "outdoors", takes: aYesOrNo, read: func(r *reader, n *yaml.Node, s *Surroundings) {
		if b, ok := r.yesOrNo(n); ok {
			s.Outdoors = &b
		}
	}},
	condition("shock", "whether a jerk is to be expected", "shock load"),
	condition("people near", "whether people have to be near the slings"),
	condition("repeated use", "whether the same slings make such lifts again and again"),
	condition("carried by hand", "whether the slings are carried to the load by hand"),
	condition("hard to inspect", "whether the slings can't be looked over before each lift"),
	condition("abrasive", "whether what the slings touch is rough or gritty"),
	condition("weld spatter", "whether there is welding, cutting or grinding near", "hot work"),
}

func readSurroundings(r *reader, n *yaml.Node, l *Load) {
	l.Rigging.Surroundings.Stated = walk(r, n, "`surroundings`", surroundingKeys, &l.Rigging.Surroundings)
}

const someChemicals = "a list of chemicals, such as [oil, dilute acid], or [none]"

func readChemicals(r *reader, n *yaml.Node, s *Surroundings) {
	list := []*yaml.Node{n}
	if n.Kind != yaml.ScalarNode {
		list = r.list(n, someChemicals)
	}
	none := false
	for _, one := range list {
		if one.Kind == yaml.MappingNode {
			r.bad(one, "a chemical is a name, not a group of keys", "write how strong it is before its name: [dilute acid], [hot bleach]")
			continue
		}
		switch w, ok := r.text(one); {
		case !ok:
		case strings.EqualFold(w, "none"):
			none = true
		default:
			s.Chemicals = append(s.Chemicals, w)
		}
	}
	if none && len(s.Chemicals) > 0 {
		r.bad(n, fmt.Sprintf("none, and also %s", strings.Join(s.Chemicals, ", ")), "write the chemicals, or [none]")
	}
	s.ChemicalsStated = none || len(s.Chemicals) > 0
}

const someEdges = "{radius: 5}, {radius: 5, protection: corner pads}, none, rounded or sharp"

var edgeKeys = []key[Surroundings]{
	{name: "radius", takes: aLength, must: true, read: func(r *reader, n *yaml.Node, s *Surroundings) {
		if l, ok := r.length(n); ok && l < 0 {
			r.bad(n, fmt.Sprintf("the radius %s is below zero", short(n.Value)), "write "+aLength+", or 0 for a sharp edge")
		} else if ok {
			s.EdgeRadius = &l
		}
	}},
	{name: "protection", takes: someProtection, read: readProtection},
}

const someProtection = "what covers the edge, such as corner pads, or none"

// readProtection wants to know what it is: that there is some says nothing.
func readProtection(r *reader, n *yaml.Node, s *Surroundings) {
	switch w, ok := r.text(n); strings.ToLower(w) {
	case "yes", "true":
		r.bad(n, fmt.Sprintf("%q does not say what protects the edge", short(w)), "write "+someProtection)
	case "none", "no", "false":
	default:
		if ok {
			s.EdgeProtection = w
		}
	}
}

func readEdges(r *reader, n *yaml.Node, s *Surroundings) {
	if n.Kind == yaml.MappingNode {
		s.EdgesStated = walk(r, n, "`edges`", edgeKeys, s)
		return
	}
	w, ok := r.word(n, "none", "rounded", "sharp")
	s.EdgesStated, s.EdgesNone = ok, w == "none"
	if w == "sharp" {
		s.EdgeRadius = new(float64)
	}
}

var factorKeys = []key[Rigging]{
	{name: "dynamic", takes: aFactor, read: func(r *reader, n *yaml.Node, g *Rigging) { g.Dynamic, _ = r.factor(n) }},
	{name: "planning", takes: aFactor, read: func(r *reader, n *yaml.Node, g *Rigging) { g.PlanningFactor, _ = r.factor(n) }},
}

func readFactors(r *reader, n *yaml.Node, l *Load) { walk(r, n, "`factors`", factorKeys, &l.Rigging) }

const whichAngle = "say which angle: `least angle from horizontal: 45` or `greatest angle from vertical: 45`"

// limits are Limits while they are read: the two ways to write the angle.
type limits struct {
	Limits
	horizontal, vertical *yaml.Node
}

var limitKeys = slices.Concat([]key[limits]{
	{name: "least angle from horizontal", takes: anAngle, read: func(r *reader, n *yaml.Node, l *limits) {
		l.horizontal = n
		if a, ok := r.angle(n, 0, 90); ok {
			angle := units.FromHorizontal(units.Radians(a))
			l.LeastFromHorizontal = &angle
		}
	}},
	{name: "greatest angle from vertical", takes: anAngle, read: func(r *reader, n *yaml.Node, l *limits) {
		l.vertical = n
		if a, ok := r.angle(n, 0, 90); ok {
			angle := units.FromVertical(units.Radians(a)).FromHorizontal()
			l.LeastFromHorizontal = &angle
		}
	}},
	{name: "leg angle", also: []string{"angle", "sling angle", "least angle", "greatest angle"}, refuse: whichAngle},
	{name: "headroom", takes: aLength, read: func(r *reader, n *yaml.Node, l *limits) {
		if h, ok := r.positive(n); ok {
			l.Headroom = &h
		}
	}},
	{name: "tilt", takes: anAngle, read: func(r *reader, n *yaml.Node, l *limits) {
		if a, ok := r.angle(n, 0, 90); ok {
			t := units.Turn(units.Radians(a))
			l.Tilt = &t
		}
	}},
	{name: "crane", takes: "{capacity: 20 t, radius: 8 m, block: 350 kg}", read: readCrane},
}, reachKeys)

func readLimits(r *reader, n *yaml.Node, l *Load) {
	var found limits
	before := r.faults
	if walk(r, n, "`limits`", limitKeys, &found) && r.faults == before {
		r.reachFits(n, &found.Reach)
	}
	if found.horizontal != nil && found.vertical != nil {
		r.bad(found.vertical, "the leg angle is limited twice", "keep one: from horizontal or from vertical")
	}
	l.Rigging.Limits = found.Limits
}
