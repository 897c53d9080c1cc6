package units

import (
	"math/big"
	"strings"
	"unicode"
)

// unit is one unit of a quantity: how it may be written, and what one of it is
// in SI, as the exact fraction num/den of two decimals ("" for den means 1).
type unit struct {
	name     string   // as printed in messages
	also     []string // other ways to write it, lower case
	num, den string
}

// quantity is a kind of quantity with the units that it may be written in.
type quantity struct {
	name  string // "length"
	units []unit
	fix   string // which units may be written
	// instead has, for a unit of another kind, what one of it comes to.
	instead map[string]string
}

// value returns what one u is in SI, exactly.
func (u unit) value() *big.Rat {
	v, _ := new(big.Rat).SetString(u.num)
	if u.den != "" {
		d, _ := new(big.Rat).SetString(u.den)
		v.Quo(v, d)
	}
	return v
}

// find returns the unit written so, without regard to case but for T.
func (q quantity) find(written string) (unit, bool) {
	if written == "T" { // tonne to some, short ton to others
		return unit{}, false
	}
	low := strings.ToLower(plainUnit.Replace(written))
	for _, u := range q.units {
		if strings.ToLower(u.name) == low {
			return u, true
		}
		for _, also := range u.also {
			if also == low {
				return u, true
			}
		}
	}
	return unit{}, false
}

// plainUnit brings the ways of writing a power to one.
var plainUnit = strings.NewReplacer("³", "3", "^3", "3", "**3", "3", "²", "2", "^2", "2", " / ", "/", " per ", "/")

// exact reads "number unit" into SI without rounding. A missing or unknown unit
// is an error that says which may be written.
func (q quantity) exact(text string) (*big.Rat, string, error) {
	clean, err := tidy(text, q.name)
	if err != nil {
		return nil, "", err
	}
	number, written := splitUnit(clean)
	n, err := exactNumber(number)
	if err != nil {
		if number == "" {
			return nil, "", wrong(clean, "no number before the unit", q.fix)
		}
		return nil, "", quoting(clean, err)
	}
	if written == "" {
		return nil, "", wrong(clean, "no unit on the "+q.name, q.fix)
	}
	u, ok := q.find(written)
	if !ok {
		return nil, "", q.unknown(clean, written)
	}
	return n.Mul(n, u.value()), clean, nil
}

// parse reads "number unit" into SI.
func (q quantity) parse(text string) (float64, error) {
	n, clean, err := q.exact(text)
	if err != nil {
		return 0, err
	}
	return toFloat(clean, n)
}

// splitUnit cuts a tidy quantity where its unit begins: at the first character
// that no number contains. The e of a power of ten belongs to the number.
func splitUnit(text string) (number, written string) {
	runes := []rune(text)
	digit := func(i int) bool { return i >= 0 && i < len(runes) && runes[i] >= '0' && runes[i] <= '9' }
	sign := func(i int) bool { return i < len(runes) && (runes[i] == '+' || runes[i] == '-') }
	for i, r := range runes {
		power := (r == 'e' || r == 'E') && digit(i-1) && (digit(i+1) || sign(i+1) && digit(i+2))
		if !power && (unicode.IsLetter(r) || strings.ContainsRune(`'"°%`, r)) {
			return strings.TrimSpace(string(runes[:i])), strings.TrimSpace(string(runes[i:]))
		}
	}
	return text, ""
}

// quantities returns all kinds, so that a unit of the wrong kind can be named.
func quantities() []quantity {
	return []quantity{lengths, masses, forces, densities, weightDensities, degrees, temperatures, percents, speeds, pressures, areas}
}

// didYouMean puts the known word nearest to the written one in front of the fix.
func didYouMean(written string, known []string, fix string) string {
	if near := Nearest(written, known); len(near) > 0 {
		return "did you mean " + near[0] + "? " + fix
	}
	return fix
}

// unknown says what is wrong with a unit that q does not have: a ton that may
// be one of three, a unit of another kind, or a word close to one that exists.
func (q quantity) unknown(text, written string) *ParseError {
	low := strings.ToLower(written)
	if low == "ton" || low == "tons" || written == "T" {
		return wrong(text, written+" is ambiguous: 1000 kg, 2000 lb or 2240 lb",
			"write t (1000 kg), short ton (2000 lb) or long ton (2240 lb)")
	}
	for _, other := range quantities() {
		if u, ok := other.find(written); ok && other.name != q.name {
			return wrong(text, u.name+" is a unit of "+other.name+", not of "+q.name, q.fix+q.instead[other.name])
		}
	}
	var known []string
	for _, u := range q.units {
		known = append(append(known, u.name), u.also...)
	}
	return wrong(text, "unknown unit "+written+" on the "+q.name, didYouMean(written, known, q.fix))
}
