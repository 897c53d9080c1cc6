package rig

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

// A basket holds 2·sin(angle of its parts from horizontal) times what one part
// does. Source: the load-angle tables of ASME B30.9 and DOE-STD-1090 (from
// memory), which print sin a to three decimals.
func TestPartTensionAsTheTablesPrintIt(t *testing.T) {
	for _, p := range []struct{ fromHorizontal, capacity float64 }{
		{90, 2.000}, {85, 1.992}, {75, 1.932}, {60, 1.732}, {45, 1.414}, {30, 1.000}, {15, 0.518},
	} {
		one := PartTension(1000, radians(180-2*p.fromHorizontal))
		assert.InDelta(t, p.capacity, 1000/one, 0.0005, "parts at %g° from horizontal", p.fromHorizontal)
	}
	assert.True(t, math.IsInf(PartTension(1, math.Pi), 1))
}

// Source: belt friction in textbooks of statics, T₁/T₂ = e^(μφ) (from memory);
// the numbers are e^0.942478, e^1.570796 and e^3.141593 from a table of e^x.
func TestCapstanOfTheTextbooks(t *testing.T) {
	assert.InDelta(t, 2.566, Capstan(0.3, math.Pi), 0.0005, "half a turn at 0.3")
	assert.InDelta(t, 4.810, Capstan(0.25, 2*math.Pi), 0.0005, "a turn at 0.25")
	assert.InDelta(t, 23.14, Capstan(0.25, 4*math.Pi), 0.005, "two turns at 0.25")
	// A second way: small blocks in a row, each pressed on by the turn of the
	// sling and about to slip: the pull grows by μ·T·dφ on each.
	const blocks = 200_000
	pull := 1.0
	for range blocks {
		pull *= 1 + 0.3*math.Pi/blocks
	}
	assert.InDelta(t, Capstan(0.3, math.Pi), pull, 1e-5)
}

// loop is the length of a sling from the hook round a body, as the perimeter of
// the hull of hook and corners. It knows nothing of tangents.
func loop(corners []mgl64.Vec2, hook mgl64.Vec2) float64 {
	pts := append([]mgl64.Vec2{hook}, corners...)
	at, sum := hook, 0.0 // the hook is on the hull: wrap round from it
	for range pts {
		next := pts[0]
		if next == at {
			next = pts[1]
		}
		for _, q := range pts {
			a, b := next.Sub(at), q.Sub(at)
			if cross := a[0]*b[1] - a[1]*b[0]; cross < -1e-15 || math.Abs(cross) <= 1e-15 && b.Len() > a.Len() {
				next = q
			}
		}
		sum += next.Sub(at).Len()
		if at = next; at == hook {
			break
		}
	}
	return sum
}

func oblong(across, deep float64) []mgl64.Vec2 {
	a, d := across/2, deep/2
	return []mgl64.Vec2{{a, d}, {-a, d}, {-a, -d}, {a, -d}}
}

func circle(r float64) []mgl64.Vec2 {
	const n = 360
	var out []mgl64.Vec2
	for i := range n {
		a := 2 * math.Pi * (float64(i) + 0.5) / n
		out = append(out, mgl64.Vec2{r * math.Cos(a), r * math.Sin(a)})
	}
	return out
}

func TestSlingRoundABodyIsTheHullOfHookAndBody(t *testing.T) {
	// By hand: 600 across, hook 1 m above the centre: 2·√(1 − 0.09) + 0.3·(π +
	// 2·asin 0.3) = 1.907878 + 0.942478 + 0.182816 m.
	round := Bight{Round: true, Across: 0.6, Deep: 0.6, Leg: 1}
	assert.InDelta(t, 3.033172, round.Length(), 1e-6)
	assert.InDelta(t, 34.9152, round.Included()*180/math.Pi, 1e-4)
	assert.InDelta(t, round.Length(), loop(circle(0.3), mgl64.Vec2{0, 1}), 1e-4)
	for _, b := range []Bight{{Across: 0.6, Deep: 0.4, Leg: 1.2}, {Across: 2, Deep: 0.3, Leg: 0.9}, {Across: 0.1, Deep: 1, Leg: 5}} {
		assert.InDelta(t, loop(oblong(b.Across, b.Deep), mgl64.Vec2{0, b.Leg}), b.Length(), 1e-12, "%+v", b)
		assert.InDelta(t, math.Pi+b.Included(), b.Wrap(), 1e-12)
	}
	assert.False(t, Bight{Round: true, Across: 0.6, Deep: 0.6, Leg: 0.3}.Clear())
	assert.True(t, round.Clear())
}

