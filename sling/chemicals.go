package sling

import (
	"fmt"
	"slices"
	"strings"
)

// chemicalRow is one row of chemicals.csv: what a chemical does to a substance.
type chemicalRow struct {
	cite
	rules                       Rules
	substance, chemical, effect string
	reason                      string
}

// sunlight is a row of chemicals.csv that Outdoors asks for, not a chemical.
const sunlight = "sunlight"

// vocabulary is the closed list of chemicals, each with the words that mean it.
var vocabulary = []struct {
	name string
	also []string
}{
	{"acid", []string{"acids", "acid fumes", "mineral acid", "battery acid", "sulphuric acid", "sulfuric acid", "hydrochloric acid", "nitric acid", "pickling bath"}},
	{"alkali", []string{"alkalis", "ammonia", "alkaline", "caustic", "caustics", "caustic soda", "sodium hydroxide", "lye", "base"}},
	{"bleach", []string{"chlorine", "oxidiser", "oxidizer", "oxidisers", "oxidizers", "oxidising agent", "oxidizing agent", "hypochlorite", "hydrogen peroxide"}},
	{"oil", []string{"oils", "grease", "mineral oil", "lubricant", "lubricating oil"}},
	{"organic solvent", []string{"organic solvents", "solvent", "solvents"}},
	{"sea water", []string{"seawater", "salt water", "saltwater"}},
	{"phenolics", []string{"phenolic", "phenol", "phenols"}},
}

// endings are the last words by which a chemical is known whatever stands before:
// acetic acid is an acid. What is not one of them is on the safe side, "ask the
// maker"; an oil may be anything.
var endings = map[string]string{"acid": "acid", "acids": "acid", "hydroxide": "alkali", "bleach": "bleach", "peroxide": "bleach", "hypochlorite": "bleach", "solvent": "organic solvent"}

// chemicalNamed returns the name in the vocabulary that a word means.
func chemicalNamed(word string) (name string, ok bool) {
	word = tidy(word)
	for _, v := range vocabulary {
		if v.name == word || slices.Contains(v.also, word) {
			return v.name, true
		}
	}
	name, ok = endings[word[strings.LastIndex(word, " ")+1:]]
	return name, ok
}

func readChemicals() ([]chemicalRow, error) {
	records, err := readTable("chemicals", "rules", "substance", "chemical", "use", "reason", "source", "basis")
	if err != nil {
		return nil, err
	}
	var out []chemicalRow
	for _, r := range records {
		c := r.cells
		if !slices.Contains([]string{"ok", Care, No}, c["use"]) || c["reason"] == "" {
			return nil, fmt.Errorf("%s: want use ok, care or no, and a reason", r.at)
		}
		if name, ok := chemicalNamed(c["chemical"]); c["chemical"] != sunlight && (!ok || name != c["chemical"]) {
			return nil, fmt.Errorf("%s: chemical %q is not in the vocabulary", r.at, c["chemical"])
		}
		out = append(out, chemicalRow{r.cite(), Rules(c["rules"]), c["substance"], c["chemical"], c["use"], c["reason"]})
	}
	return out, nil
}

// chemistry judges the stated chemicals, and sunlight where the lift is outdoors.
func (l *lift) chemistry(f familyRow, o *opinion) {
	s := l.need.Surroundings
	var words []string
	none := false
	for _, word := range s.Chemicals {
		if tidy(word) == "none" {
			none = true
		} else {
			words = append(words, word)
		}
	}
	switch {
	case none && len(words) == 0:
		o.add(Yes, "stated: no chemicals")
	case none:
		o.add(Care, "chemicals: none is stated beside %s: the others count", strings.Join(words, ", "))
	case len(words) == 0 && s.ChemicalsStated:
		o.add(Care, "not stated: chemicals (an empty list states nothing: write none where there are none)")
	case len(words) == 0:
		o.add(Care, "not stated: chemicals")
	}
	for _, word := range words {
		l.meets(f, word, o)
	}
	if s.Outdoors != nil && *s.Outdoors {
		l.look(f, sunlight, "outdoors", o)
	}
}

// meets judges one chemical by the user's word for it.
func (l *lift) meets(f familyRow, word string, o *opinion) {
	plain, strength := strengthOf(word)
	name, ok := chemicalNamed(plain)
	if !ok {
		o.add(Care, "%q: not in the table of chemicals, ask the maker", word)
		return
	}
	l.look(f, name, word, o)
	l.strength(f, name, strength, word, o)
}

func (l *lift) look(f familyRow, chemical, word string, o *opinion) {
	for _, row := range l.book.chemicals {
		if row.rules == f.rules && row.substance == f.substance && row.chemical == chemical {
			use := row.effect
			if use == "ok" {
				use = Yes
			}
			o.add(use, "%s: %s (%s)", word, row.reason, row.cite)
			return
		}
	}
	o.add(Care, "%s: not in the table for %s, ask the maker", word, f.substance)
}
