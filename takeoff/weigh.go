package takeoff

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
	"plumbhook/units"
)

// Weighed is what a load comes to.
type Weighed struct {
	Best, Low, High units.Mass  // Low and High: every part off the same way
	CG              geom.Vec    // m, at the best masses
	Range           geom.Extent // m, the box of all places that the CG can have
	Inertia         mgl64.Mat3  // kg·m², about CG, load axes, products with a minus sign
	Volume          float64     // m³ of material; weights have none
	Extent          geom.Extent // m, of all parts
	Parts           []PartWeight
	Allowances      []AllowanceWeight
	spots           spots
}

// PartWeight is one line of the weight take-off. Masses and volume are of all
// copies together.
type PartWeight struct {
	Name, Kind, Written string
	Count               int
	Volume              float64       // m³
	Density             units.Density // of its material; 0 for a known weight
	Best, Low, High     units.Mass
	LowBy, HighBy       float64  // Low and High as parts of Best that come on top
	CG                  geom.Vec // m
	Material            string
	Status, Basis       string
	Suspect             string
}

// CGReach returns how far the centre of gravity can lie in a direction: the
// greatest of CG·dir, in metres for a dir of length 1, with the mass of each
// piece anywhere in its range on its own. See spots.reach.
func (w Weighed) CGReach(dir geom.Vec) float64 { return w.spots.reach(dir) }

// Weigh adds up the load, allowances included. The weight's low and high are
// the straight sums of the parts' and the allowances' (all off the same way, the
// widest range); the CG's range takes the mass and the place of each piece on
// its own, which is the widest for the CG.
//
// Inertia: a solid has its own, liquid that of its shape as drawn; a weight with a box is taken as spread evenly
// over the box, a weight without one as a point, so that the load's inertia is
// then on the low side. An allowance without a place is taken as spread like the
// mass of what it is of.
//
// An error means that the figures are no figures: there is no part, or a part
// of no weight. Read hands out no such load.
func (l *Load) Weigh() (Weighed, error) {
	var w Weighed
	if len(l.Parts) == 0 {
		return w, fmt.Errorf("%s: no parts to weigh", l.Name)
	}
	for i, p := range l.Parts {
		one := weighPart(p)
		if !(one.Low > 0) || math.IsInf(float64(one.High), 0) {
			return Weighed{}, fmt.Errorf("%s: part %q comes to %g kg, from %g to %g", l.Name, p.Name, float64(one.Best), float64(one.Low), float64(one.High))
		}
		w.Parts = append(w.Parts, one)
		w.Best, w.Low, w.High = w.Best+one.Best, w.Low+one.Low, w.High+one.High
		w.Volume += one.Volume
		e := p.Extent()
		if i == 0 {
			w.Extent = e
		}
		w.Extent = w.Extent.Union(e)
		w.spots = append(w.spots, p.spots()...)
	}
	for _, a := range l.Allowances {
		one, err := a.weigh(l.Parts)
		if err != nil {
			return Weighed{}, fmt.Errorf("%s: %w", l.Name, err)
		}
		w.Allowances = append(w.Allowances, one)
		w.Best, w.Low, w.High = w.Best+one.Best, w.Low+one.Low, w.High+one.High
		w.spots = append(w.spots, one.spots()...)
	}
	w.CG = w.balance()
	w.Range = w.spots.box()
	var second mgl64.Mat3
	for _, p := range l.Parts {
		second = second.Add(p.secondOfMass(w.CG))
	}
	for _, a := range w.Allowances {
		second = second.Add(a.secondOfMass(w.CG))
	}
	w.Inertia = geom.Inertia(second)
	return w, nil
}

// weighPart returns the line of one part.
func weighPart(p Part) PartWeight {
	best, low, high := p.Mass()
	density := p.Material.Density
	if p.weight() {
		density = 0
	}
	return PartWeight{
		Density: density, LowBy: p.Low, HighBy: p.High,
		Name: p.Name, Kind: p.Kind, Written: p.Written, Count: p.Count,
		Volume: p.volume(), Best: best, Low: low, High: high, CG: p.CG(),
		Material: p.Material.Name, Status: p.Status, Basis: p.Basis, Suspect: p.Suspect,
	}
}

// volume returns the volume of material of all copies, in m³.
func (p Part) volume() float64 {
	if p.weight() {
		return 0
	}
	return p.one(p.Pose.Move).Volume * float64(len(p.Places))
}

// balance returns the common centre of gravity. It is measured from the first
// part, so that a far datum costs no digits.
func (w Weighed) balance() geom.Vec {
	from := w.Parts[0].CG
	var moment geom.Vec
	for _, p := range w.Parts {
		moment = moment.Add(p.CG.Sub(from).Mul(float64(p.Best)))
	}
	for _, a := range w.Allowances {
		moment = moment.Add(a.CG.Sub(from).Mul(float64(a.Best)))
	}
	return from.Add(moment.Mul(1 / float64(w.Best)))
}

// spots returns the copies of a part as pieces of the load.
func (p Part) spots() spots {
	mass, first, half := float64(p.massOfOne()), p.firstCG(), p.slack()
	out := make(spots, len(p.Places))
	for k, c := range p.Places {
		out[k] = spot{at: c.Point(first), half: half, low: mass * (1 + p.Low), high: mass * (1 + p.High)}
	}
	return out
}

// secondOfMass returns ∫r rᵀ dm of all copies about a point, in kg·m².
func (p Part) secondOfMass(about geom.Vec) mgl64.Mat3 {
	near := p.Pose.Move
	one := p.one(near).Times(float64(p.Material.Density))
	if p.weight() {
		near = p.GivenAt
		one = geom.Moments{Volume: float64(p.Given)}
		if p.Liquid != nil {
			one = p.Liquid.moments.Times(p.Liquid.Density).Posed(p.Liquid.Pose.Shifted(near.Mul(-1)))
		} else if p.Solid != nil {
			box := p.Solid.Moments()
			one = box.Times(float64(p.Given) / box.Volume).Posed(p.Pose.Shifted(near.Mul(-1)))
		}
	}
	return p.copies(one, near, about).Second
}
