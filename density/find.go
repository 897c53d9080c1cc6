package density

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"plumbhook/units"
)

// most is how many materials an ambiguous word may list.
const most = 8

// What a table is asked for; the zero value of UnknownError.Kind is a material.
const (
	aMaterial = "material"
	aSection  = "section"
	aProduct  = "product form"
)

// UnknownError is a material, section or product form that the tables do not
// have, or a word that fits several.
type UnknownError struct {
	Name    string   // as asked for
	Near    []string // names that may be meant, best first: up to three, or all that an ambiguous word fits (eight at most)
	Several bool     // Near are those that Name fits
	Kind    string   // section or product form; empty is a material
}

func (e *UnknownError) kind() string { return cmp.Or(e.Kind, aMaterial) }

// Error says what is wrong; Fix says how to mend it.
func (e *UnknownError) Error() string {
	switch {
	case strings.TrimSpace(e.Name) == "":
		return fmt.Sprintf("no %s is named", e.kind())
	case e.Several:
		return fmt.Sprintf("%q may be any of several %ss", e.Name, e.kind())
	}
	return fmt.Sprintf("unknown %s %q", e.kind(), e.Name)
}

// Fix returns what to write instead, in one line.
func (e *UnknownError) Fix() string {
	own := map[string]string{
		aMaterial: "give its density: {name: ..., density: 7850 kg/m3, tolerance: 1 %}",
		aSection:  "give its mass by length: bar: {per length: 42.3 kg/m, length: 6 m}",
		aProduct:  "give a tolerance of your own: tolerance: 5 %",
	}[e.kind()]
	switch {
	case len(e.Near) == 0 && e.Hint() != "":
		return e.Hint() + "; or " + own
	case len(e.Near) == 0:
		return "write a name from the table of " + e.kind() + "s, or " + own
	case e.Several:
		return "write which one: " + strings.Join(e.Near, ", ") + "; or " + own
	}
	return "did you mean " + strings.Join(e.Near, ", or ") + "? else " + own
}

// Hint says what is known of a name that has nothing near it in the tables;
// empty: nothing.
func (e *UnknownError) Hint() string {
	if e.Kind == aSection && metricUS(sectionKey(e.Name)) {
		return "metric names of US shapes are not in the tables: write the inch name, such as W12x26"
	}
	return ""
}

func (t *table) find(name string) (Material, error) {
	if i, ok := t.byKey[key(name)]; ok {
		m := t.materials[i]
		m.Synonyms = slices.Clone(m.Synonyms)
		return m, nil
	}
	asked := words(name)
	if all := t.sharing(asked, len(asked)); len(all) > 0 {
		return Material{}, &UnknownError{Name: name, Near: all[:min(most, len(all))], Several: len(all) > 1}
	}
	near := t.misspelt(name)
	for n := len(asked) - 1; n > 0 && len(near) == 0; n-- {
		near = t.sharing(asked, n)
	}
	return Material{}, &UnknownError{Name: name, Near: near[:min(3, len(near))]}
}

// sharing returns the materials that have a name or synonym with at least n of
// the words, in the order of the table.
func (t *table) sharing(asked []string, n int) []string {
	var names []string
	for _, term := range t.terms {
		shared := 0
		has := words(term.text)
		for _, word := range asked {
			if slices.Contains(has, word) {
				shared++
			}
		}
		if name := t.materials[term.material].Name; n > 0 && shared >= n && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// misspelt returns the names and synonyms that are a slip or two away, one for
// each material.
func (t *table) misspelt(name string) []string {
	var keys []string
	for _, term := range t.terms {
		keys = append(keys, key(term.text))
	}
	var near []string
	var seen []int
	for _, k := range units.Nearest(key(name), keys) {
		i := t.byKey[k]
		if slices.Contains(seen, i) {
			continue
		}
		seen = append(seen, i)
		for _, term := range t.terms {
			if key(term.text) == k {
				near = append(near, term.text)
			}
		}
	}
	return near
}

// spellings brings the spellings of one word to one.
var spellings = strings.NewReplacer("aluminum", "aluminium", "gray", "grey", "sulfuric", "sulphuric",
	"fiber", "fibre", "vulcanized", "vulcanised")

// general brings the general words for one thing to one, so that the bare word
// lists what is meant by either.
var general = map[string]string{"wood": "timber", "lumber": "timber"}

// key is a name without case, spaces, hyphens and other marks, in one spelling.
func key(name string) string { return strings.Join(words(name), "") }

// words returns the words of a name in lower case and in one spelling.
func words(name string) []string {
	all := strings.FieldsFunc(spellings.Replace(strings.ToLower(name)), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	for i, word := range all {
		if same, ok := general[word]; ok {
			all[i] = same
		}
	}
	return all
}
