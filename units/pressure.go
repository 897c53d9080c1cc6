package units

// Pressure is a force on an area in N/m²: of wind, of suction.
type Pressure float64

// PoundPerSquareFoot is 1 lbf/ft², the exact pound-force over the exact foot
// squared.
//
// Source: NIST SP 811 (2008), appendix B.8.
const PoundPerSquareFoot Pressure = Pressure(PoundForce) / (0.3048 * 0.3048)

var pressures = quantity{
	name: "pressure",
	units: []unit{
		{name: "N/m2", also: []string{"pa"}, num: "1"},
		{name: "kN/m2", also: []string{"kpa"}, num: "1000"},
		{name: "lbf/ft2", also: []string{"psf", "lb/ft2"}, num: "4.4482216152605", den: "0.09290304"},
	},
	fix: "write N/m2, kN/m2 or psf after it",
}

// ParsePressure reads a force on an area with its unit: 100 N/m2, 1.5 kN/m2,
// 30 psf. A bare number is refused with a *[ParseError].
func ParsePressure(text string) (Pressure, error) {
	q, err := pressures.parse(text)
	return Pressure(q), err
}

// Format prints the pressure to four significant figures: 62.50 N/m² (1.305
// lbf/ft²).
func (q Pressure) Format(s Show) string {
	return s.join(figures(float64(q), nearest, 4)+" N/m²", figures(float64(q/PoundPerSquareFoot), nearest, 4)+" lbf/ft²")
}
