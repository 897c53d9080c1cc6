package plumbhook_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/rig"
)

// hungTree is one tree of trees.json: bars and a load under one hook.
type hungTree struct {
	Name   string     `json:"name"`
	Hook   geom.Vec   `json:"hook"`
	Bodies []hungBody `json:"bodies"`
	Links  []hungLink `json:"links"`
}

type hungBody struct {
	Weight float64    `json:"weight"` // N
	CG     geom.Vec   `json:"cg"`     // m
	Points []geom.Vec `json:"points"`
}

type hungLink struct {
	From      [2]int  `json:"from"` // body and point; −1: the hook
	To        [2]int  `json:"to"`
	Length    float64 `json:"length"`    // m
	Stiffness float64 `json:"stiffness"` // N/m; 0: no stretch
}

func (h hungTree) tree() rig.Tree {
	t := rig.Tree{Hook: h.Hook}
	for i, b := range h.Bodies {
		t.Bodies = append(t.Bodies, rig.Body{Name: fmt.Sprint("body ", i+1), Weight: b.Weight, CG: b.CG, Points: b.Points})
	}
	for _, l := range h.Links {
		t.Links = append(t.Links, rig.Link{From: rig.End{Body: l.From[0], Point: l.From[1]}, To: rig.End{Body: l.To[0], Point: l.To[1]},
			Length: l.Length, Stiffness: l.Stiffness})
	}
	return t
}

// drawnTrees draws 18 trees: spreaders, frames and frames over frames, with legs cut to
// the drawing, of lengths of their own, and that stretch.
func drawnTrees() []hungTree {
	dice := rand.New(rand.NewPCG(18, 5))
	var all []hungTree
	for _, points := range []int{2, 4} {
		for _, tiers := range []int{2, 3} {
			for _, kind := range []string{"cut to the drawing", "unequal", "stretch"} {
				for i := range 3 {
					h := drawnTree(dice, points, tiers, kind)
					h.Name = fmt.Sprintf("%d points, %d tiers, %s, %d", points, tiers, kind, i+1)
					if _, err := h.tree().Hang(); err == nil {
						all = append(all, h)
					}
				}
			}
		}
	}
	return all
}

func drawnTree(dice *rand.Rand, points, tiers int, kind string) hungTree {
	off := func(span float64) float64 { return span * (2*dice.Float64() - 1) }
	h := hungTree{Hook: geom.Vec{0, 0, 3}}
	long, wide := 2+off(0.5), 1.5+off(0.3)
	for tier := range tiers {
		z := -1.5 * float64(tier)
		b := hungBody{Weight: math.Round(2e3 + 1e4*dice.Float64()), CG: geom.Vec{off(0.2), off(0.1), z - 0.3}}
		if tier == tiers-1 {
			b.Weight, b.CG[2] = b.Weight*8, z-1
		}
		for k := range points {
			sin, cos := math.Sincos(math.Pi * (float64(2*k)/float64(points) + 0.25*float64(points/2-1)))
			p := geom.Vec{long * cos * math.Sqrt(float64(points/2)), wide * sin * math.Sqrt(float64(points/2)), z}
			b.Points = append(b.Points, p)
			from, at := [2]int{tier - 1, k}, h.Hook
			if tier > 0 {
				at = h.Bodies[tier-1].Points[k]
			} else {
				from[1] = 0
			}
			l := hungLink{From: from, To: [2]int{tier, k}, Length: at.Sub(p).Len()}
			switch kind {
			case "unequal":
				l.Length *= 1 + 0.03*dice.Float64()
			case "stretch":
				l.Stiffness = math.Round(math.Exp(13 + 3*dice.Float64()))
			}
			h.Links = append(h.Links, l)
		}
		h.Bodies = append(h.Bodies, b)
	}
	return h
}

// TestTreesHangAsALibraryHangsThem holds bars, frames and what hangs from them to the
// pose, the tensions and the greatest pulls that SciPy finds.
func TestTreesHangAsALibraryHangsThem(t *testing.T) {
	if *writeRigs {
		text, err := json.MarshalIndent(drawnTrees(), "", " ")
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(statics+"trees.json", append(text, '\n'), 0o644))
		t.Skip("trees written: now run run.py")
	}
	all, hashes := staticsResults(t)
	var trees []hungTree
	require.NoError(t, json.Unmarshal(measuredFile(t, statics+"trees.json", hashes["2 points, 2 tiers, unequal, 1"]), &trees))
	require.Len(t, trees, 36)
	const samePlace = 1e-11 // two bodies and more, one hung from the other
	place, tension, most, open := 0.0, 0.0, 0.0, 0
	for _, h := range trees {
		found, tree := all[h.Name], h.tree()
		require.NotEmpty(t, found, "results.csv has no rows for %s: run run.py", h.Name)
		p, err := tree.Hang()
		require.NoError(t, err, h.Name)
		assert.True(t, p.Stable, "%s: the library comes to rest there", h.Name)
		same := func(far *float64, want, got, scale, tol float64, what string, i int) {
			*far = max(*far, math.Abs(want-got)/scale)
			assert.InDelta(t, want, got, tol*scale, "%s: %s %d", h.Name, what, i+1)
		}
		for i, b := range p.Bodies {
			same(&place, found["height"][i], b.CG[2]-tree.Hook[2], 1, samePlace, "height of the CG of body, m,", i)
			same(&place, found["tilt"][i], b.Tilt, 1, samePlace, "tilt of body, rad,", i)
		}
		greatest, left, err := tree.Greatest(p)
		require.NoError(t, err, h.Name)
		if left {
			open++
		}
		for i, l := range p.Links {
			same(&tension, found["tension"][i], l.Tension, tree.Weight(), sameTension, "tension of leg, N,", i)
			if l.Tension > 0 { // a slack leg of a tree stands in no certain place
				same(&place, found["rise"][i], l.FromHorizontal, 1, samePlace, "angle of leg, rad,", i)
			}
			if found["most"] != nil {
				same(&most, found["most"][i], greatest[i], tree.Weight(), sameTension, "greatest of leg, N,", i)
			}
		}
	}
	assert.GreaterOrEqual(t, open, 6, "trees in which statics leaves the sharing open")
	t.Logf("farthest: place %.1e m or rad, tension %.1e of the weight, greatest %.1e", place, tension, most)
}
