package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/testdata/published/inprint"
)

// tailed is a column 20 m between picks with its CG 8 m from the tail, W 100, the tail
// pick some metres above or below the axis through head pick and CG.
func tailed(tailUp float64) TwoHooks {
	return TwoHooks{Weight: 100, CG: geom.Vec{8, 0, 0}, Head: geom.Vec{20, 0, 0}, Tail: geom.Vec{0, 0, tailUp}}
}

// Levers by hand: with the tail pick v above the axis, head = (8·cos + v·sin)
// / (20·cos + v·sin).
func TestUpendingAColumn(t *testing.T) {
	tests := []struct {
		tailUp, angle float64 // m, degrees
		head          float64 // of 100, to 0.005
	}{
		{0, 0, 40}, {0, 30, 40}, {0, 45, 40}, {0, 60, 40}, {0, 75, 40}, {0, 85, 40}, {0, 89, 40},
		{0, 90, 100}, // plumb: all on the upper hook
		{1.5, 0, 40}, {1.5, 30, 42.49}, {1.5, 45, 44.19}, {1.5, 60, 46.90}, {1.5, 75, 53.12}, {1.5, 85, 67.69}, {1.5, 89, 88.67},
		{-1.5, 0, 40}, {-1.5, 30, 37.28}, {-1.5, 45, 35.14}, {-1.5, 60, 31.04}, {-1.5, 75, 16.68},
		{-1.5, 85, 0}, // the lever is negative: it has already gone over
	}
	for _, tt := range tests {
		s, err := tailed(tt.tailUp).At(rad(tt.angle))
		require.NoError(t, err)
		assert.InDelta(t, tt.head, s.Head, 0.006, "tail pick %g m up, %g°: statics by hand", tt.tailUp, tt.angle)
		assert.InDelta(t, 100-tt.head, s.Tail, 0.006, "tail pick %g m up, %g°: statics by hand", tt.tailUp, tt.angle)
		assert.Equal(t, tt.head == 0, s.HeadSlack)
		assert.Equal(t, tt.head == 100, s.TailSlack)
	}
}

// tan(angle) = 8/1.5: the CG stands over the tail lug and goes over it.
func TestColumnFallsThroughOverItsTailLug(t *testing.T) {
	column := tailed(-1.5)
	events, err := column.Limits(0, rad(85))
	require.NoError(t, err)
	var kinds []Turning
	for _, e := range events {
		kinds = append(kinds, e.Kind)
	}
	require.Equal(t, []Turning{MostHead, HeadSlack, MostTail}, kinds)
	assert.Zero(t, events[0].Angle)
	slack := events[1]
	assert.InDelta(t, math.Atan2(8, 1.5), slack.Angle, 1e-14, "79.4°: statics by hand")
	assert.Equal(t, "head hook slack", slack.Kind.String())
	assert.True(t, slack.Through, "the CG is over the lug, not below it")
	assert.False(t, slack.TakesUp)
	assert.Equal(t, 100.0, slack.Tail)
	assert.Equal(t, slack.Angle, events[2].Angle, "all of it on the tail from there on")

	assert.InDelta(t, 1.5*12/math.Hypot(20, 1.5), -events[0].RollMargin, 1e-12, "the CG is above the line of picks: it rolls unless held")

	back, err := column.Limits(rad(85), 0)
	require.NoError(t, err)
	require.Equal(t, HeadSlack, back[1].Kind)
	assert.True(t, back[1].TakesUp, "laid down again the head hook takes up")
}

// With the tail lug on the top side the CG comes below the head pick, and the
// load hangs there quietly once the tail line is slack.
func TestColumnEndsOnItsHeadHook(t *testing.T) {
	events, err := tailed(1.5).Limits(0, math.Pi)
	require.NoError(t, err)
	var slack Event
	for _, e := range events {
		if e.Kind == TailSlack {
			slack = e
		}
	}
	assert.InDelta(t, math.Pi/2, slack.Angle, 1e-14, "head pick and CG on the axis: plumb at 90°")
	assert.False(t, slack.Through)
	assert.False(t, slack.TakesUp)
}

