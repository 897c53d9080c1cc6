package takeoff

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"plumbhook/density"
	"plumbhook/units"
)

// unknownForm is the fault of a word that is no product form, or fits several: it
// lists those that a part of that kind can be made of.
func unknownForm(form, kind string) *fault {
	fits, all := formsOf(form, kind)
	f := &fault{fmt.Sprintf("%q is no product form that is known", short(form)), ""}
	near := units.Nearest(form, append(slices.Clone(ownForms), all...))
	switch {
	case len(fits) > 1:
		f.text = fmt.Sprintf("%q fits several product forms", short(form))
		f.fix = "write which one: " + anyOf(fits)
	case len(fits) == 1:
		f.fix = fmt.Sprintf("write `form: %s`, which is what there is of it for a %s", fits[0], kind)
	case len(near) > 0:
		f.fix = fmt.Sprintf("did you mean %q? For a %s there are %s", near[0], kind, anyOf(append(slices.Clone(ownForms), all...)))
	default:
		f.fix = fmt.Sprintf("for a %s write %s", kind, anyOf(append(slices.Clone(ownForms), all...)))
	}
	f.fix += "; or write `tolerance:` instead"
	return f
}

// formsOf lists the product forms of steel that a part of a kind can be made of,
// and of these the ones that have each word of a text in their names.
func formsOf(text, kind string) (fits, all []string) {
	for _, p := range density.Products() {
		if !formOfKind(p, kind) {
			continue
		}
		all = append(all, p.Name)
		have := wordsOf(strings.Join(append([]string{p.Name}, p.Synonyms...), " "))
		words := wordsOf(text)
		if len(words) > 0 && !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(have, w) }) {
			fits = append(fits, p.Name)
		}
	}
	return fits, all
}

// formOfKind tells whether a kind of part can be of a product form: a section is
// of none of those of plate, a tube or a mesh may be of any, all else is of plate.
func formOfKind(p density.Product, kind string) bool {
	plate := p.Of == "thickness"
	switch kind {
	case "section", "pipe":
		return !plate
	case "tube", "bend", "mesh":
		return true
	}
	return plate
}

// wordsOf splits a name into its words and numbers, in lower case.
func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// anyOf joins names with commas, the last two with an or.
func anyOf(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}
