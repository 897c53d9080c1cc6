package takeoff

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// Bounds on what a file may say, so that no figure overflows and a wrong unit
// is noticed. They are wide of anything that hangs on a hook.
const (
	longest  = 10_000  // m, of any length or coordinate
	heaviest = 1e9     // kg
	thinnest = 1e-6    // m, of a side of a solid
	lightest = 1e-6    // kg
	mostText = 500     // characters
	mostTurn = 360_000 // degrees
)

// What values are called in messages and in the help.
const (
	aText      = "a text"
	aLength    = "a length, such as 1200, 3.2 m or 12' 6-1/2\""
	aPlace     = "a place [x, y, z]"
	aMass      = "a weight with its unit, such as 260 kg"
	aPercent   = "a tolerance, such as 5 % or -1 % / +3 %"
	aFactor    = "a plain number of at least 1, such as 1.1"
	aNumber    = "a plain number"
	anAngle    = "an angle in degrees, such as 30"
	aWhole     = "a whole number"
	aYesOrNo   = "true or false"
	aSize      = "sizes along x, y and z, such as 2400 x 1200 x 20"
	aUnit      = "a unit of length: mm, cm, m, in or ft"
	aMaterial  = "the name of a material, or {name, density, tolerance}"
	aListOf    = "a list of "
	aGroupWith = "a group of "
)

// scalar returns the text of a single value. The text is the file's own:
// what YAML would make of it (012 an octal number, yes a truth value, 12:30 a
// number to base 60) is never asked.
func (r *reader) scalar(n *yaml.Node, takes string) (string, bool) {
	if n.Kind == yaml.ScalarNode && !isEmpty(n) {
		return strings.TrimSpace(n.Value), true
	}
	if n.Kind != yaml.AliasNode {
		r.notThis(n, takes)
	}
	return "", false
}

// notThis records that a value is something else than what was expected.
func (r *reader) notThis(n *yaml.Node, takes string) {
	r.bad(n, fmt.Sprintf("expected %s, found %s", takes, kindOf(n)), "write "+takes)
}

// text returns words to be printed: one line, without anything that could
// steer a terminal.
func (r *reader) text(n *yaml.Node) (string, bool) {
	s, ok := r.scalar(n, aText)
	if !ok {
		return "", false
	}
	s = oneLine(s)
	if i := strings.IndexFunc(s, func(c rune) bool { return !unicode.IsGraphic(c) }); i >= 0 {
		r.bad(n, fmt.Sprintf("the text %q holds a character that cannot be printed", short(s)), "take it away")
		return "", false
	}
	if len([]rune(s)) > mostText {
		r.bad(n, fmt.Sprintf("the text has more than %d characters", mostText), "shorten it")
		return "", false
	}
	return s, true
}

// word returns one of the given words.
func (r *reader) word(n *yaml.Node, words ...string) (string, bool) {
	last := len(words) - 1
	choice := words[last]
	if last > 0 {
		choice = strings.Join(words[:last], ", ") + " or " + choice
	}
	s, ok := r.scalar(n, choice)
	if !ok {
		return "", false
	}
	for _, w := range words {
		if s == w {
			return w, true
		}
	}
	fix := "write " + choice
	if near := units.Nearest(s, words); len(near) > 0 {
		fix = fmt.Sprintf("did you mean `%s`? %s", near[0], fix)
	}
	r.bad(n, fmt.Sprintf("%q is not one of the words that are known here", short(s)), fix)
	return "", false
}

// yesOrNo returns a truth value.
func (r *reader) yesOrNo(n *yaml.Node) (value, ok bool) {
	w, ok := r.word(n, "true", "false", "yes", "no")
	return w == "true" || w == "yes", ok
}

// list returns the values of a list that is not empty.
func (r *reader) list(n *yaml.Node, takes string) []*yaml.Node {
	if n.Kind == yaml.SequenceNode && len(n.Content) > 0 {
		return n.Content
	}
	if n.Kind != yaml.AliasNode {
		r.notThis(n, takes)
	}
	return nil
}

// parsed turns the error of a quantity into a problem at its place.
func (r *reader) parsed(n *yaml.Node, err error) bool {
	if err == nil {
		return true
	}
	text, fix := err.Error(), "write the value as the example in the manual does"
	if p := (*units.ParseError)(nil); errors.As(err, &p) && p.Fix != "" {
		fix = p.Fix
	}
	r.bad(n, text, fix)
	return false
}

// quantity reads one value by a parser of package units.
func quantity[T any](r *reader, n *yaml.Node, takes string, parse func(string) (T, error)) (T, bool) {
	var none T
	s, ok := r.scalar(n, takes)
	if !ok {
		return none, false
	}
	value, err := parse(s)
	if !r.parsed(n, err) {
		return none, false
	}
	return value, true
}

// length returns a length in metres; a bare number takes the unit of the file.
func (r *reader) length(n *yaml.Node) (float64, bool) {
	l, ok := quantity(r, n, aLength, func(s string) (units.Length, error) {
		l, err := units.ParseLength(s, r.bare)
		return l, r.unitless(err)
	})
	return float64(l), ok && r.within(n, float64(l))
}

