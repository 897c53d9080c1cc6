package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// deck searches a flat top 4 × 2 at height 1, a seat every half metre, legs at
// 60°.
func deck(cg geom.Vec, hole func(x, y float64) bool) Search {
	s := Search{CG: cg, Top: 1, Size: math.Sqrt(21), LeastAngle: rad(30), MostTilt: rad(10)}
	for x := -2.0; x <= 2; x += 0.5 {
		for y := -1.0; y <= 1; y += 0.5 {
			if !hole(x, y) {
				s.Seats = append(s.Seats, Seat{geom.Vec{x, y, 1}, math.Inf(1)})
			}
		}
	}
	s.Hook = func(picks []geom.Vec) (float64, float64, bool) { return HookAtAngle(cg, picks, rad(60))[2], 0, true }
	return s
}

func nowhere(x, y float64) bool { return false }

// By hand, for the CG in the middle of the deck and 1 m below it: a pair on the
// middle line, at ±x, with the CG 1 m down keeps min(x, 1)/2 m spare, pulls
// 1/(2 sin 60°) = 0.57735, and has the hook x·tan 60° up.
func TestBestPairByHand(t *testing.T) {
	found := deck(geom.Vec{}, nowhere).Best(2, 5)
	require.NotEmpty(t, found)
	for _, p := range found {
		if p.Picks[0][1] != 0 || p.Picks[0][0] != -p.Picks[1][0] {
			continue
		}
		x := math.Abs(p.Picks[0][0])
		assert.InDelta(t, 0.57735, p.Marks.Pull, 1e-5)
		assert.InDelta(t, min(x, 1)/2, p.Marks.Spare, 1e-12)
		assert.InDelta(t, x*math.Sqrt(3), p.Marks.Headroom, 1e-12)
		assert.True(t, p.Within)
	}
	best := found[0].Picks
	assert.InDelta(t, 0, best[0][0]+best[1][0], 1e-12, "even about the CG")
	assert.InDelta(t, 0, best[0][1]+best[1][1], 1e-12)
}

func TestBestKeepsLimitsWhereItCan(t *testing.T) {
	s := deck(geom.Vec{0.25, 0, 0.2}, nowhere)
	s.Headroom = 1.5
	for number := 2; number <= 4; number++ {
		found := s.Best(number, 5)
		require.NotEmpty(t, found)
		assert.True(t, found[0].Within)
		assert.LessOrEqual(t, found[0].Marks.Headroom, 1.5+1e-9)
	}
}

func TestNoPairAboveWhichTheCGStands(t *testing.T) {
	assert.Empty(t, deck(geom.Vec{0, 0, 1.5}, nowhere).Best(2, 5), "a pair below the CG rolls")
}

func TestNothingToProposeOnABarePost(t *testing.T) {
	s := deck(geom.Vec{}, func(x, y float64) bool { return x != 0 || y != 0 })
	for number := 2; number <= 4; number++ {
		assert.Empty(t, s.Best(number, 5))
	}
}

// drawSeats is a search over lugs at any height.
func drawSeats(t *rapid.T, flat bool) Search {
	cg := geom.Vec{rapid.Float64Range(-0.5, 0.5).Draw(t, "cg x"), rapid.Float64Range(-0.5, 0.5).Draw(t, "cg y"), rapid.Float64Range(-1, 0.5).Draw(t, "cg z")}
	s := Search{CG: cg, Top: 1.2, Size: 4, LeastAngle: rad(30), MostTilt: rad(10)}
	for range rapid.IntRange(2, 8).Draw(t, "seats") {
		z := 1.0
		if !flat {
			z = rapid.Float64Range(0.6, 1.2).Draw(t, "z")
		}
		s.Seats = append(s.Seats, Seat{geom.Vec{rapid.Float64Range(-2, 2).Draw(t, "x"), rapid.Float64Range(-2, 2).Draw(t, "y"), z}, math.Inf(1)})
	}
	s.Hook = func(picks []geom.Vec) (float64, float64, bool) { return HookAbove(cg, picks, 2)[2], 0, true }
	return s
}