// "Guidelines for marine lifting and lowering operations", 0027/ND Rev 11,
// appendix B.1.2, two hooks with 3° of tilt and an envelope of 0.9 × 0.8 m for
// the CG. Its formula was read; its printed result was not, so the wanted
// figures are that formula worked by hand:
// F1/W = ((b + z)·sin + (d + x)·cos) / (L·cos + (b − a)·sin), F2 alike.
func TestPublishedTiltOfTwoHooks(t *testing.T) {
	load := func(x, z float64) TwoHooks {
		return TwoHooks{Weight: 1, CG: geom.Vec{x, 0, -z}, Head: geom.Vec{12, 0, 10}, Tail: geom.Vec{-13, 0, 14}}
	}
	tests := []struct {
		name       string
		x, z, tilt float64
	}{
		{"level", 0, 0, 0}, {"level, CG nearest hook 1", 0.9, 0, 0}, {"level, CG nearest hook 2", -0.9, 0, 0},
		{"tilted, hook 1 worst", 0.9, 0.8, 3}, {"tilted, hook 2 worst", -0.9, 0.8, -3},
	}
	page := inprint.Of(t, "rig")
	for _, tt := range tests {
		s, err := load(tt.x, tt.z).At(rad(tt.tilt))
		require.NoError(t, err)
		page.Is(tt.name, "share of hook 1", s.Head)
		page.Is(tt.name, "share of hook 2", s.Tail)
	}
}

// The same source turns level picks by asin(height error / length): 1.0 m in
// 25 m is 2.29°, and 3° governs below 19.1 m.
func TestPublishedHeightErrorOfTwoHooks(t *testing.T) {
	page := inprint.Of(t, "rig")
	beam := TwoHooks{Weight: 1, CG: geom.Vec{12, 0, -1}, Head: geom.Vec{25}, Tail: geom.Vec{}}
	out, err := beam.Out(0, 1, 0)
	require.NoError(t, err)
	page.Is("1.0 m in 25 m", "turn", out.Head.Angle*180/math.Pi)

	beam.Head[0] = 19.1
	out, err = beam.Out(0, 1, 0)
	require.NoError(t, err)
	page.Is("1.0 m at the least length for which 3° do not govern", "turn", out.Head.Angle*180/math.Pi)

	beam.Head[0] = 1 / math.Sin(rad(3))
	out, err = beam.Out(0, 1, 0)
	require.NoError(t, err)
	// Turned head up by 3°, the CG 1 m below moves 1·tan 3° towards the head.
	assert.InDelta(t, (12+math.Tan(rad(3)))/beam.Head[0], out.Head.Pull, 1e-12)
	assert.InDelta(t, -rad(3), out.Tail.Angle, 1e-12)
}

// A beam 10 m between picks that are 2 m above its CG in the middle, lines up
// to 3° out of plumb. Hand statics: the lines meet the CG's level 2·tan 3°
// nearer or farther, so head = 100·(5 + 2·tan 3°)/10/cos 3°.
func TestLinesOutOfPlumb(t *testing.T) {
	beam := TwoHooks{Weight: 100, CG: geom.Vec{0, 0, -2}, Head: geom.Vec{5}, Tail: geom.Vec{-5}}
	out, err := beam.Out(0, 0, rad(3))
	require.NoError(t, err)
	want := 100 * (5 + 2*math.Tan(rad(3))) / 10 / math.Cos(rad(3)) // 51.12
	assert.InDelta(t, 51.12, want, 0.005)
	assert.InDelta(t, want, out.Head.Pull, 1e-12)
	assert.InDelta(t, want, out.Tail.Pull, 1e-12)
	assert.InDelta(t, want/50, out.Head.Factor, 1e-12)
	assert.InDelta(t, rad(3), out.Head.HeadLean, 1e-15, "its own line outward")
	assert.InDelta(t, -rad(3), out.Head.TailLean, 1e-15, "the other inward: both lean one way")
	assert.False(t, out.Slack)
}

// A CG 0.2 m inside the tail pick's plumb line and 3 m below it: 5° of lean
// is 3·tan 5° = 0.26 m, more than that.
func TestOutOfPlumbTillAHookIsSlack(t *testing.T) {
	load := TwoHooks{Weight: 100, CG: geom.Vec{0.2, 0, -3}, Head: geom.Vec{6}, Tail: geom.Vec{}}
	out, err := load.Out(0, 0, rad(5))
	require.NoError(t, err)
	assert.True(t, out.Slack)
	assert.InDelta(t, 100/math.Cos(rad(5)), out.Tail.Pull, 1e-12)

	_, err = load.Out(rad(-10), 0, 0) // 0.2·cos 10° < 3·sin 10°
	var input *InputError
	assert.ErrorAs(t, err, &input, "slack with nothing out")
}