// unitless adds to the fix of a length without a unit that one for all can be
// written at the top, where there is none.
func (r *reader) unitless(err error) error {
	p := (*units.ParseError)(nil)
	if r.bare.Metres != 0 || !errors.As(err, &p) || !strings.HasPrefix(p.Msg, "no unit") {
		return err
	}
	fix := "; or write `units: mm` at the top for all that have none"
	if r.cells {
		fix = "; or name the unit in the header of the column, such as `length (mm)`"
	}
	return &units.ParseError{Got: p.Got, Msg: p.Msg, Fix: p.Fix + fix}
}

// within refuses a length that no load has, most likely a wrong unit.
func (r *reader) within(n *yaml.Node, metres float64) bool {
	if math.Abs(metres) <= longest { // false for NaN too
		return true
	}
	r.bad(n, fmt.Sprintf("the length %s is more than %d m", short(n.Value), longest), "look at its unit")
	return false
}

// positive returns a length that is more than nothing, in metres.
func (r *reader) positive(n *yaml.Node) (float64, bool) {
	l, ok := r.length(n)
	if ok && !(l >= thinnest) {
		r.bad(n, fmt.Sprintf("the length %s must be more than zero", short(n.Value)), "write "+aLength)
		return 0, false
	}
	return l, ok
}

// place returns a place [x, y, z] in metres.
func (r *reader) place(n *yaml.Node) (geom.Vec, bool) {
	v, ok := r.tuple(n, 3, aPlace)
	if !ok {
		return geom.Vec{}, false
	}
	return geom.Vec{v[0], v[1], v[2]}, true
}

// tuple returns a list of exactly so many lengths, in metres.
func (r *reader) tuple(n *yaml.Node, count int, takes string) ([]float64, bool) {
	if n.Kind != yaml.SequenceNode || len(n.Content) != count {
		if n.Kind == yaml.SequenceNode && len(n.Content) > 0 {
			r.bad(n, fmt.Sprintf("%d numbers where %d are needed", len(n.Content), count),
				"write "+takes+", with a decimal point and not a comma inside a number")
		} else if n.Kind != yaml.AliasNode {
			r.notThis(n, takes+", in square brackets")
		}
		return nil, false
	}
	out, all := make([]float64, count), true
	for i, one := range n.Content {
		l, ok := r.length(one)
		out[i], all = l, all && ok
	}
	return out, all
}

// sizes returns the lengths of `a x b x c`, in metres.
func (r *reader) sizes(n *yaml.Node, count int) ([]float64, bool) {
	ls, ok := quantity(r, n, aSize, func(s string) ([]units.Length, error) {
		ls, err := units.ParseSize(s, r.bare, count)
		return ls, r.unitless(err)
	})
	if !ok {
		return nil, false
	}
	var out []float64
	for _, l := range ls {
		if !r.within(n, float64(l)) {
			return nil, false
		}
		if !(float64(l) >= thinnest) {
			r.bad(n, fmt.Sprintf("each size of %s must be more than zero", short(n.Value)), "write "+aSize)
			return nil, false
		}
		out = append(out, float64(l))
	}
	return out, true
}

// mass returns a mass that is more than nothing.
func (r *reader) mass(n *yaml.Node) (units.Mass, bool) {
	m, ok := quantity(r, n, aMass, units.ParseMass)
	if ok && !(m >= lightest && m <= heaviest) {
		r.bad(n, fmt.Sprintf("the weight %s must be more than zero and at most %g kg", short(n.Value), float64(heaviest)), "write "+aMass)
		return 0, false
	}
	return m, ok
}

// factor returns a plain number from 1 to 10.
func (r *reader) factor(n *yaml.Node) (float64, bool) {
	f, ok := quantity(r, n, aFactor, units.ParseNumber)
	if ok && !(f >= 1 && f <= 10) {
		r.bad(n, fmt.Sprintf("the factor %s must be from 1 to 10", short(n.Value)), "write "+aFactor+"; 10 % more is 1.1")
		return 0, false
	}
	return f, ok
}

// angle returns an angle in degrees that lies strictly between two others.
func (r *reader) angle(n *yaml.Node, above, below float64) (float64, bool) {
	a, ok := quantity(r, n, anAngle, units.ParseDegrees)
	if ok && !(a > above && a < below) {
		r.bad(n, fmt.Sprintf("the angle %s must be between %g and %g degrees", short(n.Value), above, below), "write "+anAngle)
		return 0, false
	}
	return a, ok
}

// whole returns a whole number from 1 to most.
func (r *reader) whole(n *yaml.Node, most int) (int, bool) {
	f, ok := quantity(r, n, aWhole, units.ParseNumber)
	if !ok {
		return 0, false
	}
	if !(f >= 1 && f <= float64(most)) || f != math.Trunc(f) {
		r.bad(n, fmt.Sprintf("%s must be a whole number from 1 to %d", short(n.Value), most), "write "+aWhole)
		return 0, false
	}
	return int(f), true
}

// tolerance returns a fractional tolerance: -0.05 and +0.05 for 5 %.
func (r *reader) tolerance(n *yaml.Node) (span, bool) {
	s, ok := quantity(r, n, aPercent, func(s string) (span, error) {
		low, high, err := units.ParseTolerance(s)
		return span{low, high}, err
	})
	if ok && !(s.low <= 0 && s.low >= -0.95 && s.high >= 0 && s.high <= 10) {
		r.bad(n, fmt.Sprintf("the tolerance %s must reach from at most 95 %% less to at most 1000 %% more", short(n.Value)),
			"write "+aPercent)
		return span{}, false
	}
	return s, ok
}
