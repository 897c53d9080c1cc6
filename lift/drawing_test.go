package lift_test

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// sheets are those that were drawn already: to solve them takes its time.
var sheets = map[string]lift.LiftSheet{}

// drawn is the sheet of a sample with its drawings.
func drawn(t *testing.T, file string, show units.Show) lift.LiftSheet {
	t.Helper()
	name := file + show.String()
	if s, done := sheets[name]; done {
		return s
	}
	load, err := takeoff.Read(os.DirFS("../samples"), file, takeoff.Options{})
	require.NoError(t, err)
	s, err := lift.Sheet(load, lift.Options{Draw: true, Show: show})
	require.NoError(t, err)
	require.NotEmpty(t, s.Drawings)
	sheets[name] = s
	return s
}

// eachSample draws every sample.
func eachSample(t *testing.T, test func(t *testing.T, s lift.LiftSheet)) {
	files, err := filepath.Glob("../samples/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) { test(t, drawn(t, filepath.Base(f), units.Both)) })
	}
}

// marksOf are the marks of a kind that are of something.
func marksOf(d lift.Drawing, kind, of string) []lift.Mark {
	var out []lift.Mark
	for _, m := range d.Marks {
		if m.Kind == kind && m.Of == of {
			out = append(out, m)
		}
	}
	return out
}

// TestPlacesOnPaperAreToScale: CG, picks and hook stand on paper where the view
// puts them, 1000/scale millimetres to the metre.
func TestPlacesOnPaperAreToScale(t *testing.T) {
	eachSample(t, func(t *testing.T, s lift.LiftSheet) {
		for _, d := range s.Drawings {
			on := func(p geom.Vec) mgl64.Vec2 {
				return d.DatumMM.Add(mgl64.Vec2{p.Dot(*d.Right), p.Dot(*d.Up)}.Mul(1000 / d.Scale))
			}
			same := func(want geom.Vec, got mgl64.Vec2, what string) {
				assert.InDelta(t, 0, on(want).Sub(got).Len(), 1e-9, "%s: %s, mm", d.Title, what)
			}
			assert.InDelta(t, 1, d.Right.Len(), 1e-12)
			assert.InDelta(t, 1, d.Up.Len(), 1e-12)
			assert.InDelta(t, 0, d.Up.Dot(*d.Right), 1e-12)
			cg := marksOf(d, "circle", "cg")
			require.Len(t, cg, 1)
			same(s.Weigh.CGM, cg[0].At[0], "CG")
			if s.Legs.Posed == nil { // on two hooks load and picks are drawn
				assert.Len(t, marksOf(d, "circle", "pick"), len(s.Legs.Legs))
				continue
			}
			picks, legs := marksOf(d, "circle", "pick"), marksOf(d, "line", "leg")
			require.Len(t, picks, len(s.Legs.Legs))
			require.Len(t, legs, len(s.Legs.Legs)+len(s.Legs.UpperLegs))
			tops := []geom.Vec{s.Legs.HookM}
			for _, bar := range s.Legs.Bars {
				for _, end := range bar.Ends {
					tops = append(tops, end.AtM)
				}
			}
			for i, leg := range s.Legs.Legs {
				assert.Equal(t, leg.Pick, picks[i].Part)
				same(leg.AtM, picks[i].At[0], leg.Pick)
				same(leg.AtM, legs[i].At[0], leg.Pick)
			}
			for _, leg := range legs {
				assert.True(t, slices.ContainsFunc(tops, func(p geom.Vec) bool { return on(p).Sub(leg.At[1]).Len() < 1e-9 }),
					"%s: leg %s ends at the hook or at the end of a bar", d.Title, leg.Part)
			}
			if hook := marksOf(d, "circle", "hook"); d.View != "plan" {
				require.Len(t, hook, 1)
				same(s.Legs.HookM, hook[0].At[0], "hook")
			}
		}
	})
}

// TestHungViewsShowTheTilt: as it hangs the hook is plumb over the CG, and z of
// the load leans by the tilt of the figures, where it was to hang as drawn.
func TestHungViewsShowTheTilt(t *testing.T) {
	hung := 0
	eachSample(t, func(t *testing.T, s lift.LiftSheet) {
		for _, d := range s.Drawings {
			if !d.Hung || d.View != "front" && d.View != "side" {
				continue
			}
			hung++
			if s.Legs.Attitude == nil {
				assert.InDelta(t, s.Legs.TiltDeg, math.Acos(d.Up[2])*180/math.Pi, 1e-6, d.Title)
			}
			if s.Legs.Liquid == nil {
				// A round body that friction holds in its bights hangs a hair off plumb.
				assert.InDelta(t, 0, s.Legs.HookM.Sub(s.Weigh.CGM).Dot(*d.Right), 1e-4, "m, %s", d.Title)
			}
		}
	})
	assert.NotZero(t, hung, "no sample hangs out of level")
}

// room is the rectangle of a text, as wide as the widest of the usual faces sets
// it: 0.6 of its size a letter (Liberation Sans Bold sets 0.56 to a digit).
func room(m lift.Mark) (left, foot, right, top float64) {
	wide := 0.0
	for _, r := range m.Text {
		if strings.ContainsRune("iljtfI.,:;'|!()[]/- ", r) {
			wide += 0.34
		} else {
			wide += 0.58
		}
	}
	wide *= m.Size
	at := m.At[0]
	before := map[string]float64{"left": 0, "middle": 0.5, "right": 1}[m.Align] * wide
	if m.Turn == 90 {
		return at[0] - 0.74*m.Size, at[1] - before, at[0] + 0.2*m.Size, at[1] - before + wide
	}
	return at[0] - before, at[1] - 0.2*m.Size, at[0] - before + wide, at[1] + 0.74*m.Size
}

