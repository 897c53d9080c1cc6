package lift_test

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// plotOf is the plot of a sheet whose title begins so.
func plotOf(t *testing.T, s lift.LiftSheet, title string) lift.Drawing {
	t.Helper()
	if !s.Verdict.Acceptable {
		title = "NOT ACCEPTABLE: " + title
	}
	for _, d := range s.Plots {
		if strings.HasPrefix(d.Title, title) {
			title := marksOf(d, "text", "title")
			require.Len(t, title, 1)
			require.Equal(t, d.Title, title[0].Text)
			require.True(t, strings.HasPrefix(d.Alt, d.Title+". "))
			return d
		}
	}
	require.Fail(t, "no such plot", title)
	return lift.Drawing{}
}

// reader reads values off a plot as a person does: by what is written at the
// ends of its axes.
type reader struct {
	at, value [2]mgl64.Vec2 // of the first and the last figure, x and y
}

func newReader(t *testing.T, d lift.Drawing) reader {
	t.Helper()
	var r reader
	frame := marksOf(d, "line", "scale")[0].At // down the left side and along the foot
	left, foot := frame[1][0], frame[1][1]
	for axis := range 2 {
		seen := 0
		for _, m := range marksOf(d, "text", "scale") {
			v, err := strconv.ParseFloat(m.Text, 64)
			row := m.Align == "middle" && math.Abs(m.At[0][1]-foot+4) < 1e-9
			column := m.Align == "right" && m.At[0][0] < left
			if err != nil || axis == 0 && !row || axis == 1 && !column {
				continue
			}
			end := min(seen, 1)
			r.at[end][axis], r.value[end][axis] = m.At[0][axis], v
			if axis == 1 {
				r.at[end][axis]++ // letters stand on a line 1 mm below their tick
			}
			seen++
		}
		require.Greater(t, seen, 3, "too few figures on an axis of %s", d.Title)
	}
	return r
}

func (r reader) read(p mgl64.Vec2) mgl64.Vec2 {
	var out mgl64.Vec2
	for k := range 2 {
		out[k] = r.value[0][k] + (p[k]-r.at[0][k])/(r.at[1][k]-r.at[0][k])*(r.value[1][k]-r.value[0][k])
	}
	return out
}

// TestHeightsReadOffThePlot: each height worked out stands where the axes say
// it, and so does the lift as planned, with the hook 1400 mm over the picks as
// the load file states it.
func TestHeightsReadOffThePlot(t *testing.T) {
	for _, c := range []struct {
		show          units.Show
		height, force float64 // m and N that a unit of the axes is
	}{
		{units.Metric, 1, 1000},
		{units.Both, 1, 1000},
		{units.US, 0.3048, 4.4482216152605}, // NIST SP 811, B.8
	} {
		s := drawn(t, "press-frame.yaml", c.show)
		d := plotOf(t, s, "Worst tension")
		r := newReader(t, d)
		curve := marksOf(d, "line", "curve")
		require.Len(t, curve, 1)
		require.Len(t, curve[0].At, len(s.Slings.Heights.Rows))
		for i, row := range s.Slings.Heights.Rows {
			got := r.read(curve[0].At[i])
			assert.InDelta(t, row.HookM, got[0]*c.height, 1e-9, "m")
			assert.InDelta(t, row.WorstTensionKN*1000, got[1]*c.force, 1e-4, "N")
		}
		planned := marksOf(d, "area", "point")
		require.Len(t, planned, 2, "on the curve and in the key")
		got := r.read(planned[0].At[0].Add(planned[0].At[2]).Mul(0.5))
		assert.InDelta(t, 1.4, got[0]*c.height, 1e-9, "m")
		worst := 0.0
		for _, leg := range s.Legs.Legs {
			worst = max(worst, leg.WorstTensionKN)
		}
		assert.InDelta(t, worst*1000, got[1]*c.force, 1e-4, "N")
	}
}

// TestSizesAreMarkedOnThePlot: a dotted line where another size does, and no
// ring at a height that is not acceptable.
func TestSizesAreMarkedOnThePlot(t *testing.T) {
	s := drawn(t, "motor-rack.yaml", units.Metric)
	d := plotOf(t, s, "Worst tension")
	r := newReader(t, d)
	at := map[float64]bool{}
	for _, m := range marksOf(d, "line", "limit") { // a line may be in pieces round a text
		at[math.Round(r.read(m.At[0])[0]*1e6)/1e6] = true
	}
	sizes, good, bad := map[float64]bool{}, 0, 0
	for i, row := range s.Slings.Heights.Rows {
		if i == 0 || row.Size != s.Slings.Heights.Rows[i-1].Size {
			sizes[math.Round(row.HookM*1e6)/1e6] = true
		}
		if row.Acceptable {
			good++
		} else {
			bad++
		}
	}
	assert.Len(t, sizes, 2, "3 t, and 2 t from some height on")
	assert.Equal(t, sizes, at)
	require.NotZero(t, bad, "the lowest heights clash")
	assert.Len(t, marksOf(d, "circle", "point"), good+1, "one stands in the key")
	assert.Len(t, marksOf(d, "line", "point"), 2*(bad+1), "two strokes a cross")
	assert.Contains(t, d.Alt, "2 t in place of 3 t")
}

