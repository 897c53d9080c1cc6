package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// Four legs on a square, each 60° from the horizontal. By hand: opposite legs
// are 180° − 2·60° apart; legs side by side are a quarter turn apart in plan, so
// the cosine between them is sin² 60° = 0.75.
func TestIncludedAnglesOfFourLegs(t *testing.T) {
	picks := []geom.Vec{{1, 0, 0}, {0, 1, 0}, {-1, 0, 0}, {0, -1, 0}}
	got, err := IncludedAngles(geom.Vec{0, 0, math.Sqrt(3)}, picks)
	require.NoError(t, err)
	beside := math.Acos(0.75)
	want := []IncludedAngle{
		{[2]int{0, 1}, beside}, {[2]int{0, 2}, 60 * degree}, {[2]int{0, 3}, beside},
		{[2]int{1, 2}, beside}, {[2]int{1, 3}, 60 * degree}, {[2]int{2, 3}, beside},
	}
	require.Len(t, got, len(want))
	for i, w := range want {
		assert.Equal(t, w.Legs, got[i].Legs)
		assert.InDelta(t, w.Angle, got[i].Angle, 1e-14)
	}
	one, err := IncludedAngles(Up, picks[:1])
	assert.NoError(t, err)
	assert.Empty(t, one)
	var input *InputError
	_, err = IncludedAngles(picks[0], picks)
	require.ErrorAs(t, err, &input)
}

// By hand: a pull of (3, 4, 12), 13 long, at lugs in the planes of the axes.
func TestLugAnglesByHand(t *testing.T) {
	pull := geom.Vec{3, 4, 12}
	for _, tt := range []struct {
		name              string
		pull, plate, axis geom.Vec
		in, out           float64
	}{
		{"plate square to y", pull, geom.Vec{0, 1, 0}, Up, math.Atan(3.0 / 12), math.Asin(4.0 / 13)},
		{"plate square to x, turned over", pull, geom.Vec{-2, 0, 0}, Up, math.Atan(4.0 / 12), math.Asin(3.0 / 13)},
		{"lug that lies", pull, Up, geom.Vec{1, 0, 0}, math.Atan(4.0 / 3), math.Asin(12.0 / 13)},
		{"plumb", Up, geom.Vec{0, 1, 0}, Up, 0, 0},
		{"level, in the plate", geom.Vec{-5, 0, 0}, geom.Vec{0, 1, 0}, Up, 90 * degree, 0},
		{"back past its foot", geom.Vec{0, 0, -1}, geom.Vec{0, 1, 0}, Up, 180 * degree, 0},
		{"square to the plate", geom.Vec{0, -3, 0}, geom.Vec{0, 1, 0}, Up, 0, 90 * degree},
		{"axis not quite in the plate", pull, geom.Vec{0, 1, 0}, geom.Vec{0, 0.3, 1}, math.Atan(3.0 / 12), math.Asin(4.0 / 13)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in, out, err := LugAngles(tt.pull, tt.plate, tt.axis)
			require.NoError(t, err)
			assert.InDelta(t, tt.in, in, 1e-14)
			assert.InDelta(t, tt.out, out, 1e-14)
		})
	}
	for _, bad := range [][3]geom.Vec{{{}, {0, 1, 0}, Up}, {Up, {}, Up}, {Up, {0, 1, 0}, {}}, {Up, {0, math.NaN(), 0}, Up}, {Up, Up, Up}} {
		_, _, err := LugAngles(bad[0], bad[1], bad[2])
		var input *InputError
		require.ErrorAs(t, err, &input, "%v", bad)
	}
}

// The two angles make up the pull again: cos out·cos in along the axis, cos
// out·sin in across it in the plate, sin out square to it; and no frame matters.
func TestLugAnglesMakeUpThePull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := geom.TurnAbout(rapid.IntRange(0, 2).Draw(t, "axis"), rapid.Float64Range(-3, 3).Draw(t, "turn"))
		pull := drawPoint(t, "pull", 5)
		if pull.Len() < 1e-3 {
			t.Skip("no direction")
		}
		in, out, err := LugAngles(turn.Mul3x1(pull), turn.Mul3x1(geom.Vec{0, 1, 0}), turn.Mul3x1(Up))
		require.NoError(t, err)
		u := pull.Mul(1 / pull.Len())
		require.InDelta(t, math.Abs(u[1]), math.Sin(out), 1e-9)
		if math.Hypot(u[0], u[2]) > 1e-6 {
			require.InDelta(t, u[2], math.Cos(out)*math.Cos(in), 1e-9)
			require.InDelta(t, math.Abs(u[0]), math.Cos(out)*math.Sin(in), 1e-9)
		}
	})
}
