package report

import (
	"slices"
	"strings"
)

// A leaf sets what sections print: the same words as the text has, in a face whose
// letters are not all of one width.

const perColumn = textWide / leastWidth // mm for each character that a column is wide

// heading begins a section, with a bookmark.
func (d *leaf) heading(text string) {
	d.table = nil
	d.need(36) // a few rows of what follows
	if d.y > leafTop {
		d.y += 4
	}
	d.use(faceHead)
	d.f.Bookmark(d.known(sentence(text)), 0, d.y)
	d.put(d.left, d.y, textWide, text, faceHead, "L")
	d.y += faceHead.high() + 0.5
	d.stroke(0.4)
	d.f.Line(d.left, d.y, d.left+textWide, d.y)
	d.y += 2
}

// sub begins a part of a section.
func (d *leaf) sub(text string) {
	d.table = nil
	d.need(32) // a few rows of a table that may follow
	d.y += 2.5
	d.flow(0, text, faceStrong)
	d.y += 0.8
}

func (d *leaf) gap() {
	d.table = nil
	d.y += 1.2
}

// line sets a line as it is: in a face of one width where its columns have to
// stand under one another.
func (d *leaf) line(text string) {
	d.table = nil
	trimmed := strings.TrimLeft(text, " ")
	if trimmed == "" {
		d.gap()
		return
	}
	if use, rest, _ := strings.Cut(trimmed, " "); slices.Contains(uses, use) {
		d.need(14)
		d.y += 1
		d.flow(2, use+": "+strings.TrimLeft(rest, " "), faceStrong)
		return
	}
	if strings.Contains(trimmed, "  ") || strings.ContainsAny(trimmed, "─│░") || strings.HasPrefix(text, "    ") {
		d.need(faceTyped.high())
		d.put(d.left, d.y, textWide, text, faceTyped, "L")
		d.y += faceTyped.high()
		return
	}
	d.flow(0, trimmed, faceBody)
}

// hang sets a text after its lead.
func (d *leaf) hang(lead, text string) {
	style := faceBody
	if d.table != nil {
		style = faceSmall // a remark on the row above it
		d.noted = true
	}
	const letter = 1.7 // mm
	mark := strings.TrimSpace(lead)
	if length(mark) > 8 || strings.HasPrefix(mark, "or ") {
		d.field(mark, text)
		return
	}
	in := float64(length(strings.TrimRight(lead, " "))-length(mark)-2) * letter
	after := in
	if mark != "" {
		after = max(in+5, in+d.width(mark+" ", style)+1)
	} else if length(lead) > 2 {
		after = float64(length(lead)-2) * letter
	}
	d.need(style.high())
	d.put(d.left+max(0, in), d.y, textWide, mark, style, "L")
	d.flow(max(0, after), text, style)
	if d.table == nil {
		d.y += 0.4
	}
}

// field sets a named value.
func (d *leaf) field(name, value string) {
	d.table = nil
	const in = 26.0
	d.need(faceBody.high())
	d.put(d.left, d.y, in-1, name, faceStrong, "L")
	d.flow(in, value, faceBody)
	d.y += 0.5
}

// titles begins a table.
func (d *leaf) titles(cols []column) {
	d.table = nil
	d.need(22)
	d.table = cols
	d.heads()
}

// heads sets the head of the table, and a rule under it.
func (d *leaf) heads() {
	d.noted = false
	var names []string
	for _, c := range d.table {
		names = append(names, c.title)
	}
	d.cells(d.table, names, faceTight, true)
	d.stroke(0.3)
	d.f.Line(d.left, d.y, d.left+textWide, d.y)
	d.y += 0.7
}

func (d *leaf) rule() {
	d.noted = false
	d.stroke(0.3)
	d.f.Line(d.left, d.y, d.left+textWide, d.y)
	d.y += 0.7
}

// row sets one row of a table.
func (d *leaf) row(cols []column, cells []string) {
	if d.noted {
		d.y += 0.7
		d.stroke(0.08)
		d.f.Line(d.left, d.y, d.left+textWide, d.y)
		d.y += 0.7
	}
	d.noted = false
	d.cells(cols, cells, faceSmall, false)
	d.y += 0.5
}

// cells sets a row in a face; the last lines of the cells of a head stand on one
// line. A row is kept together if it can be.
func (d *leaf) cells(cols []column, cells []string, s face, low bool) {
	wide := widths(cols)
	var blocks [][]string
	deep := 0
	for i := range cols {
		blocks = append(blocks, d.lines(cells[i], wide[i], s))
		deep = max(deep, len(blocks[i]))
	}
	if high := float64(deep)*s.high() + 4; high < (d.end-leafTop)/2 && !low {
		d.need(high)
	}
	for n := range deep {
		if !low {
			d.need(s.high())
		}
		x := d.left
		for i, block := range blocks {
			at := n
			if low {
				at -= deep - len(block)
			}
			align := "L"
			if cols[i].right {
				align = "R"
			}
			if at >= 0 && at < len(block) {
				d.put(x, d.y, wide[i], block[at], s, align)
			}
			x += wide[i] + columnGap
		}
		d.y += s.high()
	}
}

// columnGap is the room between columns, mm.
const columnGap = 3.0

// widths shares out the width of the text among columns, mm.
func widths(cols []column) []float64 {
	left := textWide + columnGap
	for _, c := range cols {
		if c.width > 0 {
			left -= float64(c.width+2) * perColumn
		}
	}
	var out []float64
	for _, c := range cols {
		if c.width == 0 {
			out = append(out, left-columnGap)
		} else {
			out = append(out, float64(c.width+2)*perColumn-columnGap)
		}
	}
	return out
}
