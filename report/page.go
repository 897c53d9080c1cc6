package report

import (
	"fmt"
	"strings"
)

// page lays out lines of text. The width is counted in characters.
type page struct {
	b     strings.Builder
	opt   Options
	marks map[string]bool // bases that were marked, for the legend
	brief bool            // of families only what is chosen and what speaks against it
	set   setter          // takes what is printed, before it is broken into lines; nil: text
}

// setter lays out what sections print in another way than as lines of text.
type setter interface {
	line(text string)
	gap()
	hang(lead, text string)
	field(name, value string)
	heading(text string)
	sub(text string)
	titles(cols []column)
	rule()
	row(cols []column, cells []string)
}

func newPage(opt Options) *page {
	opt.Width = max(opt.Width, leastWidth)
	return &page{opt: opt, marks: map[string]bool{}}
}

// text returns what is on the page, without the blank lines at its ends.
func (p *page) text() string { return strings.Trim(p.b.String(), "\n") + "\n" }

// line prints one line as it is.
func (p *page) line(text string) {
	if p.set != nil {
		p.set.line(text)
		return
	}
	p.b.WriteString(strings.TrimRight(text, " ") + "\n")
}

// gap leaves one line blank.
func (p *page) gap() {
	if p.set != nil {
		p.set.gap()
		return
	}
	if !strings.HasSuffix(p.b.String(), "\n\n") {
		p.b.WriteString("\n")
	}
}

// roomBeside is the least that a text must have beside its lead, in characters.
const roomBeside = 20

// hang prints a text after its lead, and its further lines under the text. A lead that
// leaves no room, such as a very long name, stands above it.
func (p *page) hang(lead, text string) {
	if p.set != nil {
		p.set.hang(lead, text)
		return
	}
	indent := length(lead)
	if indent > p.opt.Width-roomBeside {
		own := indent - length(strings.TrimLeft(lead, " "))
		for _, l := range wrap(lead, 0, p.opt.Width-own) {
			p.line(strings.Repeat(" ", own) + l)
		}
		indent = own + 4
		lead = strings.Repeat(" ", indent)
	}
	for i, l := range wrap(text, 0, p.opt.Width-indent) {
		if i > 0 {
			lead = strings.Repeat(" ", indent)
		}
		p.line(lead + l)
	}
}

// labelled is how far the values of a block of fields stand in.
const labelled = 15

// field prints a named value. An empty one is left out.
func (p *page) field(name, value string) {
	switch {
	case value == "":
	case p.set != nil:
		p.set.field(name, value)
	default:
		p.hang(padded("  "+name, labelled, false), value)
	}
}

// heading begins a section.
func (p *page) heading(text string) {
	if p.set != nil {
		p.set.heading(clean(text))
		return
	}
	p.gap()
	p.titleLine(text)
	p.gap()
}

// titleLine prints a title as it is, over several lines where a name in it is very long.
func (p *page) titleLine(text string) {
	if length(text) <= p.opt.Width {
		p.line(clean(text))
		return
	}
	for _, l := range wrap(text, 0, p.opt.Width) {
		p.line(l)
	}
}

// sub begins a part of a section.
func (p *page) sub(text string) {
	if p.set != nil {
		p.set.sub(clean(text))
		return
	}
	p.gap()
	p.titleLine("  " + text)
	p.gap()
}

// sentence writes a heading that is all capitals as a sentence does.
func sentence(title string) string {
	head, tail, cut := strings.Cut(title, ":")
	if len(head) > 3 && head == strings.ToUpper(head) {
		first := []rune(head)[:1]
		head = string(first) + strings.ReplaceAll(strings.ToLower(head[len(string(first)):]), "cg", "CG")
	}
	if cut {
		return head + ":" + tail
	}
	return head
}

// numbered prints texts one under the other.
func (p *page) numbered(texts []string) {
	for i, t := range texts {
		p.hang(fmt.Sprintf("%4d. ", i+1), t)
	}
}

// column of a table.
type column struct {
	title string
	width int // characters; 0: what is left of the line
	right bool
}

// titles prints the head of a table, and a rule under it.
func (p *page) titles(cols []column) {
	if p.set != nil {
		p.set.titles(cols)
		return
	}
	var cells []string
	for _, c := range cols {
		cells = append(cells, c.title)
	}
	p.row(cols, cells...)
	p.rule()
}

// rule draws a line across the page.
func (p *page) rule() {
	if p.set != nil {
		p.set.rule()
		return
	}
	p.line("  " + strings.Repeat("─", p.opt.Width-2))
}

// row prints one row of a table: each cell is wrapped in its column, two
// characters clear of the one before it. A line break in a cell is kept.
func (p *page) row(cols []column, cells ...string) {
	if p.set != nil {
		p.set.row(cols, cells)
		return
	}
	left := p.opt.Width
	for _, c := range cols {
		left -= c.width + 2
	}
	var blocks [][]string
	deep := 0
	for i, c := range cols {
		width := c.width
		if width == 0 {
			width = left
		}
		var block []string
		for text := range strings.SplitSeq(cells[i], "\n") {
			for _, l := range wrap(text, 0, width) {
				block = append(block, padded(l, width, c.right))
			}
		}
		blocks = append(blocks, block)
		deep = max(deep, len(block))
	}
	for n := range deep {
		line := ""
		for i, block := range blocks {
			cell := strings.Repeat(" ", widthOf(cols[i], left))
			if n < len(block) {
				cell = block[n]
			}
			line += "  " + cell
		}
		p.line(line)
	}
}

func widthOf(c column, left int) int {
	if c.width == 0 {
		return left
	}
	return c.width
}

// Colours stand beside words that say the same.
var inks = map[string]string{"yes": "\x1b[32m", "care": "\x1b[33m", "no": "\x1b[31m"}

// ink colours a text as good, doubtful or bad if colour is on.
func (p *page) ink(text, use string) string {
	code := inks[use]
	if !p.opt.Color || code == "" {
		return text
	}
	return code + text + "\x1b[0m"
}

// marks and what they stand for.
var (
	marks   = map[string]string{"from memory": "[m]", "common practice": "[c]"}
	legends = []struct{ basis, text string }{
		{"from memory", "from memory: the source is recalled; hold the figure against it before relying on it"},
		{"common practice", "common practice: no publication stands behind the figure"},
	}
)

// mark returns the mark of a basis to stand behind a figure, and remembers to
// explain it. A figure that was read or computed has none.
func (p *page) mark(basis string) string {
	m := marks[basis]
	if m == "" {
		return ""
	}
	p.marks[basis] = true
	return glue + m
}

// legend explains the marks that are on the page.
func (p *page) legend() {
	if len(p.marks) == 0 {
		return
	}
	p.gap()
	for _, l := range legends {
		if p.marks[l.basis] {
			p.hang("  "+marks[l.basis]+" ", l.text)
		}
	}
}
