package takeoff

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"plumbhook/density"
	"plumbhook/units"
)

const (
	mostDepth    = 20 // of groups in groups; the deepest that there are need less than half
	mostProblems = 1000
)

// reader walks one input and keeps what it finds wrong.
type reader struct {
	file     string
	lines    []string
	problems Problems
	faults   int // problems found, also those beyond mostProblems that are not kept
	warnings []Warning
	source   *source          // for what the file names
	bare     units.LengthUnit // of bare lengths; zero: none was named

	tolerances  map[string]toleranceRow     // by status
	owned       map[string]density.Material // the file's own, by plain name
	fallback    *stuff                      // for parts that name none; nil: there is none
	fallbackBad bool                        // it was named and could not be read
	cuts        int                         // read so far
	handed      []Allowance                 // of the sub-assemblies
	insides     []writtenInside             // of contents, to be held against their parts
	sampled     int                         // of them, sampled along rays
	pieces      int                         // read so far, copies counted
	below       int                         // load files one within the other below this one
	inner       Problems                    // of the load files below this one
	cells       bool                        // lines and columns are those of a spreadsheet
}

// newReader returns a reader of one file.
func newReader(file string, s *source, t map[string]toleranceRow) *reader {
	return &reader{file: file, source: s, tolerances: t, owned: map[string]density.Material{}}
}

// allProblems returns the problems in the order of the file's lines, then
// those of the files that it names.
func (r *reader) allProblems() Problems {
	r.problems.sortByPlace()
	all := append(r.problems, r.inner...)
	return all[:min(len(all), mostProblems)]
}

// at records a problem at a line and column (from 1).
func (r *reader) at(line, column int, text, fix string) {
	r.faults++
	switch {
	case r.faults > mostProblems:
		return
	case r.faults == mostProblems:
		text, fix = "there are more problems than can be listed", "mend the ones above first"
	}
	p := Problem{File: r.file, Line: line, Column: column, Text: printable(text), Fix: printable(fix)}
	if r.cells && line >= 1 {
		p.Column, p.Cell = max(column, 1), cell(column, line)
	} else if line >= 1 && line <= len(r.lines) && (len(r.lines[line-1]) < longLine || len(r.problems) < MostShown) {
		p.Excerpt = excerpt(r.lines[line-1], column)
	}
	r.problems = append(r.problems, p)
}

// bad records a problem at a node of the file.
func (r *reader) bad(n *yaml.Node, text, fix string) { r.at(n.Line, n.Column, text, fix) }

// warn records a warning.
func (r *reader) warn(code, part, text, fix string) {
	r.warnings = append(r.warnings, Warning{Code: code, Part: part, Text: text, Fix: fix})
}

// note records what only the check of the take-off tells of.
func (r *reader) note(code, part, text, fix string) {
	r.warnings = append(r.warnings, Warning{Code: code, Part: part, Text: text, Fix: fix, Note: true})
}

// parse turns the bytes of a load file into its tree. It returns nil when the
// text cannot be read at all; the problems are then in r.
func (r *reader) parse(data []byte) *yaml.Node {
	data = bytes.TrimPrefix(data, []byte("\uFEFF"))
	if !r.checkText(data) {
		return nil
	}
	r.lines = splitLines(string(data))
	root, err := decode(data)
	if err != nil {
		r.syntax(data, err)
		return nil
	}
	if root == nil || len(root.Content) == 0 {
		r.at(1, 1, "the file says nothing", "write at least `load`, `units`, `material` and `parts`")
		return nil
	}
	if !r.checkTree(root.Content[0]) {
		return nil
	}
	return root.Content[0]
}

// checkText looks for what no text file holds.
func (r *reader) checkText(data []byte) bool {
	const utf8Fix = "save the file as plain text in UTF-8"
	if bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		r.at(1, 1, "the file is UTF-16 text", utf8Fix)
		return false
	}
	line, column := 1, 1
	for rest := data; len(rest) > 0; {
		c, size := utf8.DecodeRune(rest)
		switch {
		case c == utf8.RuneError && size == 1:
			r.at(line, column, fmt.Sprintf("byte 0x%02x is not UTF-8 text", rest[0]), utf8Fix)
			return false
		case c == '\n':
			line, column = line+1, 0
		case c != '\t' && c != '\r' && (c < ' ' || c == 0x7f):
			r.at(line, column, fmt.Sprintf("control character 0x%02x in the file", c),
				"delete it: only plain text, tabs and line ends may stand here")
			return false
		}
		column++
		rest = rest[size:]
	}
	return true
}

// splitLines cuts a text at every line end that YAML knows.
func splitLines(text string) []string {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u0085", "\n", "\u2028", "\n", "\u2029", "\n").Replace(text)
	return strings.Split(text, "\n")
}