// Two methods: the closed form against the solver, for sets of three and four at
// any heights.
func TestMarksAgreeWithTheSolvedPose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeats(t, rapid.Bool().Draw(t, "flat"))
		for number := 3; number <= 4; number++ {
			for _, p := range s.Best(number, 3) {
				if p.Marks.Spare < 0.02 {
					continue // the CG as good as on a side of the picks
				}
				r := Rig{Weight: 1000, CG: s.CG, Picks: p.Picks}
				hook := HookAbove(s.CG, p.Picks, 2)
				r.Lengths = LevelLengths(p.Picks, hook)
				h, err := r.Hang()
				require.NoError(t, err)
				require.True(t, h.Drawn)
				most := 0.0
				for _, g := range h.Greatest {
					most = max(most, g)
				}
				require.InDelta(t, most/1000, p.Marks.Pull, 1e-6, "picks %v", p.Picks)
				require.InDelta(t, h.Headroom([]geom.Vec{{0, 0, s.Top}}), p.Marks.Headroom, 1e-6)
				if number == 3 {
					require.LessOrEqual(t, p.Marks.Spare, h.First.Shift*(1+1e-6), "never more than there is")
					if level := p.Picks[0][2]; p.Picks[1][2] == level && p.Picks[2][2] == level {
						require.InDelta(t, h.First.Shift, p.Marks.Spare, 1e-6)
					}
				}
			}
		}
	})
}

// The best is never worse than what trying every set in every order finds, and
// the same sets are found however the seats are numbered.
func TestBestIsTheBestOfAllSets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeats(t, false)
		for number := 2; number <= 4; number++ {
			var most float64
			within := false
			everySet(len(s.Seats), number, func(set []int) {
				alone := s
				alone.Seats = nil
				for _, i := range set {
					alone.Seats = append(alone.Seats, s.Seats[len(s.Seats)-1-i])
				}
				for _, p := range alone.Best(number, 1) {
					if p.Within && !within || p.Within == within && p.Score > most {
						within, most = p.Within, p.Score
					}
				}
			})
			found := s.Best(number, 4)
			if len(found) == 0 {
				require.Zero(t, most)
				continue
			}
			require.Equal(t, within, found[0].Within)
			// Of seats in one line with the CG rounding decides in which order they stand.
			require.InDelta(t, most, found[0].Score, 1e-6)
		}
	})
}

// A low lug by itself, under a hook 2 m over the highest pick, stands at 30.0° less a
// hair; with a lug 0.6 m higher its leg stands at 36.8°, and is the best third.
func TestALowSeatIsReachedByAHookOverAHighOne(t *testing.T) {
	cg := geom.Vec{-0.5, 0.5, 0.5}
	s := Search{CG: cg, Top: 1.2, Size: 4, LeastAngle: rad(30), MostTilt: rad(10)}
	for _, at := range []geom.Vec{{1, 1, 1.2}, {1, 1.5, 1.2}, {-1.5, 0.125, 1.2}, {1.9375, -1.96875, 0.6}} {
		s.Seats = append(s.Seats, Seat{at, math.Inf(1)})
	}
	s.Hook = func(picks []geom.Vec) (float64, float64, bool) { return HookAbove(cg, picks, 2)[2], 0, true }
	best := s.Best(3, 1)
	require.NotEmpty(t, best)
	assert.True(t, best[0].Within)
	assert.Contains(t, best[0].Picks, geom.Vec{1.9375, -1.96875, 0.6})
}

// everySet calls do with every set of k of n numbers.
func everySet(n, k int, do func(set []int)) {
	var add func(set []int, from int)
	add = func(set []int, from int) {
		if len(set) == k {
			do(set)
			return
		}
		for i := from; i < n; i++ {
			add(append(set[:len(set):len(set)], i), i+1)
		}
	}
	add(nil, 0)
}

