package lift

import (
	"fmt"
	"strings"

	"plumbhook/rig"
)

// caseName puts the names of picks for the numbers of legs, which stand after
// "long:".
func (p *plan) caseName(name string) string {
	words, long := strings.Fields(strings.ReplaceAll(name, ",", " ,")), false
	for i, w := range words {
		long = w == "long:" || long && w != ","
		for k := range p.picks {
			if long && w == fmt.Sprint(k+1) {
				words[i] = p.picks[k].Name
			}
		}
	}
	text := strings.ReplaceAll(strings.Join(words, " "), " ,", ",")
	if strings.HasSuffix(text, leastWeight) {
		return text
	}
	return text + ", at the sizing weight"
}

// caseOf names the governing case, and the legs that carry nothing in it.
func (p *plan) caseOf(w rig.Worst) string {
	text := p.caseName(w.Case)
	if len(w.Loose) == 0 {
		return text
	}
	var loose []string
	for _, i := range w.Loose {
		loose = append(loose, p.picks[i].Name)
	}
	return text + ", with nothing carried by " + strings.Join(loose, " and ")
}
