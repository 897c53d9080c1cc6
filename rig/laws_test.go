package rig

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// drawRig draws a rig of 1 to 8 legs on a load a few metres across, some
// level, some on lengths of their own.
func drawRig(t *rapid.T) Rig {
	n := rapid.IntRange(1, Most).Draw(t, "legs")
	coordinate := func(name string, span float64) float64 {
		return math.Round(rapid.Float64Range(-span, span).Draw(t, name)*1000) / 1000
	}
	r := Rig{Weight: rapid.Float64Range(1e3, 1e6).Draw(t, "weight"),
		CG: geom.Vec{coordinate("cg x", 1), coordinate("cg y", 1), coordinate("cg z", 2)}}
	for range n {
		p := geom.Vec{coordinate("x", 3), coordinate("y", 3), coordinate("z", 0.5)}
		for _, other := range append(r.Picks, r.CG) {
			if math.Hypot(p[0]-other[0], p[1]-other[1]) < 0.1 {
				t.Skip("no one rigs legs side by side")
			}
		}
		r.Picks = append(r.Picks, p)
	}
	hook := HookAbove(r.CG, r.Picks, rapid.Float64Range(0.5, 6).Draw(t, "height"))
	r.Lengths = LevelLengths(r.Picks, hook)
	if rapid.Bool().Draw(t, "own lengths") {
		for i := range r.Lengths {
			r.Lengths[i] *= rapid.Float64Range(1, 1.2).Draw(t, "stretch")
		}
	}
	return r
}

// hang solves a drawn rig, passing over those that can't be rigged at all.
func hang(t *rapid.T, r Rig) Hang {
	h, err := r.Hang()
	var input *InputError
	var reach *ReachError
	if errors.As(err, &input) || errors.As(err, &reach) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatalf("%v: %+v", err, r)
	}
	return h
}

func TestForcesAndMomentsBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		h := hang(t, r)
		force := h.Up.Mul(-r.Weight)
		moment := r.CG.Cross(force)
		for i, pull := range h.Pull {
			if h.Tension[i] < 0 || h.Greatest[i] < h.Tension[i] {
				t.Fatalf("leg %d pushes or exceeds its greatest: %v of %v N", i+1, h.Tension[i], h.Greatest[i])
			}
			if way := h.Hook.Sub(r.Picks[i]).Len(); way > r.Lengths[i]+2e-8*r.size() {
				t.Fatalf("leg %d is %v m but spans %v m", i+1, r.Lengths[i], way)
			}
			force = force.Add(pull.Mul(h.Tension[i]))
			moment = moment.Add(r.Picks[i].Cross(pull.Mul(h.Tension[i])))
		}
		if force.Len() > 1e-9*r.Weight || moment.Len() > 1e-9*r.Weight*2*r.size() {
			t.Fatalf("force left over %v N, moment %v N·m of %v N", force.Len(), moment.Len(), r.Weight)
		}
		if !finite(h.Hook) || math.IsNaN(h.Tilt()) || math.IsNaN(h.Margin) || math.IsNaN(h.First.Shift) {
			t.Fatalf("not a number in %+v", h)
		}
	})
}

// A turn about the plumb line, a move or a mirror of the frame changes nothing
// but the frame, and twice the weight is twice the tension.
func TestFramesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		h := hang(t, r)
		angle := rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn")
		mirror := rapid.Bool().Draw(t, "mirror")
		into := func(v geom.Vec) geom.Vec {
			if mirror {
				v[0] = -v[0]
			}
			s, c := math.Sincos(angle)
			return geom.Vec{c*v[0] - s*v[1] + 7, s*v[0] + c*v[1] - 11, v[2] + 3}
		}
		turned := Rig{Weight: 2 * r.Weight, CG: into(r.CG), Lengths: r.Lengths}
		for _, p := range r.Picks {
			turned.Picks = append(turned.Picks, into(p))
		}
		g := hang(t, turned)
		if !h.Stable || math.Abs(h.Margin) < 1e-6 || h.RollsOver || h.Leaned {
			return // on a knife's edge the last digit decides which way it falls
		}
		if into(h.Hook).Sub(g.Hook).Len() > 1e-7*r.size() {
			t.Fatalf("hook at %v, in the other frame %v: %+v", into(h.Hook), g.Hook, r)
		}
		for i := range h.Tension {
			if math.Abs(2*h.Tension[i]-g.Tension[i]) > 2e-6*r.Weight {
				t.Fatalf("leg %d: %v N became %v N for twice the weight", i+1, h.Tension[i], g.Tension[i])
			}
		}
	})
}

