package rig

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// Rigs found by the random tests that an earlier form of the solver could not
// settle. Each must hang, and is worth a look before the solver is changed.
func TestRigsThatOnceFailed(t *testing.T) {
	tests := []struct {
		name string
		rig  Rig
	}{
		{"four legs, each 5 mm short, right to a nanometre", Rig{Weight: 59298.421369583564,
			CG:      geom.Vec{0.8713683668646346, 0.4999672849384824, 1.3324972662344616},
			Picks:   []geom.Vec{{0.1, 0.2, 2.4}, {1.5, 0.2, 2.4}, {1.5, 0.8, 2.4}, {0.1, 0.8, 2.4}},
			Lengths: []float64{1.621342377678445, 1.5587001318065434, 1.5587126846980626, 1.6213544470706869}}},
		{"one diagonal tighter by 0.1 mm, CG half a micrometre off it", Rig{Weight: 100,
			CG:      geom.Vec{4.76837158203125e-07, 5.364418029785156e-07, -1},
			Picks:   []geom.Vec{{2, 1, 0}, {-2, 1, 0}, {-2, -1, 0}, {2, -1, 0}},
			Lengths: []float64{3.741657178745394, 3.7416088015315716, 3.74170648177679, 3.741654992603655}}},
		{"three legs nearly in one plane", Rig{Weight: 1000, CG: geom.Vec{0, 1, -1},
			Picks:   []geom.Vec{{0, -1, .5}, {1, 1, .5}, {0, -1.25, .5}, {1, 1.5, .5}, {.001, 1.75, .5}},
			Lengths: []float64{2.23606797749979, 1.4142135623730951, 2.462214450449026, 1.5, 1.250000399999936}}},
		{"eight legs, four of them with picks in one plane", Rig{Weight: 1000, CG: geom.Vec{0.063, 1, -1},
			Picks: []geom.Vec{{-1, 1, 0.5}, {-1, 1, 0.25}, {-1, 1, 0.313}, {0, 1, 0.5}, {0, -2.909, 0.02}, {-0.125, 1.102, 0}, {0, 1.952, 0}, {0, 0, 0}},
			Lengths: []float64{1.422060549661805, 1.5990812934980374, 1.5525814566666072, 0.9467080895949054, 4.160980939324452,
				1.460357750527684, 1.7312335947313051, 1.7580858225713205}}},
		{"CG in the plane of the picks, near the edge", Rig{Weight: 1000, CG: geom.Vec{0, .25, .006},
			Picks:   []geom.Vec{{.002, 1, .004}, {0, .125, .006}, {1, 1, .5}},
			Lengths: []float64{2.1322570201549342, 1.9979141623202936, 1.9525624189766635}}},
		{"a saddle on the way down", Rig{Weight: 1000, CG: geom.Vec{0, -1, 1},
			Picks: []geom.Vec{{0, 1, 0.5}, {0, -1.5, 0.5}}, Lengths: []float64{2.23606797749979, 1.2577882373436318}}},
		{"one leg, far off the CG", Rig{Weight: 1000, CG: geom.Vec{1, -0.011, -2},
			Picks: []geom.Vec{{0, 0.25, 0}}, Lengths: []float64{1.2769577126905964}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h, err := tt.rig.Hang()
			require.NoError(t, err)
			load := h.Up.Mul(tt.rig.Weight)
			assert.True(t, balanced(h.Pull, h.Tension, load))
			assert.True(t, tt.rig.reaches(h.Hook))
		})
	}
}