// TestNoTwoTextsMeet on any drawing of any sample, and none leaves
// the paper.
func TestNoTwoTextsMeet(t *testing.T) {
	eachSample(t, func(t *testing.T, s lift.LiftSheet) { apart(t, s) })
	apart(t, drawn(t, "press-frame.yaml", units.Metric))
	apart(t, drawn(t, "pump-skid-us.yaml", units.US))
	apart(t, drawn(t, "motor-rack.yaml", units.US))
}

func apart(t *testing.T, s lift.LiftSheet) {
	for _, d := range append(slices.Clone(s.Drawings), s.Plots...) {
		textsApart(t, d)
	}
}

func textsApart(t *testing.T, d lift.Drawing) {
	var texts []lift.Mark
	for _, m := range d.Marks {
		if m.Kind != "text" {
			continue
		}
		left, foot, right, top := room(m)
		assert.True(t, left > 0 && foot > 0 && right < d.Wide && top < d.High, "%s: %q leaves the paper", d.Title, m.Text)
		for _, other := range texts {
			l, f, r, u := room(other)
			assert.False(t, left < r && l < right && foot < u && f < top, "%s: %q lies on %q", d.Title, m.Text, other.Text)
		}
		texts = append(texts, m)
	}
}

// TestFiguresAreNotCutByThickLines: no leg runs through a text.
func TestFiguresAreNotCutByThickLines(t *testing.T) {
	eachSample(t, func(t *testing.T, s lift.LiftSheet) {
		for _, d := range s.Drawings {
			for _, m := range d.Marks {
				if m.Kind != "text" {
					continue
				}
				left, foot, right, top := room(m)
				for _, leg := range marksOf(d, "line", "leg") {
					for i := range 1000 {
						p := leg.At[0].Add(leg.At[1].Sub(leg.At[0]).Mul(float64(i) / 999))
						if !assert.False(t, p[0] > left && p[0] < right && p[1] > foot && p[1] < top, "%s: a leg runs through %q", d.Title, m.Text) {
							break
						}
					}
				}
			}
		}
	})
}

// TestDimensionsSayWhatTheyMeasure: an arrowed line is as long on paper as some
// distance of the figures is.
func TestDimensionsSayWhatTheyMeasure(t *testing.T) {
	s := drawn(t, "press-frame.yaml", units.Metric)
	d := s.Drawings[0]
	require.Equal(t, "plan", d.View)
	// From the load file: lugs 100 and 1500 mm from the left edge and 200 and 800
	// from the front, the frame 1000 deep and, with its power pack, 2025 long.
	for _, want := range []float64{100, 1500, 200, 800, 1000, 2025} {
		found := false
		for _, m := range marksOf(d, "line", "size") {
			found = found || len(m.At) == 2 && math.Abs(m.At[1].Sub(m.At[0]).Len()*d.Scale-want) < 0.01
		}
		assert.True(t, found, "no dimension line is %g mm long", want)
	}
}

// TestFewLines: a drawing of a sample stays small.
func TestFewLines(t *testing.T) {
	eachSample(t, func(t *testing.T, s lift.LiftSheet) {
		for _, d := range s.Drawings {
			assert.Less(t, len(d.Marks), 1500, d.Title)
			assert.NotEmpty(t, marksOf(d, "line", "part"), d.Title)
			assert.LessOrEqual(t, d.High, 140.0, "two stand on a page: %s", d.Title)
		}
	})
}

// TestTiltForAnErrorOfTheCG: on three or more taut legs hook and load are one
// rigid body, so that a CG moved level by e hangs plumb when the load has turned by
// atan(e/H), H from the CG up to the hook (derived here).
func TestTiltForAnErrorOfTheCG(t *testing.T) {
	s := drawn(t, "press-frame.yaml", units.Both)
	require.Len(t, s.Tilts, 2)
	up := s.Legs.HookM[2] - s.Weigh.CGM[2]
	for _, c := range s.Tilts {
		require.Len(t, c.Points, 17)
		for _, p := range c.Points {
			want := math.Atan2(math.Abs(p.OffM), up) * 180 / math.Pi
			assert.InDelta(t, want, p.TiltDeg, 1e-6, "along %s, %g m", c.Along, p.OffM)
		}
	}
	curve := marksOf(plotOf(t, s, "Tilt"), "line", "curve")
	require.Len(t, curve, 1, "x and y lie on one another")
	assert.Len(t, curve[0].At, 17)
}

// TestSizesOfNothing: a load of a bare weight has no size, and its CG may stand right
// at its edge. (It drew a line without end.)
func TestSizesOfNothing(t *testing.T) {
	load := read(t, `
load: Bar on two legs
units: mm
parts:
  - {name: bar, weight: 2000 kg, center: [1200, 0, -300]}
picks:
  - {name: left, at: [0, 0, 0]}
  - {name: right, at: [3000, 0, 0]}
hook: {above: picks, height: 2000}
legs: {lengths: level}
rules: EN
`)
	s, err := lift.Sheet(load, lift.Options{Draw: true})
	require.NoError(t, err)
	require.NotEmpty(t, s.Drawings)
	for _, d := range s.Drawings {
		for _, m := range d.Marks {
			for _, p := range m.At {
				assert.True(t, p[0] >= 0 && p[0] <= d.Wide && p[1] >= 0 && p[1] <= d.High, "%s: a mark of %s at %v leaves the paper", d.Title, m.Of, p)
			}
		}
	}
}
