package units

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Factors: NIST SP 811 (2008), appendix B.8: knot 5.144444 E-01 m/s, mile per hour
// 4.4704 E-01, kilometre per hour 2.777778 E-01, pound-force per square foot
// 4.788026 E+01 Pa, square foot 9.290304 E-02 m² (from memory).
func TestWindSuctionAndAreasAsWritten(t *testing.T) {
	for text, want := range map[string]float64{"10 m/s": 10, "36 km/h": 10, "10 mph": 4.4704, "9 knots": 4.63, "10 ft/s": 3.048} {
		v, err := ParseSpeed(text)
		require.NoError(t, err)
		assert.InEpsilon(t, want, float64(v), 1e-6, text)
	}
	for text, want := range map[string]float64{"62.5 N/m2": 62.5, "2 kN/m²": 2000, "1 psf": 47.88026, "3 kPa": 3000} {
		q, err := ParsePressure(text)
		require.NoError(t, err)
		assert.InEpsilon(t, want, float64(q), 1e-6, text)
	}
	for text, want := range map[string]float64{"6 m2": 6, "100 ft2": 9.290304, "1000000 mm²": 1} {
		a, err := ParseArea(text)
		require.NoError(t, err)
		assert.InEpsilon(t, want, float64(a), 1e-9, text)
	}
	for text, want := range map[string]float64{"355 MPa": 355e6, "235 N/mm²": 235e6, "36 ksi": 248.2113e6, "36000 psi": 248.2113e6} { // ksi 6.894757 E+06
		q, err := ParseStrength(text)
		require.NoError(t, err)
		assert.InEpsilon(t, want, float64(q), 1e-6, text)
	}
	for _, text := range []string{"10", "10 kN", "ten m/s", "10 m"} {
		_, err := ParseSpeed(text)
		assert.Error(t, err, text)
		_, err = ParsePressure(text)
		assert.Error(t, err, text)
		_, err = ParseStrength(text)
		assert.Error(t, err, text)
		_, err = ParseArea(text)
		assert.Error(t, err, text)
	}
	assert.Equal(t, "10.00 m/s (22.37 mph)", Speed(10).Format(Both))
	assert.Equal(t, "62.50 N/m² (1.305 lbf/ft²)", Pressure(62.5).Format(Both))
	assert.Equal(t, "355.0 MPa (51.49 ksi)", Strength(355e6).Format(Both))
	assert.Equal(t, "6.000 m² (64.58 ft²)", Area(6).Format(Both))
}
