package report

import (
	"regexp"
	"strings"
)

// htmlParts takes what is laid out for a page of text as blocks of HTML, so that
// the working on the page says the same as the text, by the same code.
type htmlParts struct {
	list []htmlPart
	open bool // the last table takes notes to its rows
}

// htmlPart is what stands under one heading of a section.
type htmlPart struct {
	Title  string
	Blocks []htmlBlock
}

// htmlBlock is one of its kinds; the others are empty.
type htmlBlock struct {
	Fields   []htmlField
	Table    *htmlTable
	Items    []string
	Numbered []string
	Text     string
	Lines    string // as they are, in letters of one width
}

type htmlField struct {
	Name   string
	Values []string
}

// htmlTable is a table; what is numbers stands to the right.
type htmlTable struct {
	Caption string
	Quiet   bool // a heading over it says the same: the caption is for those who hear the page
	Cols    []htmlColumn
	Head    bool
	Rows    []htmlRow
}

type htmlColumn struct {
	Title string
	Right bool
}

type htmlRow struct {
	Cells [][]string // lines
	Total bool
	Notes []string
}

// last is the part that is being filled.
func (d *htmlParts) last() *htmlPart {
	if len(d.list) == 0 {
		d.list = append(d.list, htmlPart{})
	}
	return &d.list[len(d.list)-1]
}

// block is the block that is being filled if it is of the kind wanted; a new one
// otherwise.
func (d *htmlParts) block(kind func(htmlBlock) bool) *htmlBlock {
	p := d.last()
	if n := len(p.Blocks); n == 0 || !kind(p.Blocks[n-1]) {
		p.Blocks = append(p.Blocks, htmlBlock{})
	}
	return &p.Blocks[len(p.Blocks)-1]
}

func (d *htmlParts) sub(title string) {
	d.list = append(d.list, htmlPart{Title: sentence(clean(title))})
	d.open = false
}

func (d *htmlParts) line(text string) {
	d.open = false
	b := d.block(func(b htmlBlock) bool { return b.Lines != "" })
	b.Lines += clean(strings.TrimRight(text, " ")) + "\n"
}

func (d *htmlParts) field(name, value string) {
	d.open = false
	b := d.block(func(b htmlBlock) bool { return len(b.Fields) > 0 })
	if n := len(b.Fields); name == "" && n > 0 {
		b.Fields[n-1].Values = append(b.Fields[n-1].Values, clean(value))
		return
	}
	b.Fields = append(b.Fields, htmlField{clean(name), []string{clean(value)}})
}

// hang takes a text by what leads it: a mark of a list, a name, or nothing. Far in
// and under a table it is a note to the row above.
func (d *htmlParts) hang(lead, text string) {
	const farIn = 6
	mark := strings.TrimSpace(lead)
	switch {
	case d.open && strings.HasPrefix(lead, strings.Repeat(" ", farIn)):
		if rows := d.table().Rows; len(rows) > 0 {
			row := &rows[len(rows)-1]
			row.Notes = append(row.Notes, strings.TrimSpace(mark+" "+clean(text)))
		}
	case mark == "":
		d.open = false
		p := d.last()
		p.Blocks = append(p.Blocks, htmlBlock{Text: clean(text)})
	case mark == "-" || mark == "!":
		d.open = false
		b := d.block(func(b htmlBlock) bool { return len(b.Items) > 0 })
		b.Items = append(b.Items, clean(text))
	case numberMark.MatchString(mark):
		d.open = false
		b := d.block(func(b htmlBlock) bool { return len(b.Numbered) > 0 })
		b.Numbered = append(b.Numbered, clean(text))
	default:
		d.field(mark, text)
	}
}

// numberMark is what leads an entry of a numbered list.
var numberMark = regexp.MustCompile(`^\d+\.$`)

// heading begins a part, as sub does: a section's own heading stands over it.
func (d *htmlParts) heading(title string) { d.sub(title) }

func (d *htmlParts) gap() {}

// table is the one that is being filled.
func (d *htmlParts) table() *htmlTable {
	p := d.last()
	if n := len(p.Blocks); d.open && n > 0 && p.Blocks[n-1].Table != nil {
		return p.Blocks[n-1].Table
	}
	t := &htmlTable{Caption: p.Title, Quiet: true}
	p.Blocks = append(p.Blocks, htmlBlock{Table: t})
	d.open = true
	return t
}

func (d *htmlParts) titles(cols []column) {
	d.open = false
	t := d.table()
	t.Head = true
	t.columns(cols)
}

func (t *htmlTable) columns(cols []column) {
	for _, c := range cols {
		t.Cols = append(t.Cols, htmlColumn{clean(c.title), c.right})
	}
}

func (d *htmlParts) row(cols []column, cells []string) {
	t := d.table()
	if len(t.Cols) == 0 {
		t.columns(cols)
	}
	if n := len(t.Rows); n > 0 && t.Rows[n-1].Total && t.Rows[n-1].Cells == nil {
		t.Rows[n-1].Cells = cellLines(cells)
		return
	}
	t.Rows = append(t.Rows, htmlRow{Cells: cellLines(cells)})
}

func cellLines(cells []string) [][]string {
	var out [][]string
	for _, c := range cells {
		var lines []string
		for l := range strings.SplitSeq(c, "\n") {
			lines = append(lines, clean(l))
		}
		out = append(out, lines)
	}
	return out
}

// rule makes the row that follows a sum.
func (d *htmlParts) rule() {
	t := d.table()
	t.Rows = append(t.Rows, htmlRow{Total: true})
}
