package geom_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"plumbhook/geom"
)

// A box of 2400 x 1200 x 20 in the file. Inch and foot are exact; 25.4³ =
// 16387.064, and one foot is twelve inches.
func TestUnitCandidates(t *testing.T) {
	list := geom.UnitCandidates(brick(geom.Vec{100, 0, 0}, geom.Vec{2500, 1200, 20}).mesh())
	want := []geom.Candidate{
		{Unit: "mm", Metres: 0.001, Size: geom.Vec{2.4, 1.2, 0.02}, Volume: 0.0576},
		{Unit: "cm", Metres: 0.01, Size: geom.Vec{24, 12, 0.2}, Volume: 57.6},
		{Unit: "m", Metres: 1, Size: geom.Vec{2400, 1200, 20}, Volume: 57.6e6},
		{Unit: "in", Metres: 0.0254, Size: geom.Vec{60.96, 30.48, 0.508}, Volume: 943.8948864},
		{Unit: "ft", Metres: 0.3048, Size: geom.Vec{731.52, 365.76, 6.096}, Volume: 1631050.3636992},
	}
	assert.Len(t, list, len(want))
	for i, w := range want {
		assert.Equal(t, w.Unit, list[i].Unit)
		assert.Equal(t, w.Metres, list[i].Metres)
		assert.InDelta(t, 0, w.Size.Sub(list[i].Size).Len(), 1e-12*w.Size.Len(), w.Unit)
		assert.InEpsilon(t, w.Volume, list[i].Volume, 1e-12, w.Unit)
	}
	assert.Equal(t, list[0].Volume, geom.UnitCandidates(brick(geom.Vec{100, 0, 0}, geom.Vec{2500, 1200, 20}).turned().mesh())[0].Volume, "inside out")
}
