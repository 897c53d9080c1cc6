package lift_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// A soft eye takes no pin thinner than its rope (ASME B30.9, from memory), however the
// load is rigged: 12 mm is less than the 1/2 in that 2 t on each leg take here.
func TestPinsCountUnderBarsAndOnTwoHooks(t *testing.T) {
	const beam = `
load: beam
units: m
parts: [{name: beam, weight: 4000 kg, box: 4 x 2 x 1, center: [2, 1, 0.5], tolerance: 0 %, status: weighed}]
picks: [{name: A, at: [0.5, 1, 1]}, {name: B, at: [3.5, 1, 1]}]
hitch: {kind: vertical, pin: 12 mm}
rules: US
surroundings: {temperature: 15 C, chemicals: [none], edges: none, surface: painted, outdoors: true}
`
	for name, rig := range map[string]string{
		"one hook":  "hook: {above: picks, height: 4}\nlegs: {lengths: level}\n",
		"a bar":     "rig: {bar: {kind: spreader, weight: 100 kg, length: 3, height: 1, hook: 2.5, holds: [A, B]}}\n",
		"two hooks": "rig: {two hooks: {head: A, tail: B, turn: {from: 0, to: 20}, slings: {A: 3, B: 3}}}\n",
	} {
		s, err := lift.Slings(read(t, beam+rig), lift.Options{})
		require.NoError(t, err)
		families := s.Families
		if len(s.ByHook) > 0 {
			families = s.ByHook[0].Families
		}
		said := ""
		for _, f := range families {
			if f.Family == "wire_rope" {
				said += strings.Join(f.Reasons, "\n")
			}
		}
		assert.Contains(t, said, "leg A: pin of 12 mm, want at least", name)
	}
}