// errSeveral says that a file holds more than one YAML document.
type errSeveral struct{ line int }

func (e errSeveral) Error() string { return "several documents in one file" }

// decode parses the first and only document. A panic of the YAML library on
// odd input is turned into an error: a user's file must never end the program.
func decode(data []byte) (root *yaml.Node, err error) {
	defer func() {
		if e := recover(); e != nil {
			root, err = nil, fmt.Errorf("the YAML reader gave up: %v", e)
		}
	}()
	dec := yaml.NewDecoder(bytes.NewReader(data))
	var first, second yaml.Node
	if err := dec.Decode(&first); errors.Is(err, io.EOF) {
		return nil, nil
	} else if err != nil {
		return nil, err
	}
	if err := dec.Decode(&second); err == nil {
		return nil, errSeveral{second.Line}
	} else if !errors.Is(err, io.EOF) {
		return nil, err
	}
	return &first, nil
}

// plainWords turns the messages of the YAML library into what to look for.
var plainWords = []struct{ has, text, fix string }{
	{"found character that cannot start any token", "a character here cannot start a value",
		"put the value in quotes; indent with spaces, not tabs"},
	{"found a tab character", "a tab is used where spaces are expected", "indent with spaces, not tabs"},
	{"mapping values are not allowed", "a second ': ' on the line, or a line indented further than the one above",
		"give each key its own line, lined up with its neighbours; put a text that holds ': ' in quotes"},
	{"did not find expected key", "the line does not fit the ones above it",
		"line it up with its neighbours; close every bracket and quote"},
	{"did not find expected '-' indicator", "the line does not fit the list above it",
		"begin each entry of the list with '- ' in the same column"},
	{"could not find expected ':'", "a key without a colon", "write `key: value`, with a space after the colon"},
	{"',' or ']'", "a list is not closed", "separate its values by commas and end it with ]"},
	{"',' or '}'", "a group in braces is not closed", "separate its keys by commas and end it with }"},
	{"found unexpected end of stream", "a quote is not closed", "close the quote, or take it away"},
	{"exceeded max depth", "the file is nested too deeply", "a load file needs only a few levels"},
}

// syntax records why a file is not YAML.
func (r *reader) syntax(data []byte, err error) {
	if s := (errSeveral{}); errors.As(err, &s) {
		r.at(s.line, 1, "a second document begins here", "keep one load in one file: take the '---' away")
		return
	}
	text, fix := strings.TrimPrefix(err.Error(), "yaml: "), "see that indentation, brackets, quotes and colons are right"
	line := 1
	if _, e := fmt.Sscanf(text, "line %d:", &line); e == nil {
		_, text, _ = strings.Cut(text, ": ")
	}
	line = breaksAt(r.lines, line)
	for _, w := range plainWords {
		if strings.Contains(text, w.has) {
			text, fix = w.text, w.fix
			break
		}
	}
	here := r.lines[line-1]
	indent := here[:len(here)-len(strings.TrimLeft(here, " \t"))]
	if strings.Contains(indent, "\t") {
		text, fix = "the line is indented with a tab", "indent with spaces, not tabs"
	}
	r.at(line, len(indent)+1, "not readable as YAML: "+text, fix)
}

// breaksAt returns the line (from 1) at which a text stops being YAML: the one
// after the last beginning of the text that can be read. The line that the
// library names is the start of the group that it was in, often far above;
// it is used when the search, which is kept short, finds nothing.
func breaksAt(lines []string, named int) int {
	source := &byLine{lines: lines}
	func() {
		defer func() { _ = recover() }() // the same panic has been reported by decode
		var n yaml.Node
		dec := yaml.NewDecoder(source)
		for dec.Decode(&n) == nil {
			n = yaml.Node{}
		}
	}()
	budget := 4 << 20 // bytes parsed again, a fraction of a second
	for k := min(source.next, len(lines)); k > 0 && budget > 0; k-- {
		start := strings.Join(lines[:k-1], "\n")
		budget -= len(start) + 1000
		if _, err := decode([]byte(start)); err == nil {
			return k
		}
	}
	return min(max(named, 1), len(lines))
}

// byLine hands a text out one line a call, so that it knows how far the
// library has read when it fails.
type byLine struct {
	lines []string
	next  int
	rest  string
}

func (b *byLine) Read(p []byte) (int, error) {
	if b.rest == "" {
		if b.next == len(b.lines) {
			return 0, io.EOF
		}
		b.rest = b.lines[b.next] + "\n"
		b.next++
	}
	n := copy(p, b.rest)
	b.rest = b.rest[n:]
	return n, nil
}
