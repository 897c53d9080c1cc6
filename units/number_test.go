package units_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/units"
)

func TestParseNumber(t *testing.T) {
	for text, want := range map[string]float64{
		"12": 12, "-12.5": -12.5, "+3": 3, "0": 0, "0.5": 0.5, ".5": 0.5, "1e3": 1000, "1.5E-3": 0.0015,
		"1e05": 1e5, " 7 ": 7, "-0": 0, "100": 100, "10.05": 10.05, "1e300": 1e300,
	} {
		got, err := units.ParseNumber(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
		assert.False(t, math.Signbit(got) && got == 0, "negative zero from %q", text)
	}
	for text, msg := range map[string]string{
		"": "empty", "1,5": "decimal comma", "1,500": "comma", "012": "zero before", "nan": "finite", "-.inf": "finite",
		"0x1F": "hexadecimal", "1_0": "underscore", "1e400": "too large", "1e-400": "too small", "5.": "after the decimal point",
		"1.2.3": "more than one point", "abc": "not a number", "5 mm": "not a number", "1e": "not a number",
		"1e+": "not a number", "٣": "not a number", "true": "not a number",
	} {
		_, err := units.ParseNumber(text)
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, text)
		assert.Contains(t, parse.Msg, msg, text)
		assert.NotEmpty(t, parse.Fix, text)
	}
}

func TestParseDegrees(t *testing.T) {
	for text, want := range map[string]float64{"30": 30, "30 deg": 30, "30°": 30, "-7.5 degrees": -7.5, "0": 0} {
		got, err := units.ParseDegrees(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "30 rad", "30° 15'", "1,5", "deg", "30 %"} {
		_, err := units.ParseDegrees(text)
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, text)
		assert.NotEmpty(t, parse.Fix, text)
	}
}

func TestAngles(t *testing.T) {
	// NIST SP 811 (2008), appendix B.8: 1 degree is 1.745329 E-02 rad (from
	// memory); half of the last figure is the tolerance.
	assert.InDelta(t, 1.745329e-2, units.Radians(1), 5e-9)
	assert.InDelta(t, 180, units.Degrees(units.Turn(math.Pi)), 1e-13)

	leg := units.FromHorizontal(units.Radians(60))
	assert.Equal(t, "60.0° from horizontal", leg.Format())
	assert.Equal(t, "30.0° from vertical", leg.FromVertical().Format())
	assert.Equal(t, "-12.5°", units.Turn(units.Radians(-12.5)).Format())
	assert.Equal(t, "0.0°", units.Turn(-1e-9).Format())
	rapid.Check(t, func(t *rapid.T) {
		a := units.FromHorizontal(rapid.Float64Range(0, math.Pi/2).Draw(t, "rad"))
		if back := a.FromVertical().FromHorizontal(); math.Abs(float64(back-a)) > 1e-15 {
			t.Fatalf("%v became %v", a, back)
		}
	})
}

func TestParsePercentAndTolerance(t *testing.T) {
	got, err := units.ParsePercent("5 %")
	require.NoError(t, err)
	assert.Equal(t, 0.05, got)
	got, err = units.ParsePercent("-1.5%")
	require.NoError(t, err)
	assert.Equal(t, -0.015, got)
	for _, text := range []string{"", "5", "0.05", "%", "5 kg", "1,5 %"} {
		_, err := units.ParsePercent(text)
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, text)
		assert.NotEmpty(t, parse.Fix, text)
	}

	for text, want := range map[string][2]float64{
		"5 %": {-0.05, 0.05}, "±5 %": {-0.05, 0.05}, "+/- 5 %": {-0.05, 0.05}, "0 %": {0, 0},
		"-1 % / +3 %": {-0.01, 0.03}, "-1%/+3%": {-0.01, 0.03}, "+3 % / -1 %": {-0.01, 0.03}, "0 % / +5 %": {0, 0.05},
	} {
		low, high, err := units.ParseTolerance(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, [2]float64{low, high}, text)
		assert.False(t, math.Signbit(low) && low == 0, "negative zero from %q", text)
	}
	for text, msg := range map[string]string{
		"": "empty", "5": "no unit", "1 % / 3 %": "no sign", "-5 %": "one side only", "+5 %": "one side only",
		"+1 % / +3 %": "leaves out the nominal", "-3 % / -1 %": "leaves out the nominal", "-100 % / 0 %": "leaves nothing",
		"100 %": "leaves nothing", "-1 % / ": "empty", "-1 / +3 %": "no unit", "5 kg": "unit of mass",
	} {
		_, _, err := units.ParseTolerance(text)
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, text)
		assert.Contains(t, parse.Msg, msg, text)
		assert.NotEmpty(t, parse.Fix, text)
	}
}

func TestParseShow(t *testing.T) {
	for text, want := range map[string]units.Show{"both": units.Both, "Metric": units.Metric, " US ": units.US} {
		got, err := units.ParseShow(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
		again, err := units.ParseShow(got.String())
		require.NoError(t, err)
		assert.Equal(t, got, again)
	}
	_, err := units.ParseShow("metrc")
	var parse *units.ParseError
	require.ErrorAs(t, err, &parse)
	assert.Equal(t, "did you mean metric? write both, metric or us", parse.Fix)
}

func TestNearest(t *testing.T) {
	known := []string{"structural steel", "stainless steel", "granite", "marble", "mm"}
	assert.Equal(t, []string{"structural steel"}, units.Nearest("Structrual steel", known))
	assert.Equal(t, []string{"granite"}, units.Nearest("granit", known))
	assert.Empty(t, units.Nearest("plutonium", known))
	assert.Empty(t, units.Nearest("km", known), "a short unit is near every other")
	assert.Empty(t, units.Nearest("", known))
	assert.Equal(t, 1, units.EditDistance("recieve", "receive"), "a swap of neighbours is one slip")
	assert.Equal(t, 3, units.EditDistance("kitten", "sitting"), "the usual textbook example")
	assert.Equal(t, 5, units.EditDistance("", "metre"))
}
