package plumbhook_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/rig"
)

// pushedRig is one rig of sides.json: a hung load with level forces on it.
type pushedRig struct {
	hungRig
	Sides []pushed `json:"sides"`
}

type pushed struct {
	At    geom.Vec `json:"at"`    // m
	Force geom.Vec `json:"force"` // N, level
}

func (p pushedRig) sides() []rig.SideForce {
	var all []rig.SideForce
	for _, s := range p.Sides {
		all = append(all, rig.SideForce{At: s.At, Force: s.Force})
	}
	return all
}

// pushedRigs draws 24 loads with one or two level forces of up to an eighth of the
// weight: on legs that stretch, and on three that do not. Left out are those that roll
// over, and of the second kind those with a slack leg.
func pushedRigs() []pushedRig {
	dice := rand.New(rand.NewPCG(19, 5))
	var all []pushedRig
	for i := 0; len(all) < 24; i++ {
		legs, kind := []int{2, 3, 4, 6, 8}[dice.IntN(5)], "stretch"
		if i%3 == 0 {
			legs, kind = 3, "level"
		}
		p := pushedRig{hungRig: drawnRig(dice, legs, kind)}
		p.CG[2] -= 0.5
		for range 1 + dice.IntN(2) {
			f := p.Weight * 0.06 * (1 + dice.Float64())
			sin, cos := math.Sincos(2 * math.Pi * dice.Float64())
			p.Sides = append(p.Sides, pushed{p.CG.Add(geom.Vec{dice.NormFloat64(), dice.NormFloat64(), dice.NormFloat64() / 2}), geom.Vec{f * cos, f * sin, 0}})
		}
		s, err := p.rig().HangAside(p.sides())
		if err != nil || !s.Stable || kind == "level" && slices.Min(s.Tension) < 0.02*p.Weight {
			continue
		}
		p.Name = fmt.Sprintf("aside, %d legs, %s, %d", legs, kind, len(all)+1)
		all = append(all, p)
	}
	return all
}

// TestPushedLoadsHangAsALibraryHangsThem holds loads with level forces on them to the
// statics of the whole body, solved by SciPy.
func TestPushedLoadsHangAsALibraryHangsThem(t *testing.T) {
	if *writeRigs {
		text, err := json.MarshalIndent(pushedRigs(), "", " ")
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(statics+"sides.json", append(text, '\n'), 0o644))
		t.Skip("rigs written: now run run.py")
	}
	text, err := os.ReadFile(statics + "sides.json")
	require.NoError(t, err)
	var rigs []pushedRig
	require.NoError(t, json.Unmarshal(text, &rigs))
	require.Len(t, rigs, 24)
	all, hashes := staticsResults(t)
	measuredFile(t, statics+"sides.json", hashes[rigs[0].Name])
	var worst farthest
	for _, p := range rigs {
		found, r := all[p.Name], p.rig()
		require.NotEmpty(t, found, "results.csv has no rows for %s: run run.py", p.Name)
		s, err := r.HangAside(p.sides())
		require.NoError(t, err, p.Name)
		worst.poseIs(t, p.Name, found, r, s.Pose)
		assert.InDelta(t, found["couple"][0], s.Couple, 1e-9*r.Weight*slices.Max(r.Lengths), "%s: couple about the plumb line, N·m", p.Name)
	}
	t.Logf("farthest: place %.1e of the longest leg, tension %.1e of the weight", worst.place, worst.tension)
}
