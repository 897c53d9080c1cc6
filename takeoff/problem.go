package takeoff

import (
	"fmt"
	"sort"
	"strings"
	"unicode"
)

// Problem is one fault in an input: where it is, what is wrong in the
// planner's terms, and what to write instead.
type Problem struct {
	File    string
	Line    int    // from 1; 0: the file as a whole
	Column  int    // from 1, in characters; 0: the line as a whole
	Cell    string // of a spreadsheet, such as B7; empty for a text file
	Text    string // what is wrong
	Fix     string // what to write instead
	Excerpt string // the line itself with a caret line under it; empty where there is none
}

// String gives the problem as it is printed: place, text, excerpt, fix.
func (p Problem) String() string {
	var b strings.Builder
	b.WriteString(p.File)
	switch {
	case p.Cell != "":
		fmt.Fprintf(&b, ":%s", p.Cell)
	case p.Line > 0 && p.Column > 0:
		fmt.Fprintf(&b, ":%d:%d", p.Line, p.Column)
	case p.Line > 0:
		fmt.Fprintf(&b, ":%d", p.Line)
	}
	fmt.Fprintf(&b, ": %s\n", p.Text)
	if p.Excerpt != "" {
		for line := range strings.SplitSeq(p.Excerpt, "\n") {
			fmt.Fprintf(&b, "    %s\n", line)
		}
	}
	fmt.Fprintf(&b, "  fix: %s", p.Fix)
	return b.String()
}

// Problems are all the faults of one input, in the order of its lines. It is
// the error that Read returns.
type Problems []Problem

// MostShown is how many problems Error prints before it only counts the rest.
const MostShown = 20

// Error prints the problems, the first MostShown of them in full.
func (p Problems) Error() string {
	var parts []string
	for i, one := range p {
		if i == MostShown {
			parts = append(parts, fmt.Sprintf("… and %d more", len(p)-MostShown))
			break
		}
		parts = append(parts, one.String())
	}
	return strings.Join(parts, "\n")
}

// sortByPlace orders problems by line and column; those of one place keep the
// order in which they were found.
func (p Problems) sortByPlace() {
	sort.SliceStable(p, func(i, j int) bool {
		if p[i].Line != p[j].Line {
			return p[i].Line < p[j].Line
		}
		return p[i].Column < p[j].Column
	})
}

// Warning is something that the planner should see although the input can be
// used: a default that was taken, a size out of the ordinary.
type Warning struct {
	Code string // a fixed word for programs, such as "material-default"
	Text string
	Fix  string
	Part string // the part that it is about; empty: the load
	Note bool   // no one frowns at it: only the check of the take-off tells of it
}

// longestMessage is how many characters a message has at most: a file may have
// anything in the place of a name.
const longestMessage = 2000

// printable makes of a message what can't steer a terminal or fill a screen.
func printable(s string) string {
	clean := strings.Map(func(c rune) rune {
		if c != '\n' && !unicode.IsGraphic(c) {
			return '\uFFFD'
		}
		return c
	}, s)
	if letters := []rune(clean); len(letters) > longestMessage {
		return string(letters[:longestMessage]) + "…"
	}
	return clean
}

// longLine is a line, in bytes, so long that it is looked at for few of the problems
// in it: each look goes through the whole of it.
const longLine = 20_000

// longestExcerpt is how many characters of a line an excerpt shows.
const longestExcerpt = 100

// excerpt returns a line and, under it, a caret below the given column (from
// 1). Tabs are kept in both lines, so that the caret stands right whatever
// width a tab has; a long line is cut to the part around the column; what
// cannot be printed is replaced, so that a file cannot steer a terminal.
func excerpt(line string, column int) string {
	text := []rune(strings.TrimRightFunc(line, unicode.IsSpace))
	if len(text) == 0 {
		return ""
	}
	at := min(max(column-1, 0), len(text))
	from, to := 0, len(text)
	if len(text) > longestExcerpt {
		from = max(0, min(at-longestExcerpt/2, len(text)-longestExcerpt))
		to = from + longestExcerpt
	}
	var shown, caret strings.Builder
	if from > 0 {
		shown.WriteString("…")
		caret.WriteString(" ")
	}
	for i, r := range text[from:to] {
		if r != '\t' && !unicode.IsGraphic(r) {
			r = '\uFFFD'
		}
		shown.WriteRune(r)
		if i < at-from {
			if r != '\t' {
				r = ' '
			}
			caret.WriteRune(r)
		}
	}
	if to < len(text) {
		shown.WriteString("…")
	}
	return shown.String() + "\n" + caret.String() + "^"
}
