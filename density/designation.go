package density

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"plumbhook/units"
)

// tidySection brings the spellings of a designation to one: lower case, x for
// the multiplication sign, sch for schedule.
func tidySection(name string) string {
	return strings.NewReplacer("×", "x", "*", "x", "∅", "ø", "⌀", "ø", "”", `"`, "″", `"`, "''", `"`,
		"schedule", "sch", "sched", "sch").Replace(strings.ToLower(name))
}

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

// near returns up to three designations that may be meant: those of the same
// series that are nearest in size, else those a slip or two away.
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
			if letters(k) == series {
				away = min(away, apart(size, numbers(k)))
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
	if len(names) > 0 {
		return names
	}
	for _, k := range units.Nearest(key, t.allKeys) {
		if s := t.sections[t.byKey[k]].Name; !slices.Contains(names, s) {
			names = append(names, s)
		}
	}
	return names
}
