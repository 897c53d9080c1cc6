package units_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"plumbhook/units"
)

// parsed returns a reader of one quantity that gives SI.
func parsed[T ~float64](parse func(string) (T, error)) func(string) (float64, error) {
	return func(text string) (float64, error) {
		v, err := parse(text)
		return float64(v), err
	}
}

// Each want is the factor as printed. The list rounds a factor that is not
// exact to seven figures, so half of the seventh is the tolerance; an exact
// factor has none beyond one rounding of float64.
func TestConversionsAsPrinted(t *testing.T) {
	const sp811 = "NIST SP 811 (2008), appendix B.8 (from memory)"
	const exact, sevenFigures = 2.3e-16, 5e-7
	length := func(text string) (float64, error) {
		l, err := units.ParseLength(text, units.LengthUnit{})
		return float64(l), err
	}
	mass, force := parsed(units.ParseMass), parsed(units.ParseForce)
	density, warmth := parsed(units.ParseDensity), parsed(units.ParseTemperature)
	tests := []struct {
		text   string
		parse  func(string) (float64, error)
		want   float64 // m, kg, N, kg/m³, °C
		tol    float64 // relative
		source string
	}{
		{"1 in", length, 2.54e-2, exact, sp811},
		{"1 ft", length, 3.048e-1, exact, sp811},
		{"1 lb", mass, 0.45359237, exact, "international yard and pound agreement, 1959 (from memory)"},
		{"1 lb", mass, 4.535924e-1, sevenFigures, sp811},
		{"1 short ton", mass, 9.071847e2, sevenFigures, sp811},
		{"1 long ton", mass, 1.016047e3, sevenFigures, sp811},
		{"1 t", mass, 1e3, exact, "BIPM SI Brochure, 9th edition, table 8 (from memory)"},
		{"1 metric ton", mass, 1e3, exact, sp811},
		{"1 g", mass, 1e-3, exact, "BIPM SI Brochure, 9th edition (from memory)"},
		{"1 lbf", force, 4.448222, sevenFigures, sp811},
		{"1 kip", force, 4.448222e3, sevenFigures, sp811},
		{"1 kgf", force, 9.80665, exact, sp811},
		{"1 tf", force, 9.80665e3, exact, sp811},
		{"1 daN", force, 1e1, exact, "BIPM SI Brochure, 9th edition, table 7 (from memory)"},
		{"1 lb/ft3", density, 1.601846e1, sevenFigures, sp811},
		{"1 lb/in3", density, 2.767990e4, sevenFigures, sp811},
		{"1 g/cm3", density, 1e3, exact, sp811},
		{"1 kg/dm³", density, 1e3, exact, sp811},
		{"1 t/m^3", density, 1e3, exact, sp811},
		{"212 F", warmth, 100, exact, "boiling point of water, definition of the scale"},
		{"32 F", warmth, 0, exact, "freezing point of water, definition of the scale"},
		{"-40 F", warmth, -40, exact, "where the scales meet, (t - 32)/1.8"},
		{"-459.67 F", warmth, -273.15, exact, "absolute zero, BIPM SI Brochure, 9th edition, 2.3.1 (from memory)"},
	}
	for _, tt := range tests {
		got, err := tt.parse(tt.text)
		if assert.NoError(t, err, tt.text) {
			assert.LessOrEqual(t, math.Abs(got-tt.want), tt.tol*math.Abs(tt.want),
				"%q = %.9g, want %.9g (%s)", tt.text, got, tt.want, tt.source)
		}
	}
}

// The constants and the table of the parsers must be the same figures.
func TestConstantsMatchParsers(t *testing.T) {
	for text, want := range map[string]units.Mass{"1 lb": units.Pound, "1 short ton": units.ShortTon,
		"1 long ton": units.LongTon, "1 t": units.Tonne} {
		got, err := units.ParseMass(text)
		assert.NoError(t, err)
		assert.Equal(t, want, got, text)
	}
	for text, want := range map[string]units.Force{"1 lbf": units.PoundForce, "1 kip": units.Kip, "1 kgf": units.Gravity} {
		got, err := units.ParseForce(text)
		assert.NoError(t, err)
		assert.Equal(t, want, got, text)
	}
	for text, want := range map[string]units.Length{"1 in": units.Inch, "1 ft": units.Foot} {
		got, err := units.ParseLength(text, units.LengthUnit{})
		assert.NoError(t, err)
		assert.Equal(t, want, got, text)
	}
	got, err := units.ParseDensity("1 lb/ft3")
	assert.NoError(t, err)
	assert.Equal(t, units.PoundPerCubicFoot, got)
}

func TestWeight(t *testing.T) {
	// g = 9.80665 m/s²: 3rd CGPM (1901) (from memory).
	assert.Equal(t, units.Force(9.80665), units.Mass(1).Weight())
	assert.InDelta(t, 1000, float64(units.Force(9806.65).Mass()), 1e-12*1000)
	// A pound weighs a pound-force.
	assert.InDelta(t, 4.4482216152605, float64(units.Pound.Weight()), 1e-15*5)
}
