package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// rounding says which way a figure is rounded.
type rounding int

const (
	nearest rounding = iota
	up               // towards +∞: what is needed
	down             // towards -∞: what can be borne
)

const (
	// noise is how far, as a part of itself, a value may lie from a printed
	// figure and still be that figure. It is a thousand times the rounding of
	// float64 and far below any scale: 4000 lb converted to kilograms and back
	// must not be printed as 3 999 lb.
	noise = 1e-12
	// finest is the power of ten of the last decimal that is printed.
	finest = -4
	// widest is the greatest power of ten that is written out in digits.
	widest = 15
)

// Format prints the length to the millimetre, and to the sixteenth of an inch:
// 1.200 m (3' 11-1/4"). Under a metre it is in mm with four significant
// figures, three decimals at most: 20 mm (13/16"). Digits are not grouped, so
// that what is printed can be written back.
func (l Length) Format(s Show) string { return s.join(l.metric(), FeetInches(l)) }

func (l Length) metric() string {
	mm := math.Abs(float64(l) * 1000)
	switch {
	case !(mm < 1e12): // NaN too
		return figures(float64(l), nearest, widest+1) + " m"
	case mm >= 999.95: // four figures of it are 1000 or more
		return decimals(float64(l), 3) + " m"
	}
	places := 3
	for limit := 10.0; limit <= 100 && mm >= limit-0.0005; limit *= 10 {
		places--
	}
	text := decimals(float64(l)*1000, places)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text + " mm"
}

// decimals prints x with so many decimals, and never a negative zero.
func decimals(x float64, places int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "no figure"
	}
	text := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

// tenths prints x with one decimal.
func tenths(x float64) string { return decimals(x, 1) }

// figures prints x to four significant figures, four decimals at most, with a
// space between thousands from groupFrom digits before the point.
func figures(x float64, r rounding, groupFrom int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "no figure"
	}
	n, power := fourFigures(math.Abs(x))
	at := float(n, power)
	upwards := r == up && x > 0 || r == down && x < 0 // away from zero
	switch {
	case r == nearest || x == 0:
	case upwards && at < math.Abs(x)*(1-noise):
		n++
	case !upwards && at > math.Abs(x)*(1+noise):
		n, power = less(n, power)
	}
	if n == 10000 {
		n, power = 1000, power+1
	}
	if n == 0 {
		return "0"
	}
	text := digits(n, power, groupFrom)
	if x < 0 {
		text = "-" + text
	}
	return text
}

// fourFigures returns the n and power of ten nearest to x >= 0: four figures, or
// fewer where they would lie behind the finest decimal.
func fourFigures(x float64) (n int64, power int) {
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(x, 'e', 3, 64), "e")
	power, _ = strconv.Atoi(exponent)
	power -= 3
	text := mantissa
	if power < finest {
		power = finest
		text = strconv.FormatFloat(x, 'f', -finest, 64)
	}
	n, _ = strconv.ParseInt(strings.Replace(text, ".", "", 1), 10, 64)
	return n, power
}

// float returns n·10^power, rounded once.
func float(n int64, power int) float64 {
	f, _ := strconv.ParseFloat(fmt.Sprintf("%de%d", n, power), 64)
	return f
}

// less returns the next lower figure.
func less(n int64, power int) (int64, int) {
	if n == 1000 && power > finest {
		return 9999, power - 1
	}
	return n - 1, power
}

// digits writes n·10^power in decimal, or as a power of ten where it is wide.
func digits(n int64, power, groupFrom int) string {
	text := strconv.FormatInt(n, 10)
	switch {
	case power+3 > widest:
		return fmt.Sprintf("%s.%se%d", text[:1], text[1:], power+3)
	case power >= 0:
		return grouped(text+strings.Repeat("0", power), groupFrom)
	}
	if missing := 1 - power - len(text); missing > 0 {
		text = strings.Repeat("0", missing) + text
	}
	point := len(text) + power
	return grouped(text[:point], groupFrom) + "." + text[point:]
}

// grouped puts a space between thousands where there are groupFrom digits or
// more.
func grouped(whole string, groupFrom int) string {
	if len(whole) < max(4, groupFrom) {
		return whole
	}
	return grouped(whole[:len(whole)-3], 4) + " " + whole[len(whole)-3:]
}
