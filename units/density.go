package units

// Density is mass per volume in kg/m³.
type Density float64

// PoundPerCubicFoot is 1 lb/ft³ in kg/m³, about 16.018463: the exact pound
// over the exact foot cubed.
//
// Source: NIST SP 811 (2008), appendix B.8, pound per cubic foot.
const PoundPerCubicFoot Density = pound / (0.3048 * 0.3048 * 0.3048)

var densities = quantity{
	name: "density",
	units: []unit{
		{name: "kg/m3", num: "1"},
		{name: "lb/ft3", also: []string{"pcf", "lb/cu ft", "lbs/ft3"}, num: "0.45359237", den: "0.028316846592"},
		{name: "lb/in3", also: []string{"lb/cu in", "lbs/in3"}, num: "0.45359237", den: "0.000016387064"},
		{name: "g/cm3", also: []string{"g/cc"}, num: "1000"},
		{name: "kg/dm3", also: []string{"kg/l"}, num: "1000"},
		{name: "t/m3", num: "1000"},
	},
	fix:     "write kg/m3, lb/ft3, lb/in3, g/cm3, kg/dm3 or t/m3 after it",
	instead: map[string]string{"weight per volume": "; 1 kN/m3 is 101.97 kg/m3, 1 lbf/ft3 is 1 lb/ft3"},
}

// weightDensities are known only to be refused by name.
var weightDensities = quantity{
	name: "weight per volume",
	units: []unit{
		{name: "kN/m3", num: "1000"},
		{name: "N/m3", num: "1"},
		{name: "lbf/ft3", num: "0.45359237", den: "0.028316846592"},
	},
}

// ParseDensity reads a density with its unit: 7850 kg/m3, 490 lb/ft3,
// 7.85 g/cm³. A bare number, a weight per volume (kN/m3) and a density not
// above zero are refused with a *[ParseError].
func ParseDensity(text string) (Density, error) {
	n, err := densities.parse(text)
	if err == nil && n <= 0 {
		err = wrong(text, "a density not above zero", "write the density of the material, for example 7850 kg/m3")
	}
	if err != nil {
		return 0, err
	}
	return Density(n), nil
}

// Format prints the density to four significant figures:
// 7850 kg/m³ (490.1 lb/ft³). Four digits before the point are not grouped.
func (d Density) Format(s Show) string {
	return s.join(figures(float64(d), nearest, 5)+" kg/m³", figures(float64(d/PoundPerCubicFoot), nearest, 5)+" lb/ft³")
}
