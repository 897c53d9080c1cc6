package report

import (
	"bytes"
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// plate is a drawing of our own with every kind of mark: a plate 6 m by 4 m on
// paper of 180 mm by 124 mm at 1 : 50.
func plate() lift.Drawing {
	ring := func(p ...float64) []mgl64.Vec2 {
		var out []mgl64.Vec2
		for i := 0; i < len(p); i += 2 {
			out = append(out, mgl64.Vec2{p[i], p[i+1]})
		}
		return out
	}
	return lift.Drawing{View: "plan", Title: "Plan, from above, as drawn", Wide: 180, High: 124, Scale: 50, Marks: []lift.Mark{
		{Kind: "line", Of: "part", At: ring(30, 22, 150, 22, 150, 102, 30, 102, 30, 22), Part: "plate"},
		{Kind: "line", Of: "hole", At: ring(50, 40, 60, 40, 60, 50, 50, 50, 50, 40), Part: "plate"},
		{Kind: "area", Of: "region", At: ring(80, 55, 105, 50, 110, 70, 85, 75)},
		{Kind: "line", Of: "leg", At: ring(35, 27, 90, 62), Part: "left"},
		{Kind: "line", Of: "leg", At: ring(145, 97, 90, 62), Part: "right"},
		{Kind: "circle", Of: "hook", At: ring(90, 62), Radius: 1.6},
		{Kind: "line", Of: "plumb", At: ring(90, 62, 90, 110)},
		{Kind: "circle", Of: "pick", At: ring(35, 27), Radius: 1.1, Part: "left"},
		{Kind: "area", Of: "cg", At: ring(90, 62, 92, 62, 91.4, 63.4, 90, 64)},
		{Kind: "line", Of: "size", At: ring(30, 15, 90, 15), Arrows: true},
		{Kind: "text", Of: "size", At: ring(92, 14), Text: "3.000 m", Size: 2.6, Align: "left"},
		{Kind: "line", Of: "label", At: ring(60, 45, 70, 90)},
		{Kind: "text", Of: "leg", At: ring(70, 90), Text: "left 12.34 kN (2 775 lbf), 60.0° from horizontal (30.0° from vertical)", Size: 2.6, Align: "left", Part: "left"},
		{Kind: "text", Of: "leg", At: ring(100, 80), Text: "right slack", Size: 2.6, Align: "right", Part: "right"},
		{Kind: "line", Of: "scale", At: ring(154, 6, 154, 5, 174, 5, 174, 6)},
		{Kind: "text", Of: "scale", At: ring(152, 5), Text: "Scale 1 : 50, the bar is 1.000 m", Size: 2.6, Align: "right"},
	}}
}

// TestReducedKeepsToScale: whatever the room, the scale that a reduced drawing
// states is its own, and its bar is as long as what it stands for at that scale.
func TestReducedKeepsToScale(t *testing.T) {
	d := newLeaf(lift.LiftSheet{}, A4, Options{}, 0)
	for _, room := range []mgl64.Vec2{{180, 150}, {87, 60}, {60, 90}, {30, 20}} {
		b := d.reduced(plate(), room[0], room[1], 0)
		assert.LessOrEqual(t, b.size[0], room[0])
		assert.LessOrEqual(t, b.size[1], room[1])
		assert.InDelta(t, 50/b.scale, b.factor, 1e-12)
		assert.Equal(t, "1.000 m", b.barText)
		assert.InDelta(t, 1000, b.bar*b.factor*b.scale, 1e-9, "1 m, mm")
		step := b.scale / math.Pow(10, math.Floor(math.Log10(b.scale)))
		assert.Contains(t, usualScales, math.Round(step*1e6)/1e6)
	}
	assert.Equal(t, 100.0, d.reduced(plate(), 180, 150, 100).scale, "no larger than asked")
	one := d.reduced(plate(), 87, 60, 0)
	for _, m := range one.Marks {
		assert.NotEqual(t, "scale", m.Of)
		assert.NotContains(t, m.Text, "kN", "forces stand in the table")
	}
}

// TestDrawingsArePlaced draws every kind of mark, at its scale and on page 1.
func TestDrawingsArePlaced(t *testing.T) {
	s := lift.LiftSheet{Header: lift.Header{Load: "plate", Verdict: lift.Verdict{Acceptable: true}}, Drawings: []lift.Drawing{plate()}}
	var with, without bytes.Buffer
	require.NoError(t, PDF(&with, s, A4, Options{}))
	s.Drawings = nil
	require.NoError(t, PDF(&without, s, A4, Options{}))
	assert.Greater(t, with.Len(), without.Len()+1000)
}

// TestNextScale goes through the usual scales.
func TestNextScale(t *testing.T) {
	scale := 1.0
	var got []float64
	for range 12 {
		scale = nextScale(scale)
		got = append(got, scale)
	}
	assert.InDeltaSlice(t, []float64{1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 7.5, 10, 12.5, 15}, got, 1e-9)
}

// TestDecimals: a figure of a sum has a minus of its own width, and no −0.
func TestDecimals(t *testing.T) {
	assert.Equal(t, "−1"+glue+"234.57", decimals(-1234.567, 2))
	assert.Equal(t, "0.000", decimals(-0.0001, 3))
}
