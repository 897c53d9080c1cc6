package units_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"plumbhook/testdata/published/inprint"
	"plumbhook/units"
)

// parsed returns a reader of one quantity that gives SI.
func parsed[T ~float64](parse func(string) (T, error)) func(string) (float64, error) {
	return func(text string) (float64, error) {
		v, err := parse(text)
		return float64(v), err
	}
}

// The list rounds a factor that is not exact to seven figures, so half of the seventh
// is the tolerance; an exact factor has none beyond one rounding of float64.
func TestPublishedConversions(t *testing.T) {
	parse := map[string]func(string) (float64, error){
		"length": func(text string) (float64, error) {
			l, err := units.ParseLength(text, units.LengthUnit{})
			return float64(l), err
		},
		"mass": parsed(units.ParseMass), "mass, rounded": parsed(units.ParseMass), "force": parsed(units.ParseForce),
		"density": parsed(units.ParseDensity), "temperature": parsed(units.ParseTemperature),
		"speed": parsed(units.ParseSpeed), "pressure": parsed(units.ParsePressure), "area": parsed(units.ParseArea), "strength": parsed(units.ParseStrength),
		"weight": func(text string) (float64, error) {
			m, err := units.ParseMass(text)
			return float64(m.Weight()), err
		},
	}
	page := inprint.Of(t, "units")
	for _, v := range page.Rows() {
		got, err := parse[v.Quantity](v.Item)
		if assert.NoError(t, err, v.Item) {
			page.Is(v.Item, v.Quantity, got)
		}
	}
	meet, err := units.ParseTemperature("-40 F") // where the scales meet, (t − 32)/1.8
	assert.NoError(t, err)
	assert.InDelta(t, -40, float64(meet), 1e-14)
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
	assert.InDelta(t, 1000, float64(units.Force(9806.65).Mass()), 1e-12*1000)
	// A pound weighs a pound-force.
	assert.InDelta(t, 4.4482216152605, float64(units.Pound.Weight()), 1e-15*5)
}
