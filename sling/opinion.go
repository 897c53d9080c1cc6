package sling

import (
	"fmt"
	"slices"
	"strings"
)

// opinion gathers reasons for and against a family; the worst one decides.
type opinion struct {
	use     string
	reasons []string
}

// severity orders the answers from best to worst.
var severity = []string{Yes, Care, No}

func (o *opinion) add(use, format string, args ...any) {
	if slices.Index(severity, use) > slices.Index(severity, o.use) {
		o.use = use
	}
	o.reasons = append(o.reasons, fmt.Sprintf(format, args...))
}

// tidy makes words comparable: lower case, single blanks, no hyphens.
func tidy(word string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(strings.ToLower(word), "-", " ")), " ")
}
