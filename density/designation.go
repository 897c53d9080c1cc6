package density

import (
	"cmp"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// tidySection brings the spellings of a designation to one: lower case, x for
// the multiplication sign, sch for schedule, a word for the mark of a bar.
func tidySection(name string) string {
	tidy := strings.NewReplacer("×", "x", "*", "x", "∅", "ø", "⌀", "ø", "”", `"`, "″", `"`, "''", `"`,
		"schedule", "sch", "sched", "sch").Replace(strings.ToLower(name))
	if m := barMark.FindStringSubmatch(tidy); m != nil {
		return barMarks[m[1]] + m[2]
	}
	return tidy
}

// barMarks are the marks of bars and tubes on drawings, before their sizes.
// Common practice, no source.
var (
	barMarks = map[string]string{"fl": "flat", "fb": "flat", "pl": "flat", "rd": "round", "ro": "tube"}
	barMark  = regexp.MustCompile(`^\s*(fl|fb|pl|rd|ro)([\s-]*[0-9.].*)$`)
)

// sectionKey is a designation without case, spaces and hyphens, its numbers
// without idle zeros: W 12 X 26.0 is w12x26.
func sectionKey(name string) string {
	var key strings.Builder
	for _, r := range tidySection(name) {
		if !unicode.IsSpace(r) && !strings.ContainsRune("-–_", r) {
			key.WriteRune(r)
		}
	}
	return bareNumbers(key.String())
}

// bareNumbers takes the idle zeros from the decimals in a key and puts one
// before a leading point.
func bareNumbers(key string) string {
	var out strings.Builder
	for key != "" {
		n := strings.IndexFunc(key, isNumeral)
		if n < 0 {
			break
		}
		out.WriteString(key[:n])
		key = key[n:]
		end := strings.IndexFunc(key, func(r rune) bool { return !isNumeral(r) })
		if end < 0 {
			end = len(key)
		}
		number := key[:end]
		if strings.Count(number, ".") == 1 {
			number = strings.TrimSuffix(strings.TrimRight(number, "0"), ".")
			if strings.HasPrefix(number, ".") || number == "" {
				number = "0" + number
			}
		}
		out.WriteString(number)
		key = key[end:]
	}
	return out.String() + key
}

func isNumeral(r rune) bool { return r == '.' || '0' <= r && r <= '9' }

// letters returns the letters that a key begins with.
func letters(key string) string {
	end := strings.IndexFunc(key, func(r rune) bool { return !unicode.IsLetter(r) })
	if end < 0 {
		return key
	}
	return key[:end]
}

// numbers returns the numbers of a key in their order; a fraction counts as its
// two numbers.
func numbers(key string) []float64 {
	var all []float64
	for _, text := range strings.FieldsFunc(key, func(r rune) bool { return !isNumeral(r) }) {
		if n, err := strconv.ParseFloat(text, 64); err == nil && n > 0 && !math.IsInf(n, 0) {
			all = append(all, n)
		}
	}
	return all
}

// apart is how far the numbers of two keys are from each other, as the sum of
// the logarithms of their ratios; the two leading sizes may be swapped. Keys
// with other counts of numbers are infinitely far.
func apart(a, b []float64) float64 {
	if len(a) != len(b) || len(a) == 0 {
		return math.Inf(1)
	}
	sum := func(a []float64) (d float64) {
		for i := range a {
			d += math.Abs(math.Log(a[i] / b[i]))
		}
		return d
	}
	straight := sum(a)
	if len(a) < 3 {
		return straight
	}
	turned := slices.Clone(a)
	turned[0], turned[1] = a[1], a[0]
	return min(straight, sum(turned))
}

// likeSize is how far the depth of a suggestion may be from what was asked for,
// as a ratio: a hasty reader may take what is suggested.
const likeSize = 1.2

// alike tells whether the depths of two keys are near each other. Of three
// sizes and more the greater of the leading two is the depth.
func alike(a, b []float64) bool {
	if len(a) == 0 || len(b) == 0 {
		return false
	}
	depth := func(n []float64) float64 {
		if len(n) > 2 {
			return max(n[0], n[1])
		}
		return n[0]
	}
	ratio := depth(a) / depth(b)
	return ratio <= likeSize && 1/ratio <= likeSize
}

// near returns up to three designations that may be meant: those of the same
// series and of like depth, the nearest in size first. Of another series none:
// its sections are other ones, however alike their names.
func (t *sectionTable) near(key string) []string {
	series, size := letters(key), numbers(key)
	type candidate struct {
		name string
		away float64
	}
	var all []candidate
	for i, s := range t.sections {
		away := math.Inf(1)
		for _, k := range t.keys[i] {
			if its := numbers(k); letters(k) == series && alike(size, its) {
				away = min(away, apart(size, its))
			}
		}
		if !math.IsInf(away, 0) {
			all = append(all, candidate{s.Name, away})
		}
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(a.away, b.away) })
	var names []string
	for _, c := range all[:min(3, len(all))] {
		names = append(names, c.name)
	}
	return names
}

// leastMetric is the depth in mm that the smallest metric names of US shapes
// begin with (S75, C75); the inch names end at 44. Source: ASTM A6/A6M, from
// memory.
const leastMetric = 75

// metricUS tells whether a key may be the metric name of a US shape: W310x38.7.
func metricUS(key string) bool {
	n := numbers(key)
	return slices.Contains([]string{"w", "hp", "s", "c", "mc"}, letters(key)) && len(n) > 0 && n[0] >= leastMetric
}
