package lift_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Under bars the statics see the load's own CG, as without bars: no liquid runs here,
// so that it is the best CG, 0.3 m off the middle as the load is drawn.
func TestTheStaticsCGUnderABarIsTheLoads(t *testing.T) {
	h := barLegs(t, barred(100, "[0.3, 0, -2.5]", endPicks, "{kind: spreader, weight: 500 kg, length: 4, height: 2, hook: 3.464, holds: [A, B]}"))
	for i, want := range []float64{0.3, 0, -2.5} {
		assert.InDelta(t, want, h.StaticsCGM[i], 1e-9)
	}
}