// Of more seats than are tried each with each, the best are bettered: a deck of
// a seat every 50 mm gives no less than the one of every half metre, whose seats
// are among them.
func TestFinerSeatsAreNoWorse(t *testing.T) {
	coarse := deck(geom.Vec{0.3, 0.1, 0.2}, nowhere)
	fine := coarse
	fine.Seats = nil
	for x := -40; x <= 40; x++ {
		for y := -20; y <= 20; y++ {
			fine.Seats = append(fine.Seats, Seat{geom.Vec{float64(x) / 20, float64(y) / 20, 1}, math.Inf(1)})
		}
	}
	for number := 2; number <= 4; number++ {
		assert.GreaterOrEqual(t, fine.Best(number, 5)[0].Score, coarse.Best(number, 5)[0].Score-1e-9, "%d picks", number)
	}
}

func BenchmarkBest(b *testing.B) {
	s := deck(geom.Vec{0.1, 0.05, 0}, nowhere)
	s.Seats = nil
	for i := range 40 {
		sin, cos := math.Sincos(float64(i) * 2.4)
		s.Seats = append(s.Seats, Seat{geom.Vec{2 * cos * math.Sqrt(float64(i)/40), sin * math.Sqrt(float64(i)/40), 1}, 0.1})
	}
	for b.Loop() { // 91 390 sets of four, 9 880 of three, 780 of two: 102 050
		for number := 2; number <= 4; number++ {
			s.Best(number, 24)
		}
	}
}

// Of seats on a lattice the best set that can be marked out square is found: here
// every set of the deck is tried, and what counts as square is told by its
// corners.
func TestBestOfTheSquareSets(t *testing.T) {
	for _, cg := range []geom.Vec{{0, 0, 0}, {0.5, 0, 0.3}, {0, 0.5, 1.2}, {0.25, 0, 0.5}} {
		s := deck(cg, func(x, y float64) bool { return x == 1 && y > 0 })
		s.Wide = [2]float64{4, 2}
		for number := 2; number <= 4; number++ {
			best := 0.0
			everySet(len(s.Seats), number, func(set []int) {
				if !s.square(set) {
					return
				}
				if p, ok := s.set(append([]int(nil), set...)); ok && p.Within {
					best = max(best, p.Score)
				}
			})
			found := s.Best(number, 4)
			if best == 0 {
				continue // none: then any are looked at
			}
			require.NotEmpty(t, found)
			assert.InDelta(t, best, found[0].Score, 1e-9, "%d picks, CG %v", number, cg)
			assert.True(t, s.square(found[0].Seats), "%v", found[0].Picks)
		}
	}
}

// square says that the picks have, along x or y, for two the CG's own line, for
// three a side and the third in line with the CG, for four two sides that are
// as long as each other or each even about the CG.
func (s Search) square(set []int) bool {
	for axis := range 2 {
		other := 1 - axis
		lines := map[float64][]float64{} // along axis, by where on the other
		for _, i := range set {
			at := s.Seats[i].At.Sub(s.CG)
			lines[at[other]] = append(lines[at[other]], at[axis])
		}
		switch {
		case len(set) == 2 && len(lines[0]) == 2:
			return true
		case len(lines) != 2 || len(set) == 2:
			continue
		}
		var pairs, odd [][]float64
		for _, line := range lines {
			if len(line) == 2 {
				pairs = append(pairs, line)
			} else {
				odd = append(odd, line)
			}
		}
		if len(pairs) == 1 && len(odd) == 1 && len(odd[0]) == 1 && odd[0][0] == 0 {
			return true
		}
		if len(pairs) == 2 {
			a, b := pairs[0], pairs[1]
			same := min(a[0], a[1]) == min(b[0], b[1]) && max(a[0], a[1]) == max(b[0], b[1])
			if same || a[0]+a[1] == 0 && b[0]+b[1] == 0 {
				return true
			}
		}
	}
	return false
}
