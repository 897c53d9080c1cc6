package takeoff

import (
	"fmt"
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
	"plumbhook/units"
)

// Allowance is weight that the parts do not show: weld metal, paint, lining,
// bolts. It is a part of the mass of what it is of, a layer on its surface, or
// a known weight.
type Allowance struct {
	Name, Of string
	Written  string // its figures as the planner wrote them, such as add 1.5 %, high 2.5 %
	Line     int    // in From
	From     string // the load file of the sub-assembly that it belongs to; empty: the load's own file

	kind              allowanceKind
	figure, low, high float64 // of the mass as a part, kg/m², or kg
	share             float64 // of the surface, for a layer
	why               string  // where figure and range come from
	of                partsOf
	at                []geom.Vec // m, of a known weight: its places; none: not known
	copies            int        // of a known weight, one for each standing of its sub-assembly
}

type allowanceKind int

const (
	partOfMass allowanceKind = iota
	layer
	knownWeight
)

// partsOf are the parts that an allowance is of: all, one part, or all of a
// material; within one standing of a sub-assembly, or the whole load.
type partsOf struct {
	part, material string
	within         *assembly
}

// holds tells whether a part is one of them. A sub-assembly goes by its name as
// a part does.
func (o partsOf) holds(p Part) bool {
	switch {
	case o.within != nil && !p.standsIn(o.within):
		return false
	case o.part != "":
		return p.Name == o.part || strings.HasPrefix(p.Name, o.part+" / ")
	case o.material != "":
		return plainName(p.Material.Name) == plainName(o.material)
	}
	return p.Liquid == nil // weld metal and paint do not grow with what is in a tank
}

// AllowanceWeight is what an allowance comes to.
type AllowanceWeight struct {
	Name, Of, Written, Basis string
	Best, Low, High          units.Mass
	CG                       geom.Vec    // m: where it is, or else the middle of what it is of
	Box                      geom.Extent // m: where it may be
	Placed                   bool        // the load file says where it is

	at     []geom.Vec // its places, where Placed
	second mgl64.Mat3 // kg·m², ∫r rᵀ dm about CG
}

// host is what an allowance is of, all parts together.
type host struct {
	count           int
	best, low, high float64     // kg
	cg              geom.Vec    // m, at the best masses
	box             geom.Extent // m, of all places that the parts may have
	area            float64     // m², of the solids, cuts not regarded
	middle          geom.Vec    // m, of that area
	bare            []string    // parts of which no surface is known, for a layer
}

// hostOf adds up the parts that an allowance is of. For a layer only those
// with a solid of their own count.
func (a Allowance) hostOf(parts []Part) host {
	var h host
	var moment, areaMoment geom.Vec
	var from geom.Vec // a place within the load, so that a far datum costs no digits
	for _, p := range parts {
		switch {
		case !a.of.holds(p):
			continue
		case a.kind == layer && !p.hasSurface():
			if p.Kind != "weld" {
				h.bare = append(h.bare, p.Name)
			}
			continue
		}
		best, low, high := p.Mass()
		box := p.reachable()
		if h.count == 0 {
			from, h.box = p.CG(), box
		}
		h.count++
		h.best, h.low, h.high = h.best+float64(best), h.low+float64(low), h.high+float64(high)
		h.box = h.box.Union(box)
		moment = moment.Add(p.CG().Sub(from).Mul(float64(best)))
		if a.kind == layer {
			area, middle := p.surface()
			h.area += area
			areaMoment = areaMoment.Add(middle.Sub(from).Mul(area))
		}
	}
	if h.best > 0 {
		h.cg = from.Add(moment.Mul(1 / h.best))
	}
	if h.area > 0 {
		h.middle = from.Add(areaMoment.Mul(1 / h.area))
	}
	return h
}

