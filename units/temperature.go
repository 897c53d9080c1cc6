package units

import "math/big"

// Temperature is a temperature in degrees Celsius.
type Temperature float64

// AbsoluteZero is the lowest temperature there is.
//
// Source: BIPM SI Brochure, 9th edition, section 2.3.1 (t/°C = T/K - 273.15).
const AbsoluteZero Temperature = -273.15

// The values count degrees of the scale; ParseTemperature shifts their zero.
var temperatures = quantity{
	name: "temperature",
	units: []unit{
		{name: "C", also: []string{"°c", "° c", "degc", "deg c", "celsius", "degrees celsius"}, num: "1"},
		{name: "F", also: []string{"°f", "° f", "degf", "deg f", "fahrenheit", "degrees fahrenheit"}, num: "1"},
	},
	fix: "write C or F after it, for example 20 C or 68 F",
}

// ParseTemperature reads a temperature with its unit: 20 C, 20 °C, 68 F. A bare
// number and a temperature below absolute zero are refused with a *[ParseError].
//
// Source of the conversion, t/°C = (t/°F - 32)/1.8: NIST SP 811 (2008),
// appendix B.8.
func ParseTemperature(text string) (Temperature, error) {
	n, clean, err := temperatures.exact(text)
	if err != nil {
		return 0, err
	}
	_, written := splitUnit(clean)
	if u, _ := temperatures.find(written); u.name == "F" {
		n.Sub(n, big.NewRat(32, 1)).Mul(n, big.NewRat(5, 9))
	}
	if n.Cmp(big.NewRat(-27315, 100)) < 0 {
		return 0, wrong(clean, "a temperature below absolute zero", "write a temperature above -273.15 C (-459.67 F)")
	}
	c, err := toFloat(clean, n)
	return Temperature(c), err
}

// Format prints the temperature to the nearest degree: 20 °C (68 °F).
func (t Temperature) Format(s Show) string {
	return s.join(decimals(float64(t), 0)+" °C", decimals(float64(t)*1.8+32, 0)+" °F")
}
