package takeoff

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// drawSpots draws up to n pieces.
func drawSpots(t *rapid.T, n int) spots {
	var s spots
	for range rapid.IntRange(1, n).Draw(t, "pieces") {
		c := rapid.Float64Range(-10, 10)
		low := rapid.Float64Range(0.1, 100).Draw(t, "low")
		s = append(s, spot{at: geom.Vec{c.Draw(t, "x"), c.Draw(t, "y"), c.Draw(t, "z")},
			low: low, high: low * rapid.Float64Range(1, 3).Draw(t, "factor")})
		off := rapid.Float64Range(0, 2)
		s[len(s)-1].half = geom.Vec{off.Draw(t, "off x"), off.Draw(t, "off y"), off.Draw(t, "off z")}
	}
	return s
}

func drawWay(t *rapid.T) geom.Vec {
	c := rapid.Float64Range(-1, 1)
	d := geom.Vec{c.Draw(t, "dx"), c.Draw(t, "dy"), c.Draw(t, "dz")}
	if d.Len() < 0.01 {
		return geom.Vec{0, 0, 1}
	}
	return d.Mul(1 / d.Len())
}

// quotient is Σm·(c·d) / Σm.
func (s spots) quotient(d geom.Vec, mass func(i int) float64, place func(i int) geom.Vec) float64 {
	var m, moment float64
	for i := range s {
		of := mass(i)
		m += of
		moment += of * place(i).Dot(d)
	}
	return moment / m
}

// corner is the corner of the box of a piece that lies farthest in a direction.
func (s spot) corner(d geom.Vec) geom.Vec {
	c := s.at
	for i := range c {
		c[i] += math.Copysign(s.half[i], d[i])
	}
	return c
}

// The extreme of a fractional-linear function over a box is at a corner: all
// 2ⁿ corners of the masses are tried, each piece at the far corner of its box.
// So the reach is one that there is, and none is greater.
func TestReachIsTheBestOfAllCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, d := drawSpots(t, 10), drawWay(t)
		best := math.Inf(-1)
		for corner := range 1 << len(s) {
			best = max(best, s.quotient(d, func(i int) float64 {
				if corner&(1<<i) != 0 {
					return s[i].high
				}
				return s[i].low
			}, func(i int) geom.Vec { return s[i].corner(d) }))
		}
		assert.InDelta(t, best, s.reach(d), 1e-12)
	})
}

func TestNoMassesReachFurther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, d := drawSpots(t, 40), drawWay(t)
		reach := s.reach(d)
		rng := rand.New(rand.NewPCG(1, uint64(len(s))))
		for range 200 {
			got := s.quotient(d, func(i int) float64 { return s[i].low + rng.Float64()*(s[i].high-s[i].low) }, s.anywhere(rng))
			assert.LessOrEqual(t, got, reach+1e-12)
		}
	})
}

// anywhere places each piece at random in its box.
func (s spots) anywhere(rng *rand.Rand) func(i int) geom.Vec {
	return func(i int) geom.Vec {
		c := s[i].at
		for k := range c {
			c[k] += (2*rng.Float64() - 1) * s[i].half[k]
		}
		return c
	}
}

// A hundred thousand loads of five pieces of random masses and places, each
// held against the sides of the region in space and the corners in plan.
func TestRegionHoldsAHundredThousandCGs(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 2))
	s := spots{
		{at: geom.Vec{0, 0, 0}, half: geom.Vec{0.01, 0.02, 0.03}, low: 100, high: 130},
		{at: geom.Vec{4, 1, 0}, half: geom.Vec{0.05, 0, 0}, low: 40, high: 44},
		{at: geom.Vec{1, 3, 2}, low: 10, high: 30},
		{at: geom.Vec{-2, 1, 1}, half: geom.Vec{0.2, 0.2, 0.2}, low: 60, high: 60},
		{at: geom.Vec{1, 1, 1}, half: geom.Vec{3, 2, 1}, low: 0, high: 12}, // an allowance: anywhere
	}
	w := Weighed{spots: s}
	sides, box, plan := w.CGRegion(), s.box(), w.CGPlan()
	for range 100_000 {
		place := s.anywhere(rng)
		var mass float64
		var moment geom.Vec
		for i, one := range s {
			m := one.low + rng.Float64()*(one.high-one.low)
			mass, moment = mass+m, moment.Add(place(i).Mul(m))
		}
		cg := moment.Mul(1 / mass)
		for _, side := range sides {
			if cg.Dot(side.Toward) > side.Far+1e-12 {
				t.Fatalf("CG %v m lies %g m in direction %v, the side at %g m", cg, cg.Dot(side.Toward), side.Toward, side.Far)
			}
		}
		for i := range cg {
			if cg[i] < box.Min[i]-1e-12 || cg[i] > box.Max[i]+1e-12 {
				t.Fatalf("CG %v m out of the box %v", cg, box)
			}
		}
		for i, a := range plan {
			b := plan[(i+1)%len(plan)]
			if (b[0]-a[0])*(cg[1]-a[1])-(b[1]-a[1])*(cg[0]-a[0]) < -1e-12 {
				t.Fatalf("CG %v m out of the plan between %v and %v", cg, a, b)
			}
		}
	}
}

func TestNarrowerTolerancesNeverWidenTheRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, d := drawSpots(t, 10), drawWay(t)
		narrow := append(spots(nil), s...)
		for i := range narrow {
			part := rapid.Float64Range(0, 1).Draw(t, "part")
			narrow[i].high -= part * (narrow[i].high - narrow[i].low)
			narrow[i].half = narrow[i].half.Mul(rapid.Float64Range(0, 1).Draw(t, "of the box"))
		}
		assert.LessOrEqual(t, narrow.reach(d), s.reach(d)+1e-12)
	})
}

// Two pieces by hand: 100 to 110 kg at x = 0 and at x = 1 m. Farthest when the
// far one is heavy: 110/210 m.
func TestReachByHand(t *testing.T) {
	s := spots{{low: 100, high: 110}, {at: geom.Vec{1, 0, 0}, low: 100, high: 110}}
	assert.InDelta(t, 110.0/210, s.reach(geom.Vec{1, 0, 0}), 1e-15)
	assert.InDelta(t, -100.0/210, s.reach(geom.Vec{-1, 0, 0}), 1e-15)
	assert.Zero(t, spots(nil).reach(geom.Vec{1, 0, 0}))
}
