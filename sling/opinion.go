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
	against []string // those of them that are not a yes, the worst first
	bars    int      // so many of against, at its head, are a no
}

// severity orders the answers from best to worst.
var severity = []string{Yes, Care, No}

func (o *opinion) add(use, format string, args ...any) {
	if slices.Index(severity, use) > slices.Index(severity, o.use) {
		o.use = use
	}
	text := fmt.Sprintf(format, args...)
	o.reasons = append(o.reasons, text)
	switch use {
	case No:
		o.against = slices.Insert(o.against, o.bars, text)
		o.bars++
	case Care:
		o.against = append(o.against, text)
	}
}

// tidy makes words comparable: lower case, single blanks, no hyphens.
func tidy(word string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(strings.ToLower(word), "-", " ")), " ")
}
