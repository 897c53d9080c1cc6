package lift

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/takeoff"
)

// A plate of 400 x 300 x 20 mm with a hole of 40 mm at 50, 40 mm from its
// corner, mirrored in y = 400 mm, the pair turned by half a circle about
// x = 500, y = 400 mm. The holes by hand.
func TestTopOfTheLoadKnowsTheHolesOfEveryCopy(t *testing.T) {
	l, err := takeoff.ReadFrom(strings.NewReader(`
load: plates
units: mm
material: carbon steel
parts:
- name: plate
  plate: 400 x 300 x 20
  corner: [0, 0, 0]
  cuts: [{cylinder: {diameter: 40, height: 20}, at: [50, 40, 0]}]
  around: {axis: z, through: [500, 400, 0], count: 2}
  mirror: {across: y, at: 400}
`), "plates.yaml", nil, takeoff.Options{As: "yaml"})
	require.NoError(t, err)
	require.Equal(t, 4, l.Parts[0].Count)
	s := newSurface(l, l.Parts[0].Extent())
	for _, hole := range [][2]float64{{0.05, 0.04}, {0.95, 0.76}, {0.05, 0.76}, {0.95, 0.04}} {
		_, ok := s.top(hole[0], hole[1])
		assert.False(t, ok, "through the hole at %v", hole)
		z, ok := s.top(hole[0], hole[1]+0.021)
		assert.True(t, ok, "beside the hole at %v", hole)
		assert.InDelta(t, 0.02, z, 1e-12)
	}
	_, ok := s.top(0.5, 0.4)
	assert.False(t, ok, "between the plates")
}
