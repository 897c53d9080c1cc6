package sling

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/units"
)

// verdict judges one family and, unless it is out, finds its size.
func (l *lift) verdict(f familyRow) Verdict {
	o := &opinion{use: Yes}
	v := Verdict{Family: f.family, Material: f.material}
	own := l.judge(f, o)
	v.ByTag, v.Cautions = f.byTag, l.book.warnings(f)
	for _, row := range l.book.rows(f, "design", "") {
		design := row.as("design factor")
		v.Design = &design
	}
	switch {
	case o.use == No:
	case f.byTag:
		o.add(Care, "no table of its capacities is published: only the tag of the sling says what it may carry (%s)", f.cite)
		l.touch(f, nil, o)
		l.carried(f, nil, o)
	default:
		l.size(f, own, &v, o)
	}
	v.Use, v.Reasons, v.Against = o.use, o.reasons, o.against
	return v
}

// judge says whether a family may be used here, whatever its size, and returns
// what the surroundings take off its rating.
func (l *lift) judge(f familyRow, o *opinion) fit {
	heat, warm := l.heat(f, o)
	l.chemistry(f, o)
	l.edges(f, o)
	l.surface(f, o)
	l.conditions(f, o)
	l.parts(o)
	l.chokes(f, o)
	if !warm {
		return fit{heat: 1}
	}
	return fit{heat: heat.Value, factors: []Factor{heat}}
}

// parts gives care where a basket's own two parts may stand at an angle: only
// the leg is known, and parts at 30° from horizontal carry twice the tension of
// vertical ones.
func (l *lift) parts(o *opinion) {
	for _, leg := range l.need.Legs {
		if hitchOf(leg) == basket && leg.Included == nil {
			o.add(Care, "not stated: the angle of the basket's own two parts; they are taken as vertical, and hold sin(angle from horizontal) of that")
			return
		}
	}
}

// fit is how a family's size takes the lift.
type fit struct {
	heat    float64 // temperature factor
	use     float64 // greatest of required/rated
	factors []Factor
	barred  string
	work    Working
}

// ok reports whether the size is large enough. The margin is for the last
// digits of a conversion: 9806.65 N is to fit a rating of 1 t.
func (t fit) ok() bool { return t.barred == "" && t.use <= 1+1e-9 }

// try puts one size under the lift.
func (l *lift) try(f familyRow, own fit, size rating) fit {
	t := fit{heat: own.heat}
	least := 1.0 // of the factors that hold beside the hitch
	worst := -1.0
	for _, leg := range l.legs {
		b := l.bearing(f, leg, size)
		if b.barred != "" && t.barred == "" {
			t.barred = b.barred
		}
		hitch := l.hitch(f, leg.hitch)
		rest := t.heat * b.value * leg.parts
		if row, ok := l.chokeRow(f, leg); ok {
			rest *= row.value
			if row.value != 1 {
				b.factors = append(b.factors, row.as(fmt.Sprintf("angle of choke %.4g°", leg.choke)))
			}
		}
		least = min(least, rest/leg.parts) // a check of the set goes by the angle of the parts, and takes them as even
		use := float64(leg.load) / (float64(size.vertical) * hitch.value * rest)
		if printed := size.printed[leg.hitch]; printed > 0 {
			use = max(use, float64(leg.load)/(float64(printed)*rest))
		}
		if use > worst {
			worst = use
			t.work.own(leg, hitch, leg.load/units.Mass(hitch.value*rest))
			t.factors = own.factors
			if hitch.value != l.commonHitch(leg.hitch).value {
				t.factors = append([]Factor{hitch.as("hitch: " + leg.hitch + ", of this family")}, t.factors...)
			}
			t.factors = append(t.factors[:len(t.factors):len(t.factors)], b.factors...)
		}
	}
	t.use = worst
	if l.set.valid(l) {
		t.use = max(t.use, l.set.use(l, f, size, least))
	}
	return t
}

// size fills in the smallest size that is large enough, or the reason why none
// is.
func (l *lift) size(f familyRow, own fit, v *Verdict, o *opinion) {
	var best *rating
	var bestFit, barred fit
	for _, size := range l.book.sizes(f) {
		t := l.try(f, own, size)
		if t.ok() {
			v.Choice, v.Factors = l.choice(f, size, t), t.factors
			l.touch(f, &size, o)
			l.carried(f, &size, o)
			return
		}
		if t.barred != "" {
			barred = t
		} else if best == nil || t.use <= bestFit.use {
			best, bestFit = &size, t
		}
	}
	l.touch(f, nil, o)
	if v.Factors = bestFit.factors; best == nil {
		v.Factors = barred.factors
	}
	if best != nil {
		o.reasons = append(o.reasons, fmt.Sprintf("no size is large enough: the best, %s, is rated %s and would be used to %.3g of what it may carry (%s)",
			best.size, best.vertical.FormatDown(units.Both), bestFit.use, best.cite))
	}
	if barred.barred != "" {
		o.reasons = append(o.reasons, "a size is not allowed: "+barred.barred)
	}
}

func (l *lift) choice(f familyRow, size rating, t fit) *Choice {
	c := &Choice{Size: size.size, Rated: size.vertical, Required: size.vertical * units.Mass(t.use), Utilisation: min(t.use, 1), Source: size.source, Basis: size.basis, Working: t.work}
	notes := []string{}
	if size.note != "" {
		notes = append(notes, size.note)
	}
	c.AtAngles = l.atAngles(f, size, t)
	var text string
	c.Weight, text = l.ownWeight(size)
	notes = append(notes, text)
	if least, row, ok := l.leastPin(f, &size); ok {
		notes = append(notes, fmt.Sprintf("soft eye on a pin of at least %s (%s)", millimetres(least), row.cite))
	}
	c.Note = strings.Join(notes, "; ")
	return c
}

// atAngles is what one leg of a size holds up at the angles that tables print: its
// rating × the factors of this lift × sin(angle from horizontal).
func (l *lift) atAngles(f familyRow, size rating, t fit) []AtAngle {
	holds := float64(size.vertical) * l.hitch(f, l.legs[0].hitch).value
	for _, factor := range t.factors {
		if !strings.HasPrefix(factor.Name, "hitch") {
			holds *= factor.Value
		}
	}
	var out []AtAngle
	for _, degrees := range []float64{60, 45, 30} {
		angle := units.FromHorizontal(units.Radians(degrees))
		out = append(out, AtAngle{angle, units.Mass(holds * math.Sin(float64(angle)))})
	}
	return out
}

// ownWeight returns the weight of all legs of a size, a basket having two parts,
// and where it comes from.
func (l *lift) ownWeight(size rating) (units.Mass, string) {
	if size.perMetre == 0 {
		return 0, "own weight not known: ask"
	}
	length := 0.0
	for _, leg := range l.legs {
		if leg.length == 0 {
			return 0, fmt.Sprintf("own weight not known: no length of leg %s", leg.name)
		}
		length += leg.lines() * leg.length
	}
	return size.perMetre * units.Mass(length), "own weight without end fittings: " + size.perMetreCite.String()
}
