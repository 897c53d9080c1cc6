package plumbhook_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/rig"
	"plumbhook/takeoff"
)

// A general library for numerical work, SciPy, has hung the loads and rigs that are
// read here; see the README.md in this folder.
const statics = "testdata/independent/statics/"

var writeRigs = flag.Bool("write-rigs", false, "write "+statics+"rigs.json anew; its results.csv must then be made anew too")

// hungRig is one rig of rigs.json.
type hungRig struct {
	Name      string     `json:"name"`
	Weight    float64    `json:"weight"` // N
	CG        geom.Vec   `json:"cg"`     // m
	Picks     []geom.Vec `json:"picks"`
	Lengths   []float64  `json:"lengths"`   // m
	Stiffness []float64  `json:"stiffness"` // N/m, or none: no stretch
}

func (h hungRig) rig() rig.Rig {
	return rig.Rig{Weight: h.Weight, CG: h.CG, Picks: h.Picks, Lengths: h.Lengths, Stiffness: h.Stiffness}
}

// drawnRigs draws rigs of 2, 3, 4, 6 and 8 legs: of each a third is cut level, a
// third has lengths of its own, and in a third the legs stretch. The last of each
// has its CG high and far out, so that some roll over. None is left out but what
// legs can't reach.
func drawnRigs() []hungRig {
	dice := rand.New(rand.NewPCG(17, 5))
	kinds := []string{"level", "unequal", "stretch"}
	var all []hungRig
	for _, legs := range []int{2, 3, 4, 6, 8} {
		for i := 0; i < 12; {
			h := drawnRig(dice, legs, kinds[i%3])
			if i >= 9 {
				h.CG[0], h.CG[2] = 4*h.CG[0], h.CG[2]+1.5
			}
			h.Name = fmt.Sprintf("%d legs, %s, %d", legs, kinds[i%3], i/3+1)
			if _, err := h.rig().Hang(); err == nil {
				all = append(all, h)
				i++
			}
		}
	}
	return all
}

func drawnRig(dice *rand.Rand, legs int, kind string) hungRig {
	evenly := func(from, to float64) float64 { return from + (to-from)*dice.Float64() }
	h := hungRig{Weight: math.Round(math.Exp(evenly(8, 14))), CG: geom.Vec{evenly(-0.6, 0.6), evenly(-0.6, 0.6), evenly(-2, 0.4)}}
	for k := range legs { // around the load, as picks stand
		sin, cos := math.Sincos(2*math.Pi*(float64(k)+evenly(-0.3, 0.3))/float64(legs) + 0.3)
		h.Picks = append(h.Picks, geom.Vec{evenly(1.5, 4) * cos, evenly(1, 3) * sin, evenly(-0.5, 0.5)})
	}
	h.Lengths = rig.LevelLengths(h.Picks, rig.HookAbove(h.CG, h.Picks, evenly(2, 6)))
	if kind == "level" {
		return h
	}
	for i := range h.Lengths {
		h.Lengths[i] *= evenly(1, 1.08)
		if kind == "stretch" {
			h.Lengths[i] /= 1.05
			h.Stiffness = append(h.Stiffness, h.Weight*evenly(20, 400)/h.Lengths[i])
		}
	}
	return h
}

// staticsResults reads results.csv: name, what, figures.
func staticsResults(t *testing.T) (values map[string]map[string][]float64, hashes map[string]string) {
	t.Helper()
	text, err := os.ReadFile(statics + "results.csv")
	require.NoError(t, err)
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	require.NoError(t, err)
	values, hashes = map[string]map[string][]float64{}, map[string]string{}
	for _, row := range rows[1:] {
		name, what := row[0], row[1][:strings.LastIndex(row[1], " ")]
		x, err := strconv.ParseFloat(row[2], 64)
		require.NoError(t, err, row)
		if values[name] == nil {
			values[name] = map[string][]float64{}
		}
		values[name][what] = append(values[name][what], x)
		hashes[name] = row[6]
	}
	return values, hashes
}

// measuredFile reads a file that the library has measured, and fails if it is
// another by now.
func measuredFile(t *testing.T, path, hash string) []byte {
	t.Helper()
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	sum := sha256.Sum256(content)
	require.Equal(t, hash, hex.EncodeToString(sum[:]), "%s is not the file that was measured: run run.py again", path)
	return content
}

// Two solvers that share nothing but the drawing. What was measured is in the
// README.md; these are ten times that or more.
const (
	samePlace   = 1e-12 // of the longest leg
	sameTension = 1e-10 // of the weight; what the linear programmes are solved to
)

// TestRigsHangAsALibraryHangsThem holds pose, tilt, tensions and what statics
// allows each leg at least and at most to what SciPy finds for the same rigs.
func TestRigsHangAsALibraryHangsThem(t *testing.T) {
	if *writeRigs {
		text, err := json.MarshalIndent(drawnRigs(), "", " ")
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(statics+"rigs.json", append(text, '\n'), 0o644))
		t.Skip("rigs written: now run run.py")
	}
	all, hashes := staticsResults(t)
	var rigs []hungRig
	require.NoError(t, json.Unmarshal(measuredFile(t, statics+"rigs.json", hashes["2 legs, level, 1"]), &rigs))
	require.Len(t, rigs, 60)
	var worst farthest
	for _, h := range rigs {
		found := all[h.Name]
		require.NotEmpty(t, found, "results.csv has no rows for %s: run run.py", h.Name)
		r := h.rig()
		hang, err := r.Hang()
		require.NoError(t, err, h.Name)
		assert.True(t, hang.Stable, "%s: the library comes to rest there", h.Name)
		worst.poseIs(t, h.Name, found, r, hang.Pose)
		worst.rangesAre(t, h.Name, found, r, hang.Pose)
	}
	t.Logf("farthest: place %.1e of the longest leg, tension %.1e of the weight, ranges %.1e", worst.place, worst.tension, worst.ranges)
}

