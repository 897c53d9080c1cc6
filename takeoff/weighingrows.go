package takeoff

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
)

// weightItself is what the first equation of a weighing is about.
const weightItself = "weight"

// narrow is how wide a pattern of cells is, as a part of its length, before it
// counts as more than a line. Common practice, no source: what is narrower are
// cells in a row, and the load stands on edges or is held upright.
const narrow = 0.01

// onCells is a weighing that is made ready.
type onCells struct {
	Weighing
	on     []bool   // the parts
	net    float64  // what the tare leaves of each reading, as a part of it
	weight float64  // kg, as read, net
	middle geom.Vec // m, where the readings balance
	about  geom.Vec // m, the CG of the parts that are on, as the take-off has it
	lever  float64  // kg·m, of the middle above that CG: what an error of the tilt works on
}

// stand makes a weighing ready, and refuses one that can't be.
func (f *fold) stand(w Weighing) (onCells, error) {
	s := onCells{Weighing: w, on: make([]bool, len(f.items))}
	if err := w.sound(); err != nil {
		return s, err
	}
	var any bool
	for j, one := range f.items {
		s.on[j] = !w.off(one.name)
		any = any || s.on[j]
	}
	if !any {
		return s, fmt.Errorf("no part of the load was on: take parts that were on out of `without`")
	}
	for _, name := range w.Without {
		if !(Weighing{Without: []string{name}}).offAny(f.items) {
			return s, fmt.Errorf("no part is called %q: write in `without` the names of parts of this load", name)
		}
	}
	s.about = f.middle(s.on)
	var gross float64
	var moment geom.Vec
	for _, c := range w.Cells {
		gross += float64(c.Reads)
		moment = moment.Add(c.At.Sub(s.about).Mul(float64(c.Reads)))
	}
	s.net = 1 - float64(w.Tare)/gross
	s.weight = gross * s.net
	s.middle = s.about.Add(moment.Mul(1 / gross))
	s.lever = s.weight * s.middle.Sub(s.about).Dot(w.Up)
	return s, nil
}

// offAny tells whether a weighing was without any of some parts.
func (w Weighing) offAny(items []item) bool {
	for _, one := range items {
		if w.off(one.name) {
			return true
		}
	}
	return false
}

// sound refuses a weighing whose figures can't be used.
func (w Weighing) sound() error {
	if len(w.Cells) == 0 {
		return fmt.Errorf("no cells: give at least one with its place and reading")
	}
	if !(math.Abs(w.Up.Len()-1) < 1e-9) {
		return fmt.Errorf("up is %v: give a direction of length 1", w.Up)
	}
	if !(w.Places >= 0 && w.Places <= longest) || !(w.TiltAccuracy >= 0 && w.TiltAccuracy <= math.Pi/4) || !(w.Tare >= 0 && w.Tare <= heaviest) {
		return fmt.Errorf("places off by %g m, tilt by %g rad, a tare of %g kg: want figures from zero up", w.Places, w.TiltAccuracy, float64(w.Tare))
	}
	var sum float64
	for _, c := range w.Cells {
		if !(c.Accuracy > 0 && c.Accuracy <= heaviest) || !(c.At.Len() < 10*longest) {
			return fmt.Errorf("cell %q at %v with an accuracy of %g kg: want a place, and an accuracy above zero", c.Name, c.At, float64(c.Accuracy))
		}
		if !(c.Reads >= -c.Accuracy && c.Reads <= heaviest) {
			return fmt.Errorf("cell %q reads %g kg: want at least zero, within its accuracy of %g kg; set it to zero and weigh again", c.Name, float64(c.Reads), float64(c.Accuracy))
		}
		sum += float64(c.Reads)
	}
	if !(sum > 0 && sum > float64(w.Tare)) {
		return fmt.Errorf("the cells read %g kg in all and the tare is %g kg: nothing is left for the load", sum, float64(w.Tare))
	}
	return nil
}

// rows are the equations of a weighing: weight, then the moment along each
// direction that its cells tell of.
func (s onCells) rows(number int) []row {
	out := []row{{sum: sum{one: 1, about: s.about, on: s.on}, weighing: number, reads: s.weight, what: weightItself}}
	for _, e := range s.directions() {
		out = append(out, row{
			sum:      sum{along: e, about: s.about, on: s.on},
			weighing: number, reads: s.weight * e.Dot(s.middle.Sub(s.about)), what: "CG along " + directionName(e),
		})
	}
	return out
}

// directions are the level directions along which the cells tell the CG: two
// square to each other, the one along which the cells stand in line, or none.
func (s onCells) directions() []geom.Vec {
	e, g := levelAxes(s.Up)
	var center geom.Vec
	for _, c := range s.Cells {
		center = center.Add(c.At.Sub(s.about).Mul(1 / float64(len(s.Cells))))
	}
	var ee, eg, gg float64 // second moments of the pattern
	for _, c := range s.Cells {
		p := c.At.Sub(s.about).Sub(center)
		x, y := p.Dot(e), p.Dot(g)
		ee, eg, gg = ee+x*x, eg+x*y, gg+y*y
	}
	middle, reach := (ee+gg)/2, math.Hypot((ee-gg)/2, eg)
	switch long, wide := math.Sqrt(middle+reach), math.Sqrt(max(middle-reach, 0)); {
	case long < 1e-3: // m: no pattern at all
		return nil
	case wide < narrow*long:
		sin, cos := math.Sincos(math.Atan2(2*eg, ee-gg) / 2)
		return []geom.Vec{e.Mul(cos).Add(g.Mul(sin))}
	}
	return []geom.Vec{e, g}
}

// levelAxes are two directions square to up and to each other, as near to axes
// of the load as can be.
func levelAxes(up geom.Vec) (geom.Vec, geom.Vec) {
	least := 0
	for k := range 3 {
		if math.Abs(up[k]) < math.Abs(up[least])-1e-9 {
			least = k
		}
	}
	if math.Abs(up[0]) < 0.9 {
		least = 0 // x first, where it is level enough
	}
	e := axis(least).Sub(up.Mul(up[least]))
	e = e.Mul(1 / e.Len())
	return e, up.Cross(e)
}

// directionName names a direction: its axis, or its proportions.
func directionName(e geom.Vec) string {
	for k, name := range "xyz" {
		if math.Abs(e[k]) > 1-1e-6 {
			return string(name)
		}
	}
	var parts []string
	for _, x := range e {
		parts = append(parts, strings.Replace(fmt.Sprintf("%.2f", x), "-0.00", "0.00", 1))
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// noise is the covariance of two equations from what the cells, their places
// and the tilt may be off. An error τ of the tilt about an axis a turns up by
// τ (u × a), so that a level direction e tells τ·lever·e·(a × u) too much or
// too little. Derived here.
func (f *fold) noise(a, b row) float64 {
	if a.weighing != b.weighing {
		return 0
	}
	w := f.weighings[a.weighing]
	var total float64
	for _, c := range w.Cells {
		accuracy, reads := w.net*float64(c.Accuracy), w.net*float64(c.Reads)
		total += accuracy * accuracy / 3 * a.of(c.At) * b.of(c.At)
		total += reads * reads * w.Places * w.Places / 3 * a.along.Dot(b.along)
	}
	sway := w.About.Cross(w.Up).Mul(w.lever * w.TiltAccuracy)
	return total + sway.Dot(a.along)*sway.Dot(b.along)/3
}