// hookAt finds, by halving, how high the hook is over a place beside the centre
// when the sling has its length.
func hookAt(corners []mgl64.Vec2, x, length, near float64) float64 {
	low, high := near-0.05, near+0.05
	for range 45 {
		if mid := (low + high) / 2; loop(corners, mgl64.Vec2{x, mid}) > length {
			high = mid
		} else {
			low = mid
		}
	}
	return (low + high) / 2
}

// The point about which a body turns in a bight without friction is the centre of
// curvature of the hook's way about the body. Here that way is traced with hulls
// alone.
func TestWhereABodyTurnsInItsBight(t *testing.T) {
	for _, p := range []struct {
		name    string
		b       Bight
		corners []mgl64.Vec2
		step    float64 // m; over the facets of the circle, under where another corner comes into play
		tol     float64
	}{
		{"round, near hook", Bight{Round: true, Across: 0.6, Deep: 0.6, Leg: 0.5}, circle(0.3), 0.05, 1e-3},
		{"round, far hook", Bight{Round: true, Across: 0.6, Deep: 0.6, Leg: 3}, circle(0.3), 0.3, 1e-3},
		{"wide and flat, near hook", Bight{Across: 2, Deep: 0.3, Leg: 0.9}, oblong(2, 0.3), 1e-3, 1e-4},
		{"wide and flat, nearer", Bight{Across: 3, Deep: 0.2, Leg: 0.8}, oblong(3, 0.2), 1e-3, 1e-4},
	} {
		length := loop(p.corners, mgl64.Vec2{0, p.b.Leg})
		drop := p.b.Leg - hookAt(p.corners, p.step, length, p.b.Leg)
		radius := (p.step*p.step + drop*drop) / (2 * drop)
		assert.InDelta(t, radius-p.b.Leg, p.b.Sinks(), p.tol*p.b.Leg, p.name)
	}
	// By hand: 2 m wide, hook 0.75 m over the upper corners: 1/0.75 − 0.15.
	assert.InDelta(t, 1.183333, Bight{Across: 2, Deep: 0.3, Leg: 0.9}.Sinks(), 1e-6)
	assert.Zero(t, Bight{Across: 0.3, Deep: 0.3, Leg: 3}.Sinks(), "never above the centre")
	// And the centre it is, for parts as good as plumb and a roll of 20°: the hook
	// is as far from the centre as before.
	far := Bight{Across: 0.3, Deep: 0.5, Leg: 1000}
	corners := oblong(far.Across, far.Deep)
	length := loop(corners, mgl64.Vec2{0, far.Leg})
	x := far.Leg * math.Sin(radians(20))
	at := hookAt(corners, x, length, far.Leg*math.Cos(radians(20)))
	assert.InDelta(t, far.Leg, math.Hypot(x, at), 1e-4)
}

// How far friction holds the CG out of plumb, from the forces themselves: the
// resultant of two pulls at the hook, one k times the other.
func TestHeldIsWhereTheResultantPasses(t *testing.T) {
	for _, b := range []Bight{{Round: true, Across: 0.6, Deep: 0.6, Leg: 0.5}, {Round: true, Across: 0.6, Deep: 0.6, Leg: 9}, {Across: 2, Deep: 0.3, Leg: 0.9}} {
		half := b.Included() / 2
		k := math.Exp(0.2 * b.Wrap())
		// Down the parts from the hook at the origin, the centre at (0, −leg).
		pull := mgl64.Vec2{math.Sin(half), -math.Cos(half)}.Mul(k).Add(mgl64.Vec2{-math.Sin(half), -math.Cos(half)})
		off := b.Leg * math.Abs(pull[0]) / pull.Len()
		assert.InDelta(t, off, b.Held(0.2), 1e-12, "%+v", b)
		if b.Round {
			assert.GreaterOrEqual(t, b.Held(0.2), HeldRound(b.Across/2, 0.2))
		}
	}
	// By hand, plumb parts of 300 radius at 0.2: 0.3·(k − 1)/(k + 1), k = e^0.628319
	// = 1.87446.
	assert.InDelta(t, 0.3*0.87446/2.87446, HeldRound(0.3, 0.2), 1e-6)
	assert.InDelta(t, HeldRound(0.3, 0.2), Bight{Round: true, Across: 0.6, Deep: 0.6, Leg: 1e4}.Held(0.2), 1e-5)
	// A choker holds R·(1 − 1/k), more than is counted.
	assert.Less(t, HeldRound(0.3, 0.2), 0.3*(1-1/1.87446))
}