// hangs returns how far below the hook, in metres, the CG hangs when the load
// is held with the load's direction up pointing up: as far as the tightest leg
// lets it. It is the whole problem with nothing solved, and shares no code
// with the solver.
func hangs(r Rig, up geom.Vec) float64 {
	far := math.Inf(1)
	for i, p := range r.Picks {
		arm := r.CG.Sub(p)
		along := arm.Dot(up)
		if along*along-arm.Dot(arm)+r.Lengths[i]*r.Lengths[i] < 0 {
			return math.Inf(-1) // that leg can't reach
		}
		far = min(far, -along+math.Sqrt(along*along-arm.Dot(arm)+r.Lengths[i]*r.Lengths[i]))
	}
	return far
}

// A pose called stable is a low point: turn the load a little any way, and its
// CG must rise. One called unstable is not.
func TestStableIsALowPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		h := hang(t, r)
		dice := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		rho := h.Hook.Sub(r.CG).Len()
		// Lengths right to sameLength: with flat legs the depth is right to some times that.
		if math.Abs(hangs(r, h.Up)-rho) > nearlySame*r.size() {
			t.Fatalf("CG hangs %v m below the hook, not %v m", hangs(r, h.Up), rho)
		}
		held := false
		for i := range h.Taut {
			// A leg that is taut, or nearly, without pulling is not counted on, so
			// that the verdict may be the stricter one.
			held = held || h.Slack(i) && h.Hook.Sub(r.Picks[i]).Len() > r.Lengths[i]-1e-2*r.size()
		}
		// A nudge past the first slack leg says nothing of the pose itself.
		nudge := min(1e-3, h.First.Shift/r.size()/20)
		lowest := 0.0
		for _, off := range []float64{0, 20 * nudge, -20 * nudge} { // along the ridge too, if there is one
			start, _ := unit(h.Up.Add(h.Toward.Mul(off)))
			lowest = max(lowest, climb(r, start, nudge, dice))
		}
		lower := lowest > rho*(1+1e-7)
		if h.Stable && lower && h.Margin > 1e-2*r.size() {
			t.Fatalf("called stable, margin %v m, but it can hang lower", h.Margin)
		}
		// Of three legs in one plane, one of which alone would let it roll, rigid ones
		// hold by the two others; the verdict goes by the share that legs which give take.
		if !h.Stable && !h.Neutral && !lower && !held && !nearlyFlat(h.Pose) && h.Margin < -1e-2*r.size() {
			t.Fatalf("called unstable, margin %v m, but nowhere near is lower: %+v", h.Margin, r)
		}
	})
}

// climb turns the load a little, then lets it sink by ever smaller random
// turns, and returns how low it gets.
func climb(r Rig, up geom.Vec, first float64, dice *rand.Rand) float64 {
	nudge := func(by float64) geom.Vec {
		v, _ := unit(up.Add(geom.Vec{dice.NormFloat64(), dice.NormFloat64(), dice.NormFloat64()}.Mul(by)))
		return v
	}
	up = nudge(first)
	low, step := hangs(r, up), first
	for step > first*1e-4 {
		if to := nudge(step); hangs(r, to) > low {
			up, low, step = to, hangs(r, to), min(first, step*1.5)
		} else {
			step *= 0.95
		}
	}
	return low
}

