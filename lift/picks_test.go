package lift

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/density"
	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
)

func pickLoad(t require.TestingT, yaml string) *takeoff.Load {
	l, err := takeoff.ReadFrom(strings.NewReader(yaml), "load.yaml", nil, takeoff.Options{As: "yaml"})
	require.NoError(t, err, yaml)
	return l
}

// Loads whose top has no pick-worthy place in some parts, each with where there
// is metal, from the drawing: the height of the top, false over none.
var pickTops = []struct {
	name, yaml string
	top        func(x, y float64) (float64, bool)
}{
	{"plate with a big hole", `
load: ring plate
units: mm
material: structural steel
parts:
- {name: plate, plate: 3000 x 2000 x 30, corner: [0, 0, 0], cuts: [{cylinder: {diameter: 1500, height: 30}, at: [1500, 1000, 0]}]}
`, func(x, y float64) (float64, bool) { return 0.03, math.Hypot(x-1.5, y-1) > 0.75 }},
	// CG by hand, of a foot of 2 × 0.3 and an arm of 0.3 × 1.7 m:
	// x = y = (0.6·1 + 0.51·0.15)/1.11 = 0.61 m, where there is no metal.
	{"angle plate, its CG outside the metal", `
load: angle plate
units: mm
material: structural steel
parts:
- {name: foot, plate: 2000 x 300 x 30, corner: [0, 0, 0]}
- {name: arm, plate: 300 x 1700 x 30, corner: [0, 300, 0]}
`, func(x, y float64) (float64, bool) { return 0.03, x < 0.3 || y < 0.3 }},
	{"tall column on a foot", `
load: column
units: mm
material: structural steel
parts:
- {name: foot, plate: 1500 x 1500 x 50, corner: [-750, -750, 0]}
- {name: column, box: 500 x 500 x 4000, corner: [-250, -250, 50]}
`, func(x, y float64) (float64, bool) {
		if math.Abs(x) <= 0.25 && math.Abs(y) <= 0.25 {
			return 4.05, true
		}
		return 0.05, true
	}},
}

// Every place that is proposed is on the top and a seat's way from a hole or an
// edge, by the drawing; the load hangs, level, and may be lifted on.
func TestProposedPlacesAreOnTheMetal(t *testing.T) {
	for _, tt := range pickTops {
		for _, candidates := range []string{"", "candidates: {grid: 50}\n", "candidates: {edge: 90}\n", "candidates: {grid: 60, edge: 60}\n"} {
			t.Run(tt.name+" "+candidates, func(t *testing.T) {
				p, err := Picks(pickLoad(t, tt.yaml+candidates), Options{})
				require.NoError(t, err)
				require.NotEmpty(t, p.Proposals)
				edge := seat
				if i := strings.Index(candidates, "edge: "); i > 0 {
					_, err := fmt.Sscanf(candidates[i:], "edge: %g", &edge)
					require.NoError(t, err)
					edge /= 1000
				}
				for _, one := range p.Proposals {
					assert.True(t, one.Verdict.Acceptable, one.Verdict.Reasons)
					assert.LessOrEqual(t, one.Legs.TiltDeg, 1e-6)
					for _, pick := range one.Picks {
						z, ok := tt.top(pick.AtM[0], pick.AtM[1])
						assert.True(t, ok, "in a hole: %v", pick)
						assert.InDelta(t, z, pick.AtM[2], 1e-9, "m, %v", pick)
						for i := range 16 {
							sin, cos := math.Sincos(2 * math.Pi * float64(i) / 16)
							near, ok := tt.top(pick.AtM[0]+(edge-1e-5)*cos, pick.AtM[1]+(edge-1e-5)*sin)
							assert.True(t, ok && near == z, "an edge nearer than %g m to %v", edge, pick)
						}
					}
				}
			})
		}
	}
}

// A tall thing whose CG is far above its foot is picked by the head; no pair is
// proposed on the foot, 2 m below the CG.
func TestTallThingIsPickedHigh(t *testing.T) {
	p, err := Picks(pickLoad(t, pickTops[2].yaml), Options{})
	require.NoError(t, err)
	for _, one := range p.Proposals {
		if len(one.Picks) == 2 {
			assert.InDelta(t, 4.05, one.Picks[0].AtM[2], 1e-9)
		}
	}
	assert.InDelta(t, 4.05, p.Proposals[0].Picks[0].AtM[2], 1e-9)
}

