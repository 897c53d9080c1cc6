package rig

import "math"

// OnDrops is the common rig of one bar in closed form: hook, top legs (or one
// shackle), a bar, and two or more drops of one length to a load whose picks
// are as far apart as the bar's points. The drops hang plumb and bar and load
// tilt as one. A frame with four drops is the same in both directions.
type OnDrops struct {
	Weight, Bar float64 // N, of the load and of the bar
	HookToDrops float64 // m, how far below the hook the drops' upper ends are
	HookToBarCG float64 // m, how far below the hook the bar's CG is
	PicksToCG   float64 // m, how far below the picks the load's CG is; negative: above
	Off         float64 // m, how far the load's CG is from plumb below the hook, as drawn
}

// Righting is what rights the tilted bar and load, in N·m a radian:
//
//	W·(h + d) + W_bar·c
//
// h the way down from hook to drops, c to the bar's CG, d from picks to CG. At
// 0 or less they roll over. With the CG a above the picks and the bar's own CG
// level with its points this is h·(W + W_bar) > a·W.
//
// Derived here: a tilt φ lowers the drops' upper ends by −½hφ², the bar's CG by
// −½cφ², and the load's CG against its picks by −½dφ²; the drops, plumb, add
// nothing.
func (o OnDrops) Righting() float64 {
	return o.Weight*(o.HookToDrops+o.PicksToCG) + o.Bar*o.HookToBarCG
}

// Tilt is the angle in radians by which bar and load hang out of level:
// tan φ = W·e/(W·(h + d) + W_bar·c), e the offset. Derived here: the moments of
// both weights about the hook are in balance. Where Righting is 0 or less this is
// 90° or more, which says only that it does not hold.
func (o OnDrops) Tilt() float64 {
	return math.Atan2(o.Weight*math.Abs(o.Off), o.Righting())
}

// LeastHeight is how far in metres the bar must at least be below the hook, its
// own CG level with its points, for the load not to roll: a·W/(W + W_bar), the
// CG a above the picks; 0 where the CG is below them.
func (o OnDrops) LeastHeight() float64 {
	if !(o.Weight > 0) {
		return 0
	}
	return max(0, -o.PicksToCG*o.Weight/(o.Weight+o.Bar))
}

// EndCompression is the pressure in N that a top leg puts into a spreader whose
// end carries load newtons plumb, the leg at fromHorizontal radians:
// V/tan θ, since the leg's pull T has T·sin θ = V and T·cos θ presses. Derived
// here. It grows without bound as the leg goes flat; a leg that does not rise
// carries nothing and gives +Inf.
func EndCompression(load, fromHorizontal float64) float64 {
	if !(fromHorizontal > 0) {
		return math.Inf(1)
	}
	return load * math.Cos(fromHorizontal) / math.Sin(fromHorizontal)
}

// HeldMoment is the bending moment in N·m of a lifting beam at the point by
// which it is held: a plumb pull of load newtons arm metres away, and the
// beam's own weight of each newtons a metre on that side, evenly spread over
// overhang metres: T·a + w·o²/2. Derived here; the section must take it.
func HeldMoment(load, arm, each, overhang float64) float64 {
	return load*arm + each*overhang*overhang/2
}
