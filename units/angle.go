package units

import "math"

// Turn is a rotation in radians, right-handed.
type Turn float64

// FromHorizontal is the angle of a leg up from the horizontal, in radians.
type FromHorizontal float64

// FromVertical is the angle of a leg from the vertical, in radians.
type FromVertical float64

// FromVertical returns the same leg's angle from the vertical.
func (a FromHorizontal) FromVertical() FromVertical { return FromVertical(math.Pi/2 - float64(a)) }

// FromHorizontal returns the same leg's angle from the horizontal.
func (a FromVertical) FromHorizontal() FromHorizontal { return FromHorizontal(math.Pi/2 - float64(a)) }

// Format prints the angle and says which it is: 60.0° from horizontal.
func (a FromHorizontal) Format() string { return tenths(Degrees(a)) + "° from horizontal" }

// Format prints the angle and says which it is: 30.0° from vertical.
func (a FromVertical) Format() string { return tenths(Degrees(a)) + "° from vertical" }

// Format prints the rotation in degrees: 12.5°.
func (a Turn) Format() string { return tenths(Degrees(a)) + "°" }

// Degrees returns an angle of radians in degrees. A round number of degrees
// that went through [Radians] comes back within 1e-13 of itself.
func Degrees[T ~float64](rad T) float64 { return float64(rad) * (180 / math.Pi) }

// Radians returns an angle of degrees in radians.
func Radians(deg float64) float64 { return deg * (math.Pi / 180) }

var degrees = quantity{
	name:  "angle",
	units: []unit{{name: "deg", also: []string{"°", "degree", "degrees", "deg."}, num: "1"}},
	fix:   "write degrees with a decimal point: 30, 30 deg or 30°",
}

// ParseDegrees reads an angle in degrees, with or without its unit: 30, 30 deg,
// 30°. Minutes of arc and other units are refused with a *[ParseError].
func ParseDegrees(text string) (float64, error) {
	clean, err := tidy(text, "angle")
	if err != nil {
		return 0, err
	}
	if _, written := splitUnit(clean); written == "" {
		return ParseNumber(clean)
	}
	return degrees.parse(clean)
}