// TestSharesReadOffThePlot: head and tail have all of the weight between them,
// and each what moments about the pick of the other give, lying level and upright
// (derived here).
func TestSharesReadOffThePlot(t *testing.T) {
	s := drawn(t, "stack-section.yaml", units.Both)
	d := plotOf(t, s, "Share of each hook")
	r := newReader(t, d)
	head, tail := marksOf(d, "line", "curve"), marksOf(d, "line", "second")
	require.Len(t, head, 1)
	require.Len(t, tail, 1)
	require.Len(t, tail[0].At, len(head[0].At))
	require.Greater(t, len(head[0].At), 90, "a point a degree at least")
	for i := range head[0].At {
		h, l := r.read(head[0].At[i]), r.read(tail[0].At[i])
		assert.InDelta(t, h[0], l[0], 1e-9)
		assert.InDelta(t, 100, h[1]+l[1], 1e-6, "%g°", h[0])
	}
	x := s.Weigh.CGM[0] // trunnions at 10.5 m and the tail lug at 0.2 m
	assert.InDelta(t, (x-0.2)/(10.5-0.2)*100, r.read(head[0].At[0])[1], 1e-6)
	last := r.read(head[0].At[len(head[0].At)-1])
	z := s.Weigh.CGM[2] // upright, the levers are those across: the axis at 0, the lug at 1.42 m
	assert.InDelta(t, 90, last[0], 1e-9)
	assert.InDelta(t, (1.42-z)/1.42*100, last[1], 1e-6)

	// The tail crane may have 75 % of 8 t less its block of 300 kg: 5700 kg.
	want := 5700 / s.Legs.PlanningKg * 100
	found := false
	for _, m := range marksOf(d, "line", "limit") {
		found = found || m.At[0][1] == m.At[1][1] && math.Abs(r.read(m.At[0])[1]-want) < 1e-6
	}
	assert.True(t, found, "no line at the limit of the tail crane")
	assert.Contains(t, d.Alt, "The crane of the tail hook may have 55.89 kN") // 5700 kg × 9.80665
}

// turned is the stack section with something in its load file written otherwise.
func turned(t *testing.T, was, is string, show units.Show) lift.LiftSheet {
	t.Helper()
	text, err := os.ReadFile("../samples/stack-section.yaml")
	require.NoError(t, err)
	require.Contains(t, string(text), was)
	load, err := takeoff.ReadFrom(strings.NewReader(strings.Replace(string(text), was, is, 1)), "stack.yaml", os.DirFS("../samples"), takeoff.Options{As: "yaml"})
	require.NoError(t, err)
	s, err := lift.Sheet(load, lift.Options{Draw: true, Show: show})
	require.NoError(t, err)
	return s
}

// TestSlackHookIsOnThePlot: where the load would fall through the plot says it,
// and ends.
func TestSlackHookIsOnThePlot(t *testing.T) {
	s := turned(t, "1420]", "-1420]", units.US)
	require.False(t, s.Verdict.Acceptable)
	d := plotOf(t, s, "Share of each hook")
	said := 0
	for _, m := range marksOf(d, "text", "scale") {
		if m.Text == "FALLS THROUGH" {
			said++
		}
	}
	assert.Equal(t, 2, said, "at the best CG, and where it is soonest")
	r, curve := newReader(t, d), s.Legs.TwoHooks.Curve
	head := marksOf(d, "line", "curve")[0].At
	last := r.read(head[len(head)-1])
	assert.InDelta(t, curve[len(curve)-1].TurnedDeg, last[0], 1e-9)
	assert.InDelta(t, 0, last[1], 1e-6, "the head hook is slack")
	apart(t, s)
	apart(t, turned(t, "{from: 0, to: 90}", "{from: 90, to: -30}", units.Both))
	assert.Empty(t, turned(t, "{from: 0, to: 90}", "{from: 0, to: 0}", units.Both).Plots, "a level lift has no turn to plot")
}

// TestPlannedOffTheCurve: a hook lower than the least angle lets it be is still
// on the plot, no size where none is large enough is said so, and no text lies
// on another however much there is to say.
func TestPlannedOffTheCurve(t *testing.T) {
	const text = `load: long block
units: mm
material: steel
parts:
  - {name: block, box: 6000 x 1000 x %HIGH, corner: [0, 0, 0]}
rules: EN
picks:
  - {name: A, at: [200, 200, %HIGH]}
  - {name: B, at: [5800, 200, %HIGH]}
  - {name: C, at: [5800, 800, %HIGH]}
  - {name: D, at: [200, 800, %HIGH]}
hook: {above: picks, height: %HOOK}
legs: {lengths: level, link: 100 t}
limits: {least angle from horizontal: 30}
hitch: vertical
surroundings: {temperature: 15 C, chemicals: [none], edges: none, surface: bare, outdoors: false}
`
	for _, c := range []struct{ high, hook, says string }{
		{"200", "1400", "16 mm in place of 18 mm"},
		{"200", "600", "16 mm in place of 18 mm"},
		{"2000", "9000", "no size is large enough"},
	} {
		load, err := takeoff.ReadFrom(strings.NewReader(strings.NewReplacer("%HIGH", c.high, "%HOOK", c.hook).Replace(text)), "a.yaml", os.DirFS("."), takeoff.Options{As: "yaml"})
		require.NoError(t, err)
		for _, show := range []units.Show{units.Both, units.US} {
			s, err := lift.Sheet(load, lift.Options{Draw: true, Show: show})
			require.NoError(t, err)
			d := plotOf(t, s, "Worst tension")
			assert.Contains(t, d.Alt, c.says)
			apart(t, s)
			frame := marksOf(d, "line", "scale")[0].At
			planned := marksOf(d, "area", "point")[0].At[0]
			assert.True(t, planned[0]+1 > frame[1][0] && planned[0] < frame[2][0], "%s over the picks", c.hook)
		}
	}
}
