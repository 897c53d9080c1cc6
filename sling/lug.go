package sling

import (
	"fmt"
	"math"

	"plumbhook/units"
)

// LugSource is where the formulas of [LugPlate.Outline] stand. The standard itself
// was not read: they were checked against public calculation sheets that name it.
const LugSource = "ASME BTH-1 3-3.3, eq. (3-45) to (3-53) of the 2014 edition, as reprinted"

// LugPlate is a flat lug with a round hole, pulled in its own plane.
type LugPlate struct {
	Hole, Pin units.Length // m, diameters
	Thickness units.Length // m
	Width     units.Length // m, of the whole plate across the pull, the hole in its middle
	Edge      units.Length // m, from the centre of the hole to the edge the way it is pulled
	Yield     units.Strength
	Tensile   units.Strength
	Category  string // A or B
}

// LugOutline is what the formulas allow a lug. It is an outline, to be verified by
// an engineer: of the plate round its hole alone, pulled in its plane. A pull out of
// the plate, the weld, and what the lug stands on are not in it.
type LugOutline struct {
	Nd        float64    // nominal design factor
	Clearance float64    // Cr, what the play of the pin leaves of the strength
	Limits    []LugLimit // the least of them governs
}

// LugLimit is one way in which a lug may fail.
type LugLimit struct {
	Name    string
	Allowed units.Force // N, the design factor in it
	Basis   string
}

// Least is the limit that governs.
func (o LugOutline) Least() LugLimit {
	least := o.Limits[0]
	for _, l := range o.Limits {
		if l.Allowed < least.Allowed {
			least = l
		}
	}
	return least
}

// designFactors are the nominal design factors of ASME BTH-1 3-1.3 (from memory):
// A for loads that are known and calm use, B where they are not.
var designFactors = map[string]float64{"A": 2.0, "B": 3.0}

// onConnections is what the design factor of a connection is times the nominal one:
// ASME BTH-1 3-1.3 (from memory; the formulas as reprinted have it in them).
const onConnections = 1.2

// shearPart is the shear strength as a part of the tensile: eq. (3-50).
const shearPart = 0.70

// Outline works out what the plate may carry, by ASME BTH-1 3-3.3, see [LugSource]:
//
//	Cr = 1 − 0.275 √(1 − Dp²/Dh²)
//	b = (width − Dh)/2, beff = the least of b, 4t and 0.6 b (Fu/Fy) √(Dh/b)
//	tension through the hole  Pt = Cr Fu/(1.2 Nd) · 2 t beff
//	fracture on one plane     Pb = Cr Fu/(1.2 Nd) · [1.13 (R − Dh/2) + 0.92 b/(1 + b/Dh)] t
//	shear on two planes       Pv = 0.70 Fu/(1.2 Nd) · Av
//	    Av = 2 [a + Dp/2 (1 − cos φ) − Z'] t, φ = 55° Dp/Dh, a = R − Dh/2
//	    Z' = r − √(r² − (Dp/2 sin φ)²), for a round edge of radius r: eq. (C3-2)
//	bearing of the pin        Pp = 1.25 Fy/Nd · Dp t
//
// with R the distance from the hole's centre to the edge. Cr is taken at any play,
// though the standard lets it be 1 for Dp/Dh above 0.90; the edge is taken as round,
// of the lesser of R and half the width: both on the safe side.
func (l LugPlate) Outline() (LugOutline, error) {
	if err := l.check(); err != nil {
		return LugOutline{}, err
	}
	dh, dp, t, r := float64(l.Hole), float64(l.Pin), float64(l.Thickness), float64(l.Edge)
	fy, fu, nd := float64(l.Yield), float64(l.Tensile), designFactors[l.Category]
	b := (float64(l.Width) - dh) / 2
	clearance := 1 - 0.275*math.Sqrt(max(0, 1-dp*dp/(dh*dh)))
	onFracture := fu / (onConnections * nd)
	wide := min(b, 4*t, 0.6*b*fu/fy*math.Sqrt(dh/b))
	plane := 1.13*(r-dh/2) + 0.92*b/(1+b/dh)
	const basis = "read as reprinted, to be verified by an engineer"
	return LugOutline{Nd: nd, Clearance: clearance, Limits: []LugLimit{
		{"tension through the hole", units.Force(clearance * onFracture * 2 * t * wide), basis},
		{"fracture on one plane beyond the hole", units.Force(clearance * onFracture * plane * t), basis},
		{"shear on two planes beyond the hole", units.Force(shearPart * onFracture * l.shearArea()), basis},
		{"bearing of the pin", units.Force(1.25 * fy / nd * dp * t), basis},
	}}, nil
}

// shearArea is Av of [LugPlate.Outline] in m².
func (l LugPlate) shearArea() float64 {
	dh, dp, r := float64(l.Hole), float64(l.Pin), float64(l.Edge)
	phi := 55 * dp / dh * math.Pi / 180
	half := dp / 2 * math.Sin(phi)
	round := min(r, float64(l.Width)/2)
	lost := round - math.Sqrt(round*round-half*half)
	return 2 * (r - dh/2 + dp/2*(1-math.Cos(phi)) - lost) * float64(l.Thickness)
}

// check refuses a lug that the formulas are not for.
func (l LugPlate) check() error {
	const most = 10.0 // m
	for _, one := range []struct {
		name  string
		value units.Length
	}{{"hole", l.Hole}, {"pin", l.Pin}, {"thickness", l.Thickness}, {"width", l.Width}, {"edge", l.Edge}} {
		if !(one.value > 0 && one.value <= most) {
			return fmt.Errorf("sling: %s of the lug %g m, want more than 0 up to %g m", one.name, float64(one.value), most)
		}
	}
	switch {
	case designFactors[l.Category] == 0:
		return fmt.Errorf("sling: category %q of the lug, want A or B", l.Category)
	case !(l.Yield > 0 && l.Tensile >= l.Yield && float64(l.Tensile) < 1e10):
		return fmt.Errorf("sling: yield %g and tensile %g N/m² of the lug, want more than 0 and tensile no less", float64(l.Yield), float64(l.Tensile))
	case l.Pin > l.Hole:
		return fmt.Errorf("sling: a pin of %s does not go through a hole of %s", l.Pin.Format(units.Both), l.Hole.Format(units.Both))
	case l.Width <= l.Hole || l.Edge <= l.Hole/2:
		return fmt.Errorf("sling: nothing is left of the lug round a hole of %s", l.Hole.Format(units.Both))
	}
	return nil
}