// Two hooks take a 12 m beam from 3 m and 2 m inside its ends: 7 m between
// hooks, the CG 4 m and 3 m from them. Turned by θ with picks 0.5 m above the
// CG, the levers are 3·cos θ + 0.5·sin θ and 4·cos θ − 0.5·sin θ, by hand.
func TestTandemBeam(t *testing.T) {
	beam := TwoHooks{Weight: 70_000, CG: geom.Vec{0, 0, 0}, Head: geom.Vec{4, 1, 0.5}, Tail: geom.Vec{-3, 1, 0.5}}
	tests := []struct{ angle, head, tail, tailLever float64 }{
		{0, 30_000, 40_000, 3},
		{10, 30_881.6, 39_118.4, 3.041247},
		{-10, 29_118.4, 40_881.6, 2.867599},
		{45, 35_000, 35_000, 2.474874},
	}
	for _, tt := range tests {
		s, err := beam.At(rad(tt.angle))
		require.NoError(t, err)
		assert.InDelta(t, tt.head, s.Head, 0.05, "%g°", tt.angle)
		assert.InDelta(t, tt.tail, s.Tail, 0.05, "%g°", tt.angle)
		assert.InDelta(t, tt.tailLever, s.TailLever, 1e-6, "%g°", tt.angle)
		assert.InDelta(t, 7*math.Sin(rad(tt.angle)), s.Rise, 1e-12)
		assert.InDelta(t, 0.5, s.RollMargin, 1e-12, "square to the line of picks, at any angle")
	}

	events, err := beam.Limits(rad(-60), rad(60))
	require.NoError(t, err)
	var kinds []Turning
	for _, e := range events {
		kinds = append(kinds, e.Kind)
	}
	require.Equal(t, []Turning{MostTail, EqualShare, MostHead}, kinds)
	assert.InDelta(t, math.Pi/4, events[1].Angle, 1e-14, "3·cos + 0.5·sin = 4·cos − 0.5·sin")

	// The picks are 1 m beside the CG: it rolls by atan(1/0.5) to hang √1.25 m below.
	rolled, by, err := beam.Rolled()
	require.NoError(t, err)
	assert.InDelta(t, math.Atan2(1, 0.5), by, 1e-12)
	s, err := rolled.At(0)
	require.NoError(t, err)
	assert.InDelta(t, math.Sqrt(1.25), s.RollMargin, 1e-12)
	assert.InDelta(t, 30_000, s.Head, 1e-8, "level picks: rolling moves no lever")
}

// A box 6 × 2 m is turned right over: upended by the head lug in the middle of
// one end and a tail lug on top; then, plumb on the head hook alone, the tail
// hook changes to the lug underneath, which is on top when it is laid down.
func TestTurningOver(t *testing.T) {
	first := TwoHooks{Weight: 100, Head: geom.Vec{3}, Tail: geom.Vec{-3, 0, 1}}
	second := first
	second.Tail[2] = -1

	up, err := first.Limits(0, math.Pi/2)
	require.NoError(t, err)
	at := up[len(up)-1]
	require.InDelta(t, math.Pi/2, at.Angle, 1e-12)
	assert.True(t, at.TailSlack)
	assert.False(t, at.Through, "it hangs quietly on the head hook")

	down, err := second.Limits(math.Pi/2, math.Pi)
	require.NoError(t, err)
	assert.Equal(t, TailSlack, down[0].Kind)
	assert.True(t, down[0].TakesUp)
	assert.Equal(t, 100.0, down[0].Head)
	for _, angle := range []float64{0, 20, 45, 70, 89} {
		a, err := first.At(rad(angle))
		require.NoError(t, err)
		b, err := second.At(rad(180 - angle))
		require.NoError(t, err)
		assert.InDelta(t, a.Head, b.Head, 1e-9, "laying down mirrors upending: %g°", angle)
		assert.InDelta(t, a.RollMargin, b.RollMargin, 1e-12)
		// Levers by hand, from the tail lug and between the lugs.
		sin, cos := math.Sincos(rad(angle))
		assert.InDelta(t, 100*(3*cos+sin)/(6*cos+sin), a.Head, 1e-9)
	}
	// Over the tail lug that is underneath, the same turn is not quiet.
	wrong, err := second.Limits(0, math.Pi/2)
	require.NoError(t, err)
	for _, e := range wrong {
		if e.Kind == HeadSlack {
			assert.InDelta(t, math.Atan2(3, 1), e.Angle, 1e-14)
			assert.True(t, e.Through)
			return
		}
	}
	t.Error("the head hook never goes slack")
}