// weigh returns what the allowance comes to on these parts. Where none of what
// it is of is among them, it is nothing.
//
//	part of the mass: figure × Σm, from low × Σ least to high × Σ most
//	layer:            figure × share × Σ area
//	known weight:     as it is
//
// Its place: that of a known weight with `at`; else it may be anywhere in the
// box of what it is of, and is best taken at the CG of that, or at the middle
// of its surface.
func (a Allowance) weigh(parts []Part) (AllowanceWeight, error) {
	w := AllowanceWeight{Name: a.Name, Of: a.Of, Written: a.Written}
	h := a.hostOf(parts)
	if h.count == 0 {
		w.Basis = "nothing of what it is of is here"
		return w, nil
	}
	low, best, high := a.low, a.figure, a.high
	w.CG, w.Box = h.cg, h.box
	switch a.kind {
	case partOfMass:
		low, best, high = low*h.low, best*h.best, high*h.high
		w.Basis = fmt.Sprintf("%s of the %s of %s; %s", percent(a.figure), units.Mass(h.best).Format(units.Both), a.Of, a.why)
	case layer:
		area := h.area * a.share
		low, best, high = low*area, best*area, high*area
		w.CG = h.middle
		w.Basis = fmt.Sprintf("%s × %.4g m² of surface of %s, cuts and contact between parts not regarded; %s", kgPerSquareMetre(a.figure), area, a.Of, a.why)
		if len(h.bare) > 0 {
			w.Basis += "; not on what is known by its weight alone: " + strings.Join(h.bare, ", ")
		}
	case knownWeight:
		n := float64(a.copies)
		low, best, high = low*n, best*n, high*n
		w.Basis = "as given; " + a.why
	}
	if len(a.at) > 0 {
		w.place(a.at)
	} else {
		w.Basis += "; it may be anywhere in the box of " + a.Of
		w.spreadLike(a, h, parts, best)
	}
	if a.From != "" {
		w.Basis += "; in " + a.From
	}
	w.Low, w.Best, w.High = units.Mass(low), units.Mass(best), units.Mass(high)
	if !(low >= 0 && best >= low && high >= best) || math.IsInf(high, 0) {
		return AllowanceWeight{}, fmt.Errorf("allowance %q comes to %g kg, from %g to %g", a.Name, best, low, high)
	}
	return w, nil
}

// place puts an allowance where the load file says.
func (w *AllowanceWeight) place(at []geom.Vec) {
	w.Placed, w.at = true, at
	w.Box = geom.Extent{Min: at[0], Max: at[0]}
	var sum geom.Vec
	for _, c := range at {
		w.Box = w.Box.Union(geom.Extent{Min: c, Max: c})
		sum = sum.Add(c.Sub(at[0]))
	}
	w.CG = at[0].Add(sum.Mul(1 / float64(len(at))))
}

// spreadLike takes the allowance, for the load's inertia, as spread like the
// mass of what it is of.
func (w *AllowanceWeight) spreadLike(a Allowance, h host, parts []Part, best float64) {
	for _, p := range parts {
		if a.of.holds(p) && (a.kind != layer || p.hasSurface()) {
			w.second = w.second.Add(p.secondOfMass(h.cg).Mul(best / h.best))
		}
	}
}

// secondOfMass returns ∫r rᵀ dm about a point, in kg·m².
func (w AllowanceWeight) secondOfMass(about geom.Vec) mgl64.Mat3 {
	if !w.Placed {
		off := w.CG.Sub(about)
		return w.second.Add(off.OuterProd3(off).Mul(float64(w.Best)))
	}
	var sum mgl64.Mat3
	for _, c := range w.at {
		off := c.Sub(about)
		sum = sum.Add(off.OuterProd3(off).Mul(float64(w.Best) / float64(len(w.at))))
	}
	return sum
}

// spots returns the allowance as pieces of the load.
func (w AllowanceWeight) spots() spots {
	if !(w.High > 0) {
		return nil
	}
	if !w.Placed {
		return spots{{at: w.Box.Center(), half: w.Box.Size().Mul(0.5), low: float64(w.Low), high: float64(w.High)}}
	}
	n := float64(len(w.at))
	var out spots
	for _, c := range w.at {
		out = append(out, spot{at: c, low: float64(w.Low) / n, high: float64(w.High) / n})
	}
	return out
}
