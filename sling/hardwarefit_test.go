package sling

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/units"
)

// Common practice, no source: 3 mm or 6 % of play.
func TestPinsInHoles(t *testing.T) {
	for _, c := range []struct {
		pin, hole float64 // mm
		want      Seat
	}{{28, 28, Snug}, {28, 27.9, TooLarge}, {28, 31, Snug}, {28, 31.1, Slack}, {70, 74.2, Snug}, {70, 74.3, Slack}, {0, 30, SeatUnknown}, {28, 0, SeatUnknown}} {
		assert.Equal(t, c.want, SeatOf(millis(c.pin), millis(c.hole)), "%g in %g", c.pin, c.hole)
	}
}

// EN 13889 (from memory): 2 t has a pin of 16 mm, 3.25 t 19, 4.75 t 22, 6.5 t 25,
// 25 t 50. 1.9 t is held by 2 t; in a hole of 24 the pin of 22 sits well, 16 does not.
func TestShackleForAHole(t *testing.T) {
	for _, c := range []struct {
		hole float64 // mm
		want string
		seat Seat
	}{{0, "2.0 t", SeatUnknown}, {18, "2.0 t", Snug}, {24, "4.75 t", Snug}, {12, "2.0 t", TooLarge}, {80, "25 t", Slack}} {
		fits, _, err := ShacklesIn(Pull{Rules: EN, Tension: kilograms(1900)}, millis(c.hole))
		require.NoError(t, err)
		require.Len(t, fits, 1)
		assert.Equal(t, c.want, fits[0].Size, "hole of %g", c.hole)
		assert.Equal(t, c.seat, SeatOf(fits[0].Pin, millis(c.hole)), "hole of %g", c.hole)
	}
}

// What is chosen always holds, passes when fed back, and goes through the hole
// where any that holds does.
func TestAShackleForAHoleHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Pull{Rules: rapid.SampledFrom([]Rules{US, EN}).Draw(t, "rules"), Kind: Shackle, Tension: units.Force(rapid.Float64Range(1, 4e5).Draw(t, "tension")),
			Off: units.Turn(rapid.Float64Range(0, 1.5).Draw(t, "off"))}
		hole := millis(rapid.Float64Range(5, 120).Draw(t, "hole"))
		smallest, _, err := Fittings(p)
		require.NoError(t, err)
		fits, _, err := ShacklesIn(p, hole)
		require.NoError(t, err)
		require.Len(t, fits, len(smallest))
		for i, f := range fits {
			require.LessOrEqual(t, f.Utilisation, 1+1e-9)
			require.GreaterOrEqual(t, f.Rated, smallest[i].Rated)
			if smallest[i].Pin <= hole {
				require.NotEqual(t, TooLarge, SeatOf(f.Pin, hole))
			}
		}
	})
}

// ASME B30.9 (from memory): a pin in a soft eye of wire rope of no less than the
// rope; EN 13414-1:2003 (as reprinted): twice the rope.
func TestEyesOnPins(t *testing.T) {
	seen := 0
	for _, f := range tables(t).under(EN) {
		sizes := tables(t).sizes(f)
		if f.family != "wire_rope" || len(sizes) == 0 {
			continue
		}
		seen++
		size := sizes[len(sizes)/2]
		least, source, ok := EyePin(EN, f.family, f.material, size.size)
		require.True(t, ok, f.material)
		assert.InDelta(t, 2*float64(size.diameter), float64(least), 1e-12, f.material)
		assert.Contains(t, source.Source, "EN 13414-1")
	}
	assert.Positive(t, seen)
	_, _, ok := EyePin(EN, "wire_rope", "no such", "10")
	assert.False(t, ok)
	assert.Equal(t, EN, Pull{Rules: US, Kind: Eyebolt}.KnownElsewhere("m20"))
	assert.Empty(t, Pull{Rules: US, Kind: Eyebolt}.KnownElsewhere("M21"))
}

// The mark takes the place of the table's rating; off the axis M24 of DIN 580:2003 (as
// reprinted) holds 1290 of 1800 kg, so one marked 2 t holds 1433.3 kg.
func TestHardwareByItsMark(t *testing.T) {
	off := units.Turn(units.Radians(40))
	f, why, err := Pull{Rules: EN, Kind: Eyebolt, Tension: kilograms(1433), Off: off}.HoldsMarked("m24", 2000)
	require.NoError(t, err)
	assert.Empty(t, why)
	assert.InDelta(t, 1, f.Utilisation, 1e-3)
	assert.Equal(t, units.Mass(2000), f.Rated)
	assert.Equal(t, "the mark on it, as stated", f.Source)
	_, why, err = Pull{Rules: EN, Kind: Eyebolt, Tension: kilograms(1), Off: off}.HoldsMarked("M25", 2000)
	require.NoError(t, err)
	assert.Equal(t, "what an eyebolt of this size holds 40.0° out of line is not known here", why)
	f, why, err = Pull{Rules: EN, Kind: Turnbuckle, Tension: kilograms(1000)}.HoldsMarked("1 in", 2000)
	require.NoError(t, err)
	assert.Empty(t, why)
	assert.InDelta(t, 0.5, f.Utilisation, 1e-9)
}
