package sling

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// interval is the range over which a factor holds, as the tables write it:
// "[0, 45]" with both ends, "(45, 60]" without 45, "(2, inf)".
type interval struct {
	low, high         float64
	openLow, openHigh bool
}

// everywhere is what an empty cell means.
var everywhere = interval{low: math.Inf(-1), high: math.Inf(1)}

func parseInterval(text string) (interval, error) {
	if text == "" {
		return everywhere, nil
	}
	wrong := fmt.Errorf("range %q: want two rising numbers like [0, 45] or (45, 60]", text)
	low, high, ok := strings.Cut(text, ", ")
	if !ok || len(low) < 2 || len(high) < 2 {
		return interval{}, wrong
	}
	first, last := low[0], high[len(high)-1]
	low, high = low[1:], high[:len(high)-1]
	a, errA := strconv.ParseFloat(low, 64)
	b, errB := strconv.ParseFloat(high, 64)
	if errA != nil || errB != nil || !(a <= b) || !strings.ContainsRune("[(", rune(first)) || !strings.ContainsRune(")]", rune(last)) {
		return interval{}, wrong
	}
	return interval{low: a, high: b, openLow: first == '(', openHigh: last == ')'}, nil
}

// holds reports whether x lies within. It rounds x to a millionth first, so that
// 45° which has been through radians, or 400 °F through °C, is still 45 and 400.
func (v interval) holds(x float64) bool {
	if !math.IsInf(x, 0) {
		x = math.Round(x*1e6) / 1e6
	}
	return (x > v.low || (x == v.low && !v.openLow)) && (x < v.high || (x == v.high && !v.openHigh))
}

// String prints the range as text: "0 to 45".
func (v interval) String() string { return fmt.Sprintf("%g to %g", v.low, v.high) }
