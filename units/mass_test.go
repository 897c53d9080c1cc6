package units_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/units"
)

func TestParseQuantitiesRefuse(t *testing.T) {
	mass, force := parsed(units.ParseMass), parsed(units.ParseForce)
	density, warmth := parsed(units.ParseDensity), parsed(units.ParseTemperature)
	tests := []struct {
		parse func(string) (float64, error)
		text  string
		msg   string
		fix   string
	}{
		{mass, "", "empty value where a mass is expected", "write the mass"},
		{mass, "260", "no unit on the mass", "kg, g, t, lb, short ton or long ton"},
		{mass, "5 ton", "ton is ambiguous", "write t (1000 kg), short ton (2000 lb) or long ton (2240 lb)"},
		{mass, "5 Tons", "Tons is ambiguous", "short ton"},
		{mass, "5 T", "T is ambiguous", "short ton"},
		{mass, "5 kN", "kN is a unit of force, not of mass", "101.97 kg"},
		{mass, "5 kip", "kip is a unit of force, not of mass", "101.97 kg"},
		{mass, "5 mm", "mm is a unit of length, not of mass", "kg, g, t"},
		{mass, "5 tonn", "unknown unit tonn", "did you mean tonne?"},
		{mass, "-5 kg", "a mass below zero", "without a minus"},
		{mass, "1,5 t", "decimal comma", "write 1.5 t"},
		{mass, "1 500 kg", "thousands separator", "without a space"},
		{mass, "nan kg", "not a finite number", "in digits"},
		{mass, "1/2 t", "not a number", "decimal point"},
		{mass, "kg", "no number before the unit", "kg, g, t"},
		{mass, "1e308 t", "too large", "below 1e300"},
		{force, "12", "no unit on the force", "kN"},
		{force, "12 kg", "kg is a unit of mass, not of force", "9.80665 N"},
		{force, "12 ton", "ton is ambiguous", "short ton"},
		{density, "7850", "no unit on the density", "kg/m3"},
		{density, "25 kN/m3", "kN/m3 is a unit of weight per volume, not of density", "1 kN/m3 is 101.97 kg/m3"},
		{density, "0 kg/m3", "a density not above zero", "7850 kg/m3"},
		{density, "-1 kg/m3", "a density not above zero", "7850 kg/m3"},
		{density, "7850 kg/m", "unknown unit kg/m", "kg/m3"},
		{warmth, "20", "no unit on the temperature", "20 C or 68 F"},
		{warmth, "20 K", "unknown unit K", "20 C or 68 F"},
		{warmth, "-300 C", "below absolute zero", "-273.15 C"},
	}
	for _, tt := range tests {
		_, err := tt.parse(tt.text)
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, tt.text)
		assert.Contains(t, parse.Msg, tt.msg, tt.text)
		assert.Contains(t, parse.Fix, tt.fix, tt.text)
	}
}

