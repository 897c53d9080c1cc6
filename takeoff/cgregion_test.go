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
		s = append(s, spot{geom.Vec{c.Draw(t, "x"), c.Draw(t, "y"), c.Draw(t, "z")}, low, low * rapid.Float64Range(1, 3).Draw(t, "factor")})
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
func (s spots) quotient(d geom.Vec, mass func(i int) float64) float64 {
	var m, moment float64
	for i, one := range s {
		of := mass(i)
		m += of
		moment += of * one.at.Dot(d)
	}
	return moment / m
}

// The extreme of a fractional-linear function over a box is at a corner: all
// 2ⁿ corners are tried.
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
			}))
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
			got := s.quotient(d, func(i int) float64 { return s[i].low + rng.Float64()*(s[i].high-s[i].low) })
			assert.LessOrEqual(t, got, reach+1e-12)
		}
	})
}

func TestNarrowerTolerancesNeverWidenTheRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, d := drawSpots(t, 10), drawWay(t)
		narrow := append(spots(nil), s...)
		for i := range narrow {
			part := rapid.Float64Range(0, 1).Draw(t, "part")
			narrow[i].high -= part * (narrow[i].high - narrow[i].low)
		}
		assert.LessOrEqual(t, narrow.reach(d), s.reach(d)+1e-12)
	})
}

// Two pieces by hand: 100 to 110 kg at x = 0 and at x = 1 m. Farthest when the
// far one is heavy: 110/210 m.
func TestReachByHand(t *testing.T) {
	s := spots{{geom.Vec{}, 100, 110}, {geom.Vec{1, 0, 0}, 100, 110}}
	assert.InDelta(t, 110.0/210, s.reach(geom.Vec{1, 0, 0}), 1e-15)
	assert.InDelta(t, -100.0/210, s.reach(geom.Vec{-1, 0, 0}), 1e-15)
	assert.Zero(t, spots(nil).reach(geom.Vec{1, 0, 0}))
}