// someLugs is a block with a few lugs on it, its CG off the middle and in doubt.
func someLugs(r *rand.Rand, lugs int) string {
	from := func(low, high int) int { return low + r.IntN(high-low+1) }
	var b strings.Builder
	fmt.Fprintf(&b, `
load: block
units: mm
parts:
- {name: block, weight: 2000 kg, box: 3000 x 2000 x 800, center: [0, 0, 400], tolerance: 5 %%}
- {name: motor, weight: 500 kg, center: [%d, %d, %d], tolerance: 20 %%}
candidates: {lugs: [`, from(-800, 800), from(-500, 500), from(100, 1000))
	for i := range lugs {
		side, end := 1-i%2*2, 1-i/2%2*2 // round the corners
		z := []int{840, 840, 840, 600}[r.IntN(4)]
		fmt.Fprintf(&b, "{name: L%d, at: [%d, %d, %d]}, ", i, end*from(2, 14)*100, side*from(0, 9)*100, z)
	}
	rigging := []string{
		"", "hook: {above: picks, height: 1500}\n", "legs: {lengths: 2000}\n", "limits: {headroom: 1200, tilt: 3}\n", "limits: {least angle from horizontal: 50}\n",
	}
	return b.String() + "]}\n" + rigging[r.IntN(len(rigging))]
}

// Never worse than brute force: each set of the lugs is given as the picks and
// asked of Legs, the question that the planner would ask; no set that may be
// lifted on is missed, and none that clears the load has a better score.
func TestProposalsNeverWorseThanBruteForce(t *testing.T) {
	acceptable := 0
	for seed := range uint64(20) {
		r := rand.New(rand.NewPCG(seed, 5))
		text := someLugs(r, 3+r.IntN(3))
		l := pickLoad(t, text)
		h := newHeader(l)
		w, err := weigh(l, &h)
		require.NoError(t, err)
		found, err := propose(l, w, Options{})
		require.NoError(t, err)
		best, score := bruteForce(t, l, w)
		if len(found) == 0 {
			require.Equal(t, proposalRefused, best, text)
			continue
		}
		require.Equal(t, best, found[0].kind(), "%s\nproposed %v", text, found[0].Picks)
		if best != proposalRefused {
			acceptable++
			require.GreaterOrEqual(t, found[0].Score, score-1e-9, text)
		}
	}
	assert.Greater(t, acceptable, 7, "cases of 20 in which something may be lifted on")
}

// Of more sets than are solved, those that the closed form takes hold the best:
// here all 550 sets of 11 lugs are solved.
func TestShortlistHoldsTheBest(t *testing.T) {
	for seed := range uint64(4) {
		l := pickLoad(t, someLugs(rand.New(rand.NewPCG(seed, 6)), 11))
		h := newHeader(l)
		w, err := weigh(l, &h)
		require.NoError(t, err)
		p, err := newProposer(l, w, Options{})
		require.NoError(t, err)
		require.NoError(t, p.rank(solvedFirst))
		for number := 2; number <= 4; number++ {
			var all []rig.Proposal
			for _, set := range p.search.Best(number, 1000) {
				ok, err := p.solve(&set)
				require.NoError(t, err)
				if ok {
					all = append(all, set)
				}
			}
			slices.SortStableFunc(all, rig.Better)
			if len(all) == 0 || !all[0].Within {
				continue
			}
			require.NotEmpty(t, p.ranked[number])
			assert.True(t, p.ranked[number][0].Within)
			assert.InDelta(t, all[0].Score, p.ranked[number][0].Score, 1e-9, "%d picks, %d sets", number, len(all))
		}
	}
}

