package rig

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// fourPoints is the derivative at 0 of a pose's hook and tensions by central
// differences over four points, whose error goes with the step's fourth power:
// "Handbook of Mathematical Functions" (Abramowitz and Stegun), 25.3.6 (from
// memory). It returns false where not the same legs pull at all of them.
func fourPoints(h Hang, step float64, solve func(by float64) (Pose, error)) (hook geom.Vec, tension []float64, ok bool) {
	tension = make([]float64, len(h.Tension))
	for _, point := range []struct{ at, weight float64 }{{-2, 1}, {-1, -8}, {1, 8}, {2, -1}} {
		p, err := solve(point.at * step)
		if err != nil {
			return hook, tension, false
		}
		hook = hook.Add(p.Hook.Mul(point.weight / 12 / step))
		for i, t := range p.Tension {
			if p.Slack(i) != h.Slack(i) || p.Taut[i] != h.Taut[i] {
				return hook, tension, false
			}
			tension[i] += t * point.weight / 12 / step
		}
	}
	return hook, tension, true
}

// drawHeldRig is a rig that hangs stably, no leg about to go slack or tighten.
func drawHeldRig(t *rapid.T) (Rig, Hang) {
	r := drawRig(t)
	if rapid.Bool().Draw(t, "stretch") {
		for _, l := range r.Lengths {
			r.Stiffness = append(r.Stiffness, r.Weight/l*rapid.Float64Range(50, 2000).Draw(t, "EA"))
		}
	}
	h, err := r.Hang()
	if err != nil {
		t.Skip(err)
	}
	if !h.Stable || h.RollsOver || h.Margin < 0.05*r.size() || h.First.Shift < 0.02*r.size() {
		t.Skip("a small change may move it far")
	}
	for i := range h.Taut {
		if r.Stiffness == nil && h.Near[i] && h.Slack(i) {
			t.Skip("a leg is about to tighten: the derivative leaps there")
		}
	}
	return r, h
}

// Rates agree with differences of the poses solved anew, to 1e-5, with springs to
// 1e-4, on a thousand rigs.
func TestSensitivityIsTheSlope(t *testing.T) {
	for range 10 { // of a hundred each
		rapid.Check(t, func(t *rapid.T) {
			r, h := drawHeldRig(t)
			s, err := r.Sensitivity(h)
			if err != nil {
				t.Skip(err)
			}
			step, near := 2e-5*r.size(), 1e-5
			if r.Stiffness != nil {
				step, near = 1e-4*r.size(), 1e-4 // the search downhill leaves fewer digits
			}
			most := r.Weight / r.size()
			for i := range h.Tension {
				most = max(most, s.TensionCG[i].Len())
			}
			for axis := range 3 {
				hook, tension, ok := fourPoints(h, step, func(by float64) (Pose, error) {
					c := r
					c.CG[axis] += by
					return c.rest(h.Hook)
				})
				if !ok {
					t.Skip("other legs pull")
				}
				if off := hook.Sub(s.HookCG.Col(axis)).Len(); off > near*(1+hook.Len()) {
					t.Fatalf("CG along %d: the hook moves %v m/m, by differences %v: %+v", axis, s.HookCG.Col(axis), hook, r)
				}
				for i := range tension {
					if math.Abs(tension[i]-s.TensionCG[i][axis]) > near*most {
						t.Fatalf("CG along %d: leg %d grows %v N/m, by differences %v: %+v", axis, i+1, s.TensionCG[i][axis], tension[i], r)
					}
				}
			}
			checkLengths(t, r, h, s, step, near)
		})
	}
}

// checkLengths holds TensionLength to differences.
func checkLengths(t *rapid.T, r Rig, h Hang, s Sensitivity, step, near float64) {
	if s.TensionLength == nil {
		return
	}
	most := r.Weight / r.size()
	for _, row := range s.TensionLength {
		for _, v := range row {
			most = max(most, math.Abs(v))
		}
	}
	if r.Stiffness != nil {
		step *= 0.05 // a stiff leg soon goes slack
	}
	for j := range r.Lengths {
		_, tension, ok := fourPoints(h, step, func(by float64) (Pose, error) {
			c := r
			c.Lengths = slices.Clone(r.Lengths)
			c.Lengths[j] += by
			return c.rest(h.Hook)
		})
		if !ok {
			continue
		}
		for i := range tension {
			if math.Abs(tension[i]-s.TensionLength[i][j]) > near*most {
				t.Fatalf("leg %d longer: leg %d grows %v N/m, by differences %v: %+v", j+1, i+1, s.TensionLength[i][j], tension[i], r)
			}
		}
	}
}

// A rectangle of picks at x = ±2, hook 3 over them and 3.5 over the CG, by hand:
// the four legs hold the hook, so that a CG off by s along x turns up by −s/3.5
// and the level balance asks 4·t·2/L = W·s/3.5 of a change t, + on the side
// that the CG moves to. L = √14.
func TestSensitivityByHand(t *testing.T) {
	r := rectangle(geom.Vec{0, 0, -0.5})
	h, err := r.Hang()
	require.NoError(t, err)
	s, err := r.Sensitivity(h)
	require.NoError(t, err)
	want := 100 * math.Sqrt(14) / (8 * 3.5)
	for i, sign := range []float64{1, -1, -1, 1} {
		assert.InDelta(t, sign*want, s.TensionCG[i][0], 1e-9, "leg %d, CG along x", i+1)
	}
	assert.InDelta(t, 0, s.HookCG.Col(0).Len(), 1e-12, "four taut legs hold the hook")
	assert.Nil(t, s.TensionLength, "any error of length leaves one leg slack")
}

func TestSensitivityRefuses(t *testing.T) {
	r := Rig{Weight: 100, CG: geom.Vec{0, 0, 0.4}, Picks: []geom.Vec{{-1, 0, 0}, {1, 0, 0}}}
	r.Lengths = LevelLengths(r.Picks, geom.Vec{0, 0, 2})
	h, err := r.Hang()
	require.NoError(t, err)
	var input *InputError
	_, err = r.Sensitivity(h)
	assert.ErrorAs(t, err, &input, "it rolls")
	_, err = rectangle(geom.Vec{}).Sensitivity(h)
	assert.ErrorAs(t, err, &input, "another rig's pose")

	r = Rig{Weight: 100, CG: geom.Vec{0, 0, -1}, Picks: []geom.Vec{{-1, 0, 0}, {1, 0, 0}, {0.2, 0, 0}}}
	r.Lengths = LevelLengths(r.Picks, geom.Vec{0, 0, 2})
	h, err = r.Hang()
	require.NoError(t, err)
	_, err = r.Sensitivity(h)
	assert.ErrorAs(t, err, &input, "three legs in one plane")
}
