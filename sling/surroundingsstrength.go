package sling

import (
	"slices"
	"strings"
)

// The strengths of a chemical that a word may tell.
const (
	weak   = "weak"
	strong = "strong"
)

// strengths are the words before or after the name of a chemical that tell how
// strong it is.
var strengths = map[string][]string{
	weak:   {"weak", "dilute", "diluted", "cold"},
	strong: {"strong", "concentrated", "hot", "warm", "boiling", "fuming", "undiluted"},
}

// strengthOf parts the words for a chemical, such as "hot, concentrated acid",
// into its name and its strength: "" where none is told. Where both are told,
// the stronger counts.
func strengthOf(words string) (name, strength string) {
	var rest []string
	for _, w := range strings.Fields(strings.ReplaceAll(tidy(words), ",", " ")) {
		switch {
		case slices.Contains(strengths[strong], w):
			strength = strong
		case slices.Contains(strengths[weak], w):
			if strength == "" {
				strength = weak
			}
		case w != "and":
			rest = append(rest, w)
		}
	}
	return strings.Join(rest, " "), strength
}

// strength judges how strong a chemical is. That it is weak betters nothing;
// what is hot, by its name or by the stated temperature, is strong.
func (l *lift) strength(f familyRow, chemical, strength, words string, o *opinion) {
	if t := l.need.Surroundings.Temperature; t != nil {
		if _, hot := l.book.at(f, "hot chemical", "", *t); hot {
			strength = strong
		}
	}
	if strength != "" {
		l.meet(f, strength+" "+chemical, words, o)
	}
}
