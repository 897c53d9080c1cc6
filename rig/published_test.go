package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// Textbooks hang a weight from a knot on cables that go up. Turned upside down
// about the knot that is a load on one hook: picks where the cables' far ends
// mirror, CG plumb below. The printed weight goes in, the printed tensions
// must come out.
func TestPublishedCableProblems(t *testing.T) {
	const lb = 4.4482216152605 // N
	tests := []struct {
		name   string
		weight float64     // in the unit of want
		cables [3]geom.Vec // from the knot, z up; only directions matter
		want   [3]float64
		within float64 // relative; half a unit of the last printed digit, or as said
		source string
	}{
		{"balloon", 900, [3]geom.Vec{{20, 0, 30}, {-30, -20, 30}, {0, 20, 30}},
			[3]float64{464, 402, 309}, 1.5e-3, "Engineering Statics: Open and Interactive, ch. 3, Balloon (read)"},
		// Its third answer was worked with 3-digit coefficients: 0.33 % low.
		{"camera on cables", 196.2, [3]geom.Vec{
			{math.Cos(rad(35)), 0, math.Cos(rad(55))},
			{-math.Cos(rad(15)) * math.Cos(rad(30)), math.Cos(rad(15)) * math.Cos(rad(60)), math.Cos(rad(75))},
			{0, -math.Cos(rad(20)), math.Cos(rad(70))}},
			[3]float64{196.4, 192.2, 98.5}, 4e-3, "Engineering Statics: Open and Interactive, ch. 3, Skycam (read)"},
		{"crate", 8.41, [3]geom.Vec{{-0.72, 0.54, 1.2}, {0, -0.64, 1.2}, {0.8, 0.54, 1.2}},
			[3]float64{3, 4.3605, 2.7720}, 6e-4, "Beer and Johnston, Vector Mechanics: Statics, 2.105 (read)"},
		{"plate on three cables", 211, [3]geom.Vec{{-32, 36, 48}, {45, 36, 48}, {25, -36, 48}},
			[3]float64{136.0, 15, 143}, 2e-3, "Beer and Johnston, Vector Mechanics: Statics, 2.113 (read)"},
		{"container", 13.98, [3]geom.Vec{{-0.45, 0, 0.6}, {0, 0.32, 0.6}, {0.5, -0.36, 0.6}},
			[3]float64{6, 5.508, 6.192}, 4e-4, "Beer and Johnston, Vector Mechanics: Statics, 2.99 (read)"},
		{"container, lighter", 9.7083, [3]geom.Vec{{-0.45, 0, 0.6}, {0, 0.32, 0.6}, {0.5, -0.36, 0.6}},
			[3]float64{4.1667, 3.8250, 4.3}, 1e-4, "Beer and Johnston, Vector Mechanics: Statics, 2.100 (tensions read; its weight from them)"},
		{"traffic light on three cables", 800, [3]geom.Vec{{4.2, 0, 5.6}, {-2.4, -4.2, 5.6}, {0, 3.3, 5.6}},
			[3]float64{201, 372, 416}, 2e-3, "Beer and Johnston, Vector Mechanics: Statics, 2.102 (data read, answers from memory)"},
		{"two level cables and a steep one", 500, [3]geom.Vec{{2, -6, 0}, {-2, -6, 0}, {0, 6, 8}},
			[3]float64{198, 198, 625}, 2e-3, "Hibbeler, Statics, 14th ed., R3-7 (read)"},
		// The page rounded its unit vectors: 0.5 %.
		{"crate under a ring", 333.66, [3]geom.Vec{{-16.5, -24, 50}, {16.5, -12, 50}, {-16.5, 24, 50}},
			[3]float64{48.49, 180, 144.78}, 6e-3, "statics text solution page, crate on cables, T_AC = 180 lb (read)"},
		{"80 kg on three cables", 784, [3]geom.Vec{{0.2, -0.15, 0.8}, {-0.1, -0.15, 0.8}, {-0.1, 0.3, 0.8}},
			[3]float64{273.80, 267.89, 281.01}, 2e-5, "college physics note (read)"},
		// Two cables to corners of one side, one to the middle of the other.
		{"square plate, 1800 kg at 9.81", 1800 * 9.81 / 1000, [3]geom.Vec{{1.2, 1.2, 2.4}, {1.2, -1.2, 2.4}, {-1.2, 0, 2.4}},
			[3]float64{5.41, 5.41, 9.87}, 1e-3, "Meriam and Kraige, Statics (statement read, dimensions and answers from memory)"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			hook := geom.Vec{1, 2, 10}
			r := Rig{Weight: tt.weight * lb, CG: hook.Sub(geom.Vec{0, 0, 200})}
			for _, c := range tt.cables {
				r.Picks = append(r.Picks, hook.Sub(c))
			}
			r.Lengths = LevelLengths(r.Picks, hook)
			h, err := r.Hang()
			require.NoError(t, err)
			assert.True(t, h.Drawn, "hook plumb over the CG: the load hangs as drawn")
			for i, want := range tt.want {
				assert.InEpsilon(t, want, h.Tension[i]/lb, tt.within, "cable %d: %s", i+1, tt.source)
			}
		})
	}
}

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// Two legs. Heights and lengths in the unit of the source; W in its unit too.
func TestPublishedTwoLegs(t *testing.T) {
	tests := []struct {
		name           string
		weight         float64
		left, right, h float64
		want           [2]float64
		within         float64
		source         string
	}{
		// 16 ft slings at 12 ft height: half span √(16² − 12²) = 10.583 ft.
		{"quiz", 15000, 10.583005, 10.583005, 12, [2]float64{10000, 10000}, 1e-6,
			"workplace-safety agency quiz: 15 000 lb on two 16 ft slings, 12 ft height: 10 000 lb a leg (read)"},
		{"field manual", 1800, 5.2915026, 5.2915026, 6, [2]float64{1200, 1200}, 1e-6,
			"FM 5-125 example: W 1800 lb, L 8, V 6 ft (from memory)"},
		{"moment rule", 10000, 3, 6, 1000, [2]float64{6667, 3333}, 1.5e-4,
			"moment-rule training example, vertical shares (common practice, no source); hook so high that legs are plumb"},
		{"off centre", 10000, 2, 4, 5, [2]float64{7180.22, 4268.75}, 1e-6, "statics by hand"},
		{"off centre, steep", 100, 1.5, 3.5, 4, [2]float64{74.7600, 39.8630}, 2e-6, "statics by hand"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := Rig{Weight: tt.weight, CG: geom.Vec{0, 0, -1}, Picks: []geom.Vec{{-tt.left, 0, 0}, {tt.right, 0, 0}}}
			r.Lengths = LevelLengths(r.Picks, geom.Vec{0, 0, tt.h})
			h, err := r.Hang()
			require.NoError(t, err)
			for i, want := range tt.want {
				assert.InEpsilon(t, want, h.Tension[i], tt.within, "leg %d: %s", i+1, tt.source)
			}
			assert.True(t, h.Stable)
			assert.InDelta(t, 1, h.Margin, 1e-9, "the CG may rise by the 1 m that it is below the picks")
		})
	}
}