// farthest is how far the two were apart at most.
type farthest struct{ place, tension, ranges float64 }

// poseIs holds a pose against the library's: up, hook and tensions.
func (f *farthest) poseIs(t *testing.T, name string, found map[string][]float64, r rig.Rig, p rig.Pose) {
	t.Helper()
	longest := slices.Max(r.Lengths)
	for i := range 3 {
		f.place = max(f.place, math.Abs(found["hook"][i]-p.Hook[i])/longest, math.Abs(found["up"][i]-p.Up[i]))
		assert.InDelta(t, found["hook"][i], p.Hook[i], samePlace*longest, "%s: hook %c, m", name, "xyz"[i])
		assert.InDelta(t, found["up"][i], p.Up[i], samePlace, "%s: up %c", name, "xyz"[i])
	}
	require.Len(t, p.Tension, len(found["tension"]), name)
	for i, got := range p.Tension {
		f.tension = max(f.tension, math.Abs(found["tension"][i]-got)/r.Weight)
		assert.InDelta(t, found["tension"][i], got, sameTension*r.Weight, "%s: leg %d, N", name, i+1)
	}
}

// rangesAre holds each leg's greatest pull, and of four legs the least and the
// least of the greatest too, against linear programmes.
func (f *farthest) rangesAre(t *testing.T, name string, found map[string][]float64, r rig.Rig, p rig.Pose) {
	t.Helper()
	same := func(want, got float64, what string, leg int) {
		f.ranges = max(f.ranges, math.Abs(want-got)/r.Weight)
		assert.InDelta(t, want, got, sameTension*r.Weight, "%s: leg %d, %s, N", name, leg+1, what)
	}
	for i, near := range p.Near {
		assert.Equal(t, found["near"][i] == 1, near, "%s: leg %d is taut or nearly", name, i+1)
		// Legs of a stated stretch have what they have, beside what statics allows.
		same(max(found["most"][i], p.Tension[i]), p.Greatest[i], "most", i)
	}
	for _, s := range r.Settings(p) {
		same(found["least"][s.Leg], s.Low, "least while all pull", s.Leg)
		same(found["most"][s.Leg], s.High, "most while all pull", s.Leg)
		same(found["even"][0], slices.Max(s.Tension), "least of the greatest", s.Leg)
	}
}

// TestLoadsHangAsALibraryHangsThem goes the user's way, from load file to the
// figures of the JSON, on loads made by hand.
func TestLoadsHangAsALibraryHangsThem(t *testing.T) {
	all, hashes := staticsResults(t)
	files, err := filepath.Glob(statics + "loads/*.json")
	require.NoError(t, err)
	require.Len(t, files, 15)
	for _, path := range files {
		name := filepath.Base(path)
		found := all[name]
		require.NotEmpty(t, found, "results.csv has no rows for %s: run run.py", name)
		measuredFile(t, path, hashes[name])
		load, err := takeoff.Read(os.DirFS(statics+"loads"), name, takeoff.Options{})
		require.NoError(t, err, name)
		legs, err := lift.Legs(load, lift.Options{})
		require.NoError(t, err, name)
		rest := math.Acos(max(-1, min(1, found["up"][2]))) * 180 / math.Pi
		if name == "two-high-cg.json" { // it does not stay as drawn, and the library follows it down
			assert.False(t, legs.Stable, name)
			assert.Contains(t, fmt.Sprint(legs.Verdict.Reasons), fmt.Sprintf("rolls until it hangs %.0f° from level", rest), name)
			continue
		}
		assert.InDelta(t, rest, legs.TiltDeg, 1e-6, "%s: tilt", name)
		loadIs(t, name, found, legs)
	}
}

// loadIs holds the figures of the legs against the library's, in kN.
func loadIs(t *testing.T, name string, found map[string][]float64, legs lift.Hung) {
	t.Helper()
	weight := legs.PlanningKg * 9.80665 / 1000
	for i, leg := range legs.Legs {
		assert.InDelta(t, found["tension"][i]/1000, leg.TensionKN, sameTension*weight, "%s: %s", name, leg.Pick)
		assert.InDelta(t, found["hook"][min(i, 2)], legs.HookM[min(i, 2)], 1e-11, "%s: hook", name)
		if legs.Sharing.AnyLegSlack != nil {
			assert.InDelta(t, max(found["most"][i], found["tension"][i])/1000, legs.Sharing.AnyLegSlack[leg.Pick], sameTension*weight, "%s: %s, any leg slack", name, leg.Pick)
		}
		// At worst the sizing weight, 0.0001 % more than the planning weight, pulls.
		assert.GreaterOrEqual(t, leg.WorstTensionKN, max(found["most"][i], found["tension"][i])/1000-sameTension*weight, "%s: %s, at worst", name, leg.Pick)
	}
	for _, way := range legs.Gear {
		if way.Way == "reading" {
			assert.InDelta(t, found["even"][0]/1000, way.GreatestKN, sameTension*weight, "%s: a leg set to a reading", name)
		}
	}
}
