package units

import "strings"

// Show is the system of units for output. The zero value shows both.
type Show int

// The systems of units that output may be in.
const (
	Both   Show = iota // metric first, US in brackets
	Metric             // m, mm, kg, kN
	US                 // feet and inches, lb, lbf
)

// ParseShow reads both, metric or us. Anything else is a *[ParseError].
func ParseShow(s string) (Show, error) {
	words := []string{"both", "metric", "us"}
	for i, word := range words {
		if strings.EqualFold(strings.TrimSpace(s), word) {
			return Show(i), nil
		}
	}
	return Both, wrong(s, "no such system of units", didYouMean(s, words, "write both, metric or us"))
}

// String returns the word that [ParseShow] reads.
func (s Show) String() string {
	switch s {
	case Metric:
		return "metric"
	case US:
		return "us"
	}
	return "both"
}

// join returns the text of the system shown, or both.
func (s Show) join(metric, us string) string {
	switch s {
	case Metric:
		return metric
	case US:
		return us
	}
	return metric + " (" + us + ")"
}