// bruteForce is the best kind and its best score over all sets of the lugs in
// every order.
func bruteForce(t require.TestingT, l *takeoff.Load, w Weight) (kind int, score float64) {
	lugs := l.Rigging.Candidates.Lugs
	p, err := newProposer(l, w, Options{})
	require.NoError(t, err)
	kind = proposalRefused
	for set := range 1 << len(lugs) {
		var picks []takeoff.Pick
		var at []geom.Vec
		for i, lug := range lugs {
			if set>>i&1 == 1 {
				picks, at = append(picks, lug), append(at, lug.At)
			}
		}
		if len(picks) < 2 || len(picks) > 4 {
			continue
		}
		own := *l
		own.Rigging.Picks = picks
		hung, err := Legs(&own, Options{})
		if err != nil || !hung.Verdict.Acceptable {
			continue
		}
		clashes, err := rig.Clashes(hung.HookM, at, slices.Repeat([]float64{pickLegRadius}, len(at)), p.body, pickLegFree)
		require.NoError(t, err)
		this, mark := proposalGood, 0.0
		if len(clashes) > 0 {
			this = proposalClashes
		}
		alone := p.search
		alone.Seats = nil
		for _, place := range at {
			alone.Seats = append(alone.Seats, rig.Seat{At: place, Edge: math.Inf(1)})
		}
		for _, set := range alone.Best(len(picks), 1) { // none for a pick within three others: three must do
			ok, err := p.solve(&set)
			require.NoError(t, err)
			require.True(t, ok)
			mark = set.Score
		}
		if this < kind || this == kind && mark > score {
			kind, score = this, mark
		}
	}
	return kind, score
}

func TestProposalsAreTheSameEveryTime(t *testing.T) {
	for _, tt := range pickTops {
		first, err := Picks(pickLoad(t, tt.yaml), Options{})
		require.NoError(t, err)
		again, err := Picks(pickLoad(t, tt.yaml), Options{})
		require.NoError(t, err)
		assert.Equal(t, first, again)
	}
}

// Two proposals of the same number of picks are no neighbours, lugs keep their
// names, and each but the first says what it gains and costs.
func TestProposalsDifferUsefully(t *testing.T) {
	l := pickLoad(t, `
load: block
units: mm
material: structural steel
parts: [{name: block, box: 3000 x 1500 x 400, corner: [0, 0, 0]}]
candidates:
  lugs:
  - {name: NW, at: [200, 1400, 450]}
  - {name: NE, at: [2800, 1400, 450]}
  - {name: SW, at: [200, 100, 450]}
  - {name: SE, at: [2800, 100, 450]}
  - {name: W, at: [800, 750, 450]}
  - {name: E, at: [2200, 750, 450]}
`)
	p, err := Picks(l, Options{})
	require.NoError(t, err)
	require.Len(t, p.Proposals, 3)
	for i, one := range p.Proposals {
		assert.Equal(t, i > 0, strings.HasPrefix(one.TradeOff, "beside the first proposal: "), one.TradeOff)
		for _, pick := range one.Picks {
			assert.True(t, slices.ContainsFunc(l.Rigging.Candidates.Lugs, func(lug takeoff.Pick) bool {
				return lug.Name == pick.Name && lug.At == pick.AtM
			}))
		}
	}
	// By symmetry, by hand: the four corners, half each on a diagonal; E and W.
	names := map[int]string{}
	for _, one := range p.Proposals {
		var all []string
		for _, pick := range one.Picks {
			all = append(all, pick.Name)
		}
		slices.Sort(all)
		names[len(all)] = strings.Join(all, " ")
	}
	assert.Equal(t, "NE NW SE SW", names[4])
	assert.Equal(t, "E W", names[2])
}

// Where nothing may be lifted on that is said, with the best there is.
func TestNoneAcceptableIsSaid(t *testing.T) {
	p, err := Picks(pickLoad(t, `
load: block
units: mm
material: structural steel
parts: [{name: block, box: 3000 x 1500 x 400, corner: [0, 0, 0]}]
candidates: {lugs: [{name: A, at: [200, 750, 450]}, {name: B, at: [2800, 750, 450]}]}
limits: {headroom: 500}
`), Options{})
	require.NoError(t, err)
	require.Len(t, p.Proposals, 1)
	assert.False(t, p.Verdict.Acceptable)
	assert.Contains(t, strings.Join(p.Proposals[0].Reasons, "\n"), "may be lifted on as described")
}