// Four legs that are wrong by anything from a millionth of a micrometre to
// centimetres: whether the odd one out counts as taut or as slack, a pose is
// found, and both methods find it.
func TestFourLegsSlightlyWrong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rectangle(geom.Vec{rapid.Float64Range(-1, 1).Draw(t, "x"), rapid.Float64Range(-0.5, 0.5).Draw(t, "y"), -1})
		by := math.Pow(10, rapid.Float64Range(-12, -1.5).Draw(t, "decimals"))
		for i := range r.Lengths {
			r.Lengths[i] += by * rapid.Float64Range(-1, 1).Draw(t, "off")
		}
		if h := hang(t, r); !h.Stable || h.RollsOver {
			t.Fatalf("not stable: %+v", h)
		}
	})
}

// Two equal legs: W / (2 sin θ).
func TestTwoEqualLegs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := rapid.Float64Range(0.1, 10).Draw(t, "half span")
		angle := rapid.Float64Range(5, 89).Draw(t, "angle") * math.Pi / 180
		r := Rig{Weight: 1000, CG: geom.Vec{0, 0, -1}, Picks: []geom.Vec{{-half, 0, 0}, {half, 0, 0}}}
		r.Lengths = LevelLengths(r.Picks, HookAtAngle(r.CG, r.Picks, angle))
		h := hang(t, r)
		for i := range 2 {
			if want := 1000 / (2 * math.Sin(angle)); math.Abs(h.Tension[i]-want) > 1e-8*want {
				t.Fatalf("%v N, want %v N", h.Tension[i], want)
			}
		}
	})
}

// Springs made stiffer and stiffer end at the rigid answer: two solvers, two
// models, one load.
func TestStiffSpringsBecomeRigid(t *testing.T) {
	r := rectangle(geom.Vec{0.3, -0.1, -0.5})
	rigid, err := r.Hang()
	require.NoError(t, err)
	r.Stiffness = make([]float64, 4)
	for i, l := range r.Lengths {
		r.Stiffness[i] = 1e5 * r.Weight / l
	}
	springs, err := r.Hang()
	require.NoError(t, err)
	assert.InDeltaSlice(t, rigid.Tension, springs.Tension, 1e-4*r.Weight)
	assert.InDelta(t, 0, rigid.Hook.Sub(springs.Hook).Len(), 1e-4)
}

// Four legs by another way: in the hung pose every balanced set of tensions is
// T₀ + s·N along one line, so both ends of the line give the extremes and the
// least work lies where its derivative vanishes.
func TestFourLegsByLineInterval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rectangle(geom.Vec{rapid.Float64Range(-1.5, 1.5).Draw(t, "x"), rapid.Float64Range(-0.7, 0.7).Draw(t, "y"), -0.5})
		h := hang(t, r)
		if !h.Drawn {
			t.Fatalf("CG inside the picks hangs as drawn")
		}
		// Vertical parts of a rectangle: V₀ + s·(1, −1, 1, −1), Tᵢ = Vᵢ·Lᵢ/H.
		fx, fy := (r.CG[0]+2)/4, (r.CG[1]+1)/2
		v := []float64{fx * fy, (1 - fx) * fy, (1 - fx) * (1 - fy), fx * (1 - fy)}
		low, high := -min(v[0], v[2]), min(v[1], v[3])
		sign := []float64{1, -1, 1, -1}
		var slope, curve float64 // of Σ Tᵢ²Lᵢ/2
		for i, l := range r.Lengths {
			slope += v[i] * sign[i] * l * l * l
			curve += l * l * l
		}
		s := max(low, min(high, -slope/curve))
		for i, l := range r.Lengths {
			elastic := 100 * (v[i] + sign[i]*s) * l / 3
			most := 100 * max(v[i]+sign[i]*low, v[i]+sign[i]*high) * l / 3
			if math.Abs(h.Tension[i]-elastic) > 1e-6*100 || math.Abs(h.Greatest[i]-most) > 1e-6*100 {
				t.Fatalf("leg %d: %v and %v N, want %v and %v N", i+1, h.Tension[i], h.Greatest[i], elastic, most)
			}
		}
	})
}