func TestFormatMassAndForce(t *testing.T) {
	tests := []struct{ got, want string }{
		{units.Mass(1234).Format(units.Both), "1 234 kg (2 721 lb)"},
		{units.Mass(1234).Format(units.Metric), "1 234 kg"},
		{units.Mass(1234).Format(units.US), "2 721 lb"},
		{units.Mass(1234).FormatUp(units.Both), "1 234 kg (2 721 lb)"},
		{units.Mass(1234).FormatDown(units.Both), "1 234 kg (2 720 lb)"},
		{units.Mass(12346).Format(units.Metric), "12 350 kg"},
		{units.Mass(12341).FormatUp(units.Metric), "12 350 kg"},
		{units.Mass(12349).FormatDown(units.Metric), "12 340 kg"},
		{units.Mass(999.96).Format(units.Metric), "1 000 kg"},
		{units.Mass(999.94).FormatUp(units.Metric), "1 000 kg"},
		{units.Mass(999.96).FormatDown(units.Metric), "999.9 kg"},
		{units.Mass(260).Format(units.Metric), "260.0 kg"},
		{units.Mass(0.01234).Format(units.Metric), "0.0123 kg"},
		{units.Mass(0.01234).FormatUp(units.Metric), "0.0124 kg"},
		{units.Mass(1e-9).FormatUp(units.Metric), "0.0001 kg"},
		{units.Mass(1e-9).FormatDown(units.Metric), "0 kg"},
		{units.Mass(math.Copysign(0, -1)).Format(units.Metric), "0 kg"},
		{units.Mass(-1e-9).Format(units.Metric), "0 kg"},
		{units.Mass(1e14).Format(units.Metric), "100 000 000 000 000 kg"},
		{units.Mass(1.2341e20).FormatUp(units.Metric), "1.235e20 kg"},
		{units.Mass(math.NaN()).Format(units.Metric), "no figure kg"},
		{units.Force(12100).Format(units.Both), "12.10 kN (2 720 lbf)"},
		{units.Force(-12100).Format(units.Metric), "-12.10 kN"},
		{units.Force(-12101).FormatUp(units.Metric), "-12.10 kN"},
		{units.Force(-12101).FormatDown(units.Metric), "-12.11 kN"},
		// A figure on a tag must not change by going through kilograms.
		{(4000 * units.Pound).FormatDown(units.US), "4 000 lb"},
		{(4000 * units.Pound).FormatUp(units.US), "4 000 lb"},
		{units.Mass(0.1 + 0.2).FormatUp(units.Metric), "0.3000 kg"},
		{units.Density(7850).Format(units.Both), "7850 kg/m³ (490.1 lb/ft³)"},
		{units.Density(11340).Format(units.Both), "11 340 kg/m³ (707.9 lb/ft³)"},
		{units.Density(1025).Format(units.US), "63.99 lb/ft³"},
		{units.Temperature(20).Format(units.Both), "20 °C (68 °F)"},
		{units.Temperature(-0.2).Format(units.Metric), "0 °C"},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, tt.got)
	}
}

// FormatUp never prints less than the value and FormatDown never more, in kg
// and lb, kN and lbf; each is within one unit of the fourth figure (1e-3), or
// of the fourth decimal. 1e-12 is the share of a value that counts as rounding
// of float64.
func TestRoundingIsSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0, 9.9999).Draw(t, "figures") * math.Pow(10, float64(rapid.IntRange(-5, 18).Draw(t, "power")))
		if rapid.Bool().Draw(t, "round figure") {
			x = float64(units.Mass(math.Round(x)) * units.Pound)
		}
		for _, c := range []struct {
			value    float64
			up, down string
		}{
			{x, units.Mass(x).FormatUp(units.Metric), units.Mass(x).FormatDown(units.Metric)},
			{x / 0.45359237, units.Mass(x).FormatUp(units.US), units.Mass(x).FormatDown(units.US)},
			{x / 1000, units.Force(x).FormatUp(units.Metric), units.Force(x).FormatDown(units.Metric)},
			{x / 4.4482216152605, units.Force(x).FormatUp(units.US), units.Force(x).FormatDown(units.US)},
			{-x, units.Mass(-x).FormatUp(units.Metric), units.Mass(-x).FormatDown(units.Metric)},
		} {
			up, down := printed(t, c.up), printed(t, c.down)
			slack := 1e-12 * math.Abs(c.value)
			if up < c.value-slack || down > c.value+slack {
				t.Fatalf("%.17g was rounded up to %q and down to %q", c.value, c.up, c.down)
			}
			if up-down > 1.01e-3*math.Abs(c.value)+1.01e-4 {
				t.Fatalf("%.17g: %q and %q are too far apart", c.value, c.up, c.down)
			}
		}
	})
}

// printed reads the figure of a printed quantity.
func printed(t *rapid.T, text string) float64 {
	figure := text[:strings.LastIndex(text, " ")]
	value, err := strconv.ParseFloat(strings.ReplaceAll(figure, " ", ""), 64)
	if err != nil || strings.HasPrefix(figure, "-0 ") || figure == "-0" {
		t.Fatalf("%q is not a figure: %v", text, err)
	}
	return value
}
