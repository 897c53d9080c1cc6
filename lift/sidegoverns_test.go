package lift_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Whichever leg governs with the wind on the load, its case is its own. The four legs
// are alike here, the wind comes from all sides and adds as much to each, so that only
// rounding would choose another leg than in calm air, with the case of the first.
func TestTheGoverningCaseWithWindIsThatOfTheLeg(t *testing.T) {
	low := strings.ReplaceAll(slabFour, ", 1]}", ", 0.1]}")
	calm := legsOf(t, slab+low)
	h := legsOf(t, slab+low+"wind: {pressure: 500 N/m2, area: 16 m2, at: [2, 1, 3], shape factor: 1}\n")
	require.NotNil(t, h.SideForces)
	assert.InDelta(t, h.SideForces.Legs[0].MoreKN, h.SideForces.Legs[2].MoreKN, 1e-6)
	assert.Equal(t, calm.Governing, h.Governing)
	assert.True(t, strings.HasPrefix(h.GoverningCase, calm.GoverningCase+"; and what side forces add"), h.GoverningCase)

	// From one side it adds more to the legs there, which then govern by a case of their own.
	h = legsOf(t, slab+low+"wind: {pressure: 500 N/m2, area: 16 m2, at: [2, 1, 3], shape factor: 1, from: -x}\n")
	assert.Contains(t, []string{"B", "C"}, h.Governing, "to leeward")
}
