// Package units holds the quantities of the lifting trade as Go types: it reads
// them as a planner writes them, converts them, and prints them.
//
// Inside the program everything is SI: metres, kilograms, newtons, kilograms
// per cubic metre, radians; temperatures are in degrees Celsius. A leg angle is
// never a bare number: [FromHorizontal] and [FromVertical] are different types,
// and so is [Turn], a rotation.
//
// # Reading
//
// Each quantity has a strict parser. What could be read in two ways is refused
// with a [ParseError] that says what is wrong and how to mend it: a decimal
// comma, a thousands separator, a zero before another digit, a missing or
// unknown unit, the word "ton" alone. Written decimals are converted by exact
// rational arithmetic and rounded to float64 once.
//
// # Printing
//
// [Show] chooses metric, US or both. Masses and forces are printed with four
// significant figures; a need is printed with FormatUp and a capacity with
// FormatDown, so that rounding never makes a lift look better than it is.
// Lengths are printed to the millimetre and to the sixteenth of an inch.
package units
