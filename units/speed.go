package units

// Speed is a speed in metres a second: of the wind.
type Speed float64

// A mile an hour is 1609.344 m an hour, a knot 1852, both exact.
//
// Source: NIST SP 811 (2008), appendix B.8.
const milesAnHour Speed = 1609.344 / 3600

var speeds = quantity{
	name: "speed",
	units: []unit{
		{name: "m/s", num: "1"},
		{name: "km/h", also: []string{"kph", "kmh"}, num: "1000", den: "3600"},
		{name: "mph", also: []string{"mi/h"}, num: "1609.344", den: "3600"},
		{name: "knots", also: []string{"knot", "kts"}, num: "1852", den: "3600"},
		{name: "ft/s", num: "0.3048"},
	},
	fix: "write m/s, km/h, mph, knots or ft/s after it",
}

// ParseSpeed reads a speed with its unit: 10 m/s, 36 km/h, 20 mph, 15 knots. A
// bare number is refused with a *[ParseError].
func ParseSpeed(text string) (Speed, error) {
	v, err := speeds.parse(text)
	return Speed(v), err
}

// Format prints the speed to four significant figures: 10.00 m/s (22.37 mph).
func (v Speed) Format(s Show) string {
	return s.join(figures(float64(v), nearest, 4)+" m/s", figures(float64(v/milesAnHour), nearest, 4)+" mph")
}
