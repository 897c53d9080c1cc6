package lift_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// TestLegsAndSlingsFromOneRack: lengths of legs from the rack beside the list of
// its slings give a hung pose on a rack length, and the marks to take for it.
func TestLegsAndSlingsFromOneRack(t *testing.T) {
	both := strings.Replace(hungFromRack, "lengths: 3000", "lengths: {stock: [3000]}", 1)
	rack := "K1,alloy chain,grade 8,10 mm,2500,3.15,2026-02-16\nK3,alloy chain,grade 8,10 mm,3000,3.15,2026-02-16\nK4,alloy chain,grade 8,10 mm,3000,3.15,2026-02-16\n"
	s, err := fromRack(t, both, rack, lift.Options{Date: "2026-05-04"})
	require.NoError(t, err)
	require.Len(t, s.Stock.Sets, 1)
	assert.True(t, s.Stock.Sets[0].Complete, s.Stock.Sets[0].Missing)
	assert.Equal(t, map[string]string{"A": "K3", "B": "K4"}, marks(s.Stock.Sets[0]), "K1 is too short for legs of 3 m")
}
