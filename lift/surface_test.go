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

// The way to the nearest edge, by hand: 55 mm to a side of the plate, 70 mm to
// the rim of a hole, and no more than is looked at.
func TestWayToTheNearestEdge(t *testing.T) {
	l, err := takeoff.ReadFrom(strings.NewReader(`
load: plate
units: mm
material: carbon steel
parts:
- {name: plate, plate: 2000 x 1000 x 20, corner: [0, 0, 0], cuts: [{cylinder: {diameter: 100, height: 20}, at: [1000, 500, 0]}]}
`), "plate.yaml", nil, takeoff.Options{As: "yaml"})
	require.NoError(t, err)
	s := newSurface(l, l.Parts[0].Extent())
	assert.InDelta(t, 0.055, s.edge(0.5, 0.055, 0.02), 2e-4)
	assert.InDelta(t, 0.070, s.edge(1.12, 0.5, 0.02), 1e-3)
	assert.InDelta(t, ringsMost*seat, s.edge(0.5, 0.5, 0.02), 1e-12)
	assert.True(t, s.keepsOff(1.12, 0.5, 0.02, 0.069))
	assert.False(t, s.keepsOff(1.12, 0.5, 0.02, 0.072))
	assert.False(t, s.keepsOff(1, 0.35, 0.02, 0.3), "the hole is nearer than the side")
}
