package lift_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

const roundRack = `
load: pipe
units: mm
material: structural steel
parts: [{name: pipe, tube: {outside: 508, wall: 12.7, height: 6000}, along: x, center: [3000, 0, 0]}]
picks: [{name: left, at: [1800, 0, 0]}, {name: right, at: [4200, 0, 0]}]
sling stock: rack.csv
legs: {lengths: 6000, length tolerance: 5 mm}
rules: EN
surroundings: {temperature: 20 C, chemicals: [none], edges: none, surface: rough}
`

// pair is two polyester round slings of 2 t and a length in mm.
func pair(length string) string {
	return "S1,round sling,polyester,2 t," + length + ",2,2026-02-16\nS2,round sling,polyester,2 t," + length + ",2,2026-02-16\n"
}

// By hand: a leg of 6 m to the centre of a pipe of 508 mm. A choker's sling goes all round
// it and no lower than its top: 6 − 0.254 + 2π·0.254 = 7.342 m at least. A basket's two parts
// touch the pipe 2·asin(0.254/6) apart: 2·√(36 − 0.0645) + 0.254·(π + 0.0847) = 12.809 m.
func TestSlingsFromTheRackThatGoRoundTheLoad(t *testing.T) {
	for _, c := range []struct {
		hitch, length string
		will          bool
	}{
		{"choker", "6000", false}, {"choker", "7330", false}, {"choker", "7345", true},
		{"basket", "12100", false}, {"basket", "12795", false}, {"basket", "12810", true}, {"basket", "13500", false},
	} {
		s, err := fromRack(t, roundRack+"hitch: {kind: "+c.hitch+", around: 508, along: x, friction: 0.3, restrained: stops}\n", pair(c.length), lift.Options{Date: "2026-05-04"})
		require.NoError(t, err)
		require.Len(t, s.Stock.Sets, 1)
		assert.Equal(t, c.will, s.Stock.Sets[0].Complete, "%s of %s: %v", c.hitch, c.length, s.Stock.Sets[0].Missing)
	}
}

// Chokers of unlike length: slings of one length, however long, would hang the pipe
// otherwise than reckoned, and how long each is to be is not known.
func TestUnlikeLegsRoundTheLoadAreNotChosenFromTheRack(t *testing.T) {
	yaml := strings.Replace(roundRack, "lengths: 6000", "lengths: {left: 6000, right: 5600}", 1)
	s, err := fromRack(t, yaml+"hitch: {kind: choker, around: 508, along: x, friction: 0.3, restrained: stops}\nlimits: {tilt: 30}\n", pair("9000"), lift.Options{Date: "2026-05-04"})
	require.NoError(t, err)
	assert.True(t, warned(s.Warnings, "stock-not-used"))
	for _, set := range s.Stock.Sets {
		assert.False(t, set.Complete)
	}
}
