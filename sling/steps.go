package sling

import "plumbhook/units"

// Step is one size of a family and what it is rated for in a vertical hitch.
type Step struct {
	Size  string
	Rated units.Mass
}

// Steps returns the sizes of a family and material under a rule set, smallest
// rating first; none for families whose tag alone tells.
func Steps(rules Rules, family, material string) ([]Step, error) {
	b, err := openBook()
	if err != nil {
		return nil, err
	}
	var out []Step
	for _, f := range b.under(rules) {
		if f.family != family || f.material != material {
			continue
		}
		for _, r := range b.sizes(f) {
			out = append(out, Step{r.size, r.vertical})
		}
	}
	return out, nil
}