// A leg through the load is against a set: from the low lugs on the foot the legs
// would go through the head, which stands out over them.
func TestLegsThroughTheLoadAreSeen(t *testing.T) {
	p, err := Picks(pickLoad(t, `
load: mushroom
units: mm
material: structural steel
parts:
- {name: stem, box: 400 x 400 x 1000, corner: [-200, -200, 0]}
- {name: head, box: 2000 x 2000 x 100, corner: [-1000, -1000, 1000]}
candidates: {lugs: [{name: A, at: [-210, 0, 900]}, {name: B, at: [210, 0, 900]}, {name: C, at: [-700, 0, 1130]}, {name: D, at: [700, 0, 1130]}]}
`), Options{})
	require.NoError(t, err)
	require.NotEmpty(t, p.Proposals)
	assert.Equal(t, "C", p.Proposals[0].Picks[0].Name)
	assert.Equal(t, "D", p.Proposals[0].Picks[1].Name)
}

// slab is a mesh of about so many faces: a plate 6 × 4 × 0.5 with a pocket 0.2
// deep in the middle of its top.
func slab(faces int) geom.Mesh {
	n := int(math.Sqrt(float64(faces) / 4))
	var m geom.Mesh
	at := func(layer, i, j int) int { return (layer*(n+1)+i)*(n+1) + j }
	for layer := range 2 {
		for i := range n + 1 {
			for j := range n + 1 {
				x, y, z := 6*float64(i)/float64(n), 4*float64(j)/float64(n), 0.5*float64(layer)
				if layer == 1 && math.Abs(x-3) < 1 && math.Abs(y-2) < 0.7 {
					z = 0.3
				}
				m.Vertices = append(m.Vertices, geom.Vec{x, y, z})
			}
		}
	}
	quad := func(a, b, c, d int) { m.Faces = append(m.Faces, [3]int{a, b, c}, [3]int{a, c, d}) }
	for i := range n {
		for j := range n {
			quad(at(1, i, j), at(1, i+1, j), at(1, i+1, j+1), at(1, i, j+1))
			quad(at(0, i, j), at(0, i, j+1), at(0, i+1, j+1), at(0, i+1, j))
		}
		quad(at(0, i, 0), at(0, i+1, 0), at(1, i+1, 0), at(1, i, 0))
		quad(at(0, i+1, n), at(0, i, n), at(1, i, n), at(1, i+1, n))
		quad(at(0, 0, i+1), at(0, 0, i), at(1, 0, i), at(1, 0, i+1))
		quad(at(0, n, i), at(0, n, i+1), at(1, n, i+1), at(1, n, i))
	}
	return m
}

func slabLoad(faces int) *takeoff.Load {
	steel := density.Material{Name: "steel", Density: 7850}
	return &takeoff.Load{Name: "slab", Parts: []takeoff.Part{{Name: "slab", Kind: "mesh", Solid: geom.NewBody(slab(faces)), Pose: geom.Still(), Places: []geom.Pose{geom.Still()}, Count: 1, Material: steel}}}
}

// On a mesh: each place is on its surface, found here by looking at every face,
// and not on the pocket's slope.
func TestProposedPlacesOnAMesh(t *testing.T) {
	l := slabLoad(20000)
	p, err := Picks(l, Options{})
	require.NoError(t, err)
	require.Len(t, p.Proposals, 3)
	mesh := slab(20000)
	for _, one := range p.Proposals {
		assert.True(t, one.Verdict.Acceptable, one.Verdict.Reasons)
		for _, pick := range one.Picks {
			hits := mesh.Hits(geom.Vec{pick.AtM[0], pick.AtM[1], 1}, geom.Vec{0, 0, -1})
			require.NotEmpty(t, hits)
			assert.InDelta(t, 1-hits[0], pick.AtM[2], 1e-9)
			assert.True(t, math.Abs(pick.AtM[2]-0.5) < 1e-9 || math.Abs(pick.AtM[2]-0.3) < 1e-9)
		}
	}
}