// Three pulls at the eye of a choker: up the leg and down the body part with the
// same, and the eye's own along the line that halves the angle between them.
func TestNaturalChokeIsThreePullsInBalance(t *testing.T) {
	assert.InDelta(t, 120, NaturalChoke(0, 5)*180/math.Pi, 1e-9, "three alike stand at 120°")
	for _, friction := range []float64{0.05, 0.1, 0.3} {
		choke, eye := NaturalChoke(friction, math.Pi), math.Exp(-friction*math.Pi)
		leg := mgl64.Vec2{math.Cos(choke / 2), math.Sin(choke / 2)}
		part := mgl64.Vec2{math.Cos(choke / 2), -math.Sin(choke / 2)}
		assert.InDelta(t, 0, leg.Add(part).Sub(mgl64.Vec2{eye, 0}).Len(), 1e-12)
		assert.Greater(t, choke, radians(120))
	}
}

// Two legs at 60° from horizontal lean 30° along a body that runs from pick to
// pick, and not at all along one that runs square to it: tan 30° = 0.577 is the
// friction that such a bridle of baskets takes.
func TestLeanOfABridle(t *testing.T) {
	picks := []geom.Vec{{-1, 0, 0}, {1, 0, 0}}
	r := Rig{Weight: 1000, CG: geom.Vec{0, 0, -0.5}, Picks: picks, Lengths: []float64{2, 2}}
	for _, p := range []struct {
		along geom.Vec
		want  float64
	}{{geom.Vec{1, 0, 0}, 30}, {geom.Vec{0, 1, 0}, 0}, {geom.Vec{0, 0, 1}, 60}, {geom.Vec{}, 30}, {geom.Vec{-1, 0, 0}, 30}} {
		w, err := r.Worst(Doubt{Along: []geom.Vec{p.along, p.along}})
		require.NoError(t, err)
		assert.InDelta(t, p.want, w.Lean[0]*180/math.Pi, 1e-6, "along %v", p.along)
		assert.InDelta(t, p.want, w.Lean[1]*180/math.Pi, 1e-6, "along %v", p.along)
	}
	// A plumb leg leans along a body by the body's slope: the block on a slope.
	slope := radians(10)
	assert.InDelta(t, slope, Lean(geom.Vec{0, 0, 1}, geom.Vec{math.Cos(slope), 0, math.Sin(slope)}), 1e-12)
	// The worst is over the cases. Where the CG is does not matter to two legs that
	// fix the hook over the body; their lengths do: 1.9 and 2.1 m on picks 2 m apart
	// put the hook ±0.2 m out of the middle, by (2.1² − 1.9²)/(2·2), and the long leg
	// leans asin(1.2/2.1), by hand.
	out := []Place{{geom.Vec{0.3, 0, -0.5}, "out"}}
	w, err := r.Worst(Doubt{Along: []geom.Vec{{1, 0, 0}, {1, 0, 0}}, CGs: out, Lengths: []float64{0.1, 0.1}})
	require.NoError(t, err)
	assert.InDelta(t, math.Asin(1.2/2.1), w.Lean[0], 1e-9)
	assert.InDelta(t, math.Asin(1.2/2.1), w.Lean[1], 1e-9)
}

func TestBightLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Bight{Round: rapid.Bool().Draw(t, "round"), Across: rapid.Float64Range(0.05, 3).Draw(t, "across")}
		b.Deep = rapid.Float64Range(0.05, 3).Draw(t, "deep")
		if b.Round {
			b.Deep = b.Across
		}
		b.Leg = b.Deep/2 + rapid.Float64Range(0.05, 20).Draw(t, "over")
		mu := rapid.Float64Range(0.01, 1).Draw(t, "friction")
		require.True(t, b.Clear())
		longer := b
		longer.Leg += 1
		assert.Less(t, longer.Included(), b.Included(), "a longer leg closes the parts")
		assert.Greater(t, longer.Length(), b.Length())
		assert.LessOrEqual(t, longer.Sinks(), b.Sinks()+1e-12)
		assert.GreaterOrEqual(t, b.Sinks(), 0.0)
		assert.Greater(t, b.Held(mu*1.1), b.Held(mu), "more friction holds more")
		assert.GreaterOrEqual(t, PartTension(1, b.Included()), 0.5)
		assert.Greater(t, NaturalChoke(mu, math.Pi), radians(120))
	})
}