func TestTwoHooksAxis(t *testing.T) {
	stood := TwoHooks{Weight: 100, CG: geom.Vec{0, 0, 2}, Head: geom.Vec{0, 0, 5}, Tail: geom.Vec{}}
	assert.ErrorContains(t, stood.Check(), "nothing tells which way")
	stood.About = geom.Vec{0, 3, 0} // lays the head over to +x
	s, err := stood.At(rad(30))
	require.NoError(t, err)
	assert.InDelta(t, 40, s.Head, 1e-9)
	assert.InDelta(t, 5*math.Cos(rad(30)), s.Rise, 1e-12)
	assert.InDelta(t, -math.Sin(rad(30)), s.Up[0], 1e-12, "what leans to +x has its up towards −x")

	laid := tailed(1.5)
	plain, err := laid.At(0.3)
	require.NoError(t, err)
	laid.About = geom.Vec{0, 1, 0} // right-handed about y lowers +x
	turned, err := laid.At(-0.3)
	require.NoError(t, err)
	assert.InDelta(t, plain.Head, turned.Head, 1e-9)
}

// Picks and CG in one line share alike at every angle but plumb, by levers.
func TestTwoHooksWhatHoldsAtEveryAngleIsToldOnce(t *testing.T) {
	tests := []struct {
		name string
		cg   float64 // m from the tail pick, of 20
		want []Turning
	}{
		{"8 m", 8, []Turning{MostTail, PicksPlumb, MostHead}},
		{"the middle", 10, []Turning{EqualShare, MostTail, PicksPlumb, MostHead}},
		{"at the tail pick", 0, []Turning{HeadSlack, MostTail, PicksPlumb, MostHead}},
		{"at the head pick", 20, []Turning{TailSlack, MostHead, MostTail, PicksPlumb}},
	}
	for _, tt := range tests {
		load := tailed(0)
		load.CG[0] = tt.cg
		events, err := load.Limits(0, math.Pi)
		require.NoError(t, err)
		var kinds []Turning
		for _, e := range events {
			kinds = append(kinds, e.Kind)
			assert.Contains(t, []float64{0, math.Pi / 2}, e.Angle, tt.name)
		}
		assert.Equal(t, tt.want, kinds, tt.name)
	}
}

// Drawn plumb over each other, the picks leave the CG where it is: 3 m to the
// side and 4 m along the axis, it swings round by atan(4/3) and is 5 m off.
func TestRolledWithPicksPlumb(t *testing.T) {
	for _, x := range []float64{3, -3} {
		stood := TwoHooks{Weight: 100, CG: geom.Vec{x, 4, 2}, Head: geom.Vec{0, 0, 5}, Tail: geom.Vec{}, About: geom.Vec{0, 1, 0}}
		rolled, by, err := stood.Rolled()
		require.NoError(t, err)
		assert.InDelta(t, math.Atan2(4, 3), by, 1e-12)
		assert.InDelta(t, 0, rolled.CG.Sub(geom.Vec{math.Copysign(5, x), 0, 2}).Len(), 1e-12)
	}
}

func TestTwoHooksRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	tests := []struct {
		name   string
		change func(*TwoHooks)
		want   string
	}{
		{"no weight", func(t *TwoHooks) { t.Weight = 0 }, "weight 0 N"},
		{"CG not a number", func(t *TwoHooks) { t.CG[1] = nan }, "not a number"},
		{"pick not a place", func(t *TwoHooks) { t.Head[0] = inf }, "a pick is not a place"},
		{"picks too far to square", func(t *TwoHooks) { t.Head[0] = 1e200 }, "a pick is not a place"},
		{"one place", func(t *TwoHooks) { t.Head = t.Tail }, "both hooks hold one place"},
		{"axis not level", func(t *TwoHooks) { t.About = geom.Vec{0, 1, 1} }, "45° out of level"},
		{"axis along the load", func(t *TwoHooks) { t.About = geom.Vec{1, 0, 0} }, "90° from square"},
		{"axis not a number", func(t *TwoHooks) { t.About = geom.Vec{nan, 0, 0} }, "not a direction"},
	}
	for _, tt := range tests {
		load := tailed(1.5)
		tt.change(&load)
		var input *InputError
		require.ErrorAs(t, load.Check(), &input, tt.name)
		assert.ErrorContains(t, load.Check(), tt.want, tt.name)
		_, err := load.Limits(0, 1)
		assert.ErrorAs(t, err, &input, tt.name)
	}
	load := tailed(1.5)
	_, err := load.At(nan)
	assert.ErrorContains(t, err, "within one whole turn")
	_, err = load.Limits(0, 7)
	assert.ErrorContains(t, err, "within one whole turn")
	_, err = load.Curve(0, 1, 0)
	assert.ErrorContains(t, err, "0 steps")
	_, err = load.Out(0, -1, 0)
	assert.ErrorContains(t, err, "out by -1 m")
	_, err = load.Out(0, 0, 1)
	assert.ErrorContains(t, err, "out of plumb by 1 rad")
}