func TestUnequalPickHeights(t *testing.T) {
	r := Rig{Weight: 100, CG: geom.Vec{0, 0, -3}, Picks: []geom.Vec{{-2, 0, 0}, {3, 0, 1}}}
	r.Lengths = LevelLengths(r.Picks, geom.Vec{0, 0, 6})
	h, err := r.Hang()
	require.NoError(t, err)
	assert.InDelta(t, 67.7631, h.Tension[0], 5e-5, "statics by hand")
	assert.InDelta(t, 41.6497, h.Tension[1], 5e-5, "statics by hand")
}

// Tension of two equal legs against the printed load-angle factors.
func TestPublishedLoadAngleFactors(t *testing.T) {
	// OSHA, Guidance on Safe Sling Use (from memory): cut off after the third
	// decimal, so up to 0.001 low and never high.
	printed := map[float64]float64{90: 1.000, 85: 1.003, 80: 1.015, 75: 1.035, 70: 1.064, 65: 1.103,
		60: 1.154, 55: 1.220, 50: 1.305, 45: 1.414, 40: 1.555, 35: 1.743, 30: 2.000}
	for deg, factor := range printed {
		if deg == 90 {
			continue // two plumb legs don't meet at a hook
		}
		r := Rig{Weight: 2, CG: geom.Vec{0, 0, -1}, Picks: []geom.Vec{{-1, 0, 0}, {1, 0, 0}}}
		r.Lengths = LevelLengths(r.Picks, HookAtAngle(r.CG, r.Picks, rad(deg)))
		h, err := r.Hang()
		require.NoError(t, err)
		assert.GreaterOrEqual(t, h.Tension[0], factor-1e-9, "%g°", deg)
		assert.Less(t, h.Tension[0], factor+0.001, "%g°", deg)
		assert.InDelta(t, deg, h.FromHorizontal(0)*180/math.Pi, 1e-9)
	}
}

func TestThreeLegsByHand(t *testing.T) {
	tests := []struct {
		name  string
		w     float64
		picks []geom.Vec
		hook  float64
		want  []float64
	}{
		{"symmetric, radius 2, hook 4 up", 30, []geom.Vec{{2, 0, 0}, {-1, math.Sqrt(3), 0}, {-1, -math.Sqrt(3), 0}}, 4,
			[]float64{11.18034, 11.18034, 11.18034}},
		{"vertical parts 40, 20, 40", 100, []geom.Vec{{3, 0, 0}, {-2, 2, 0}, {-2, -1, 0}}, 5,
			[]float64{46.6476, 22.9783, 43.8178}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := Rig{Weight: tt.w, CG: geom.Vec{0, 0, -0.5}, Picks: tt.picks}
			r.Lengths = LevelLengths(r.Picks, geom.Vec{0, 0, tt.hook})
			h, err := r.Hang()
			require.NoError(t, err)
			assert.InDeltaSlice(t, tt.want, h.Tension, 6e-5, "3 × 3 statics by hand")
			assert.True(t, h.Stable)
		})
	}
}
