package report

import (
	"strings"
	"unicode/utf8"
)

// The faces of a PDF.
const (
	sans = "plain"
	mono = "mono"
)

// face is a type face and its size in points.
type face struct {
	family, style string
	size          float64
}

var (
	faceBody   = face{sans, "", 8.5}
	faceStrong = face{sans, "B", 8.5}
	faceSmall  = face{sans, "", 7.5}
	faceTight  = face{sans, "B", 7.5}
	faceTyped  = face{mono, "", 7.5}
	faceHead   = face{sans, "B", 11}
)

// point is one point in mm.
const point = 25.4 / 72

// high is how far one line is below the one before it, mm.
func (s face) high() float64 { return s.size * point * 1.25 }

func (d *leaf) use(s face) { d.f.SetFont(s.family, s.style, s.size) }

// width of a text in mm.
func (d *leaf) width(text string, s face) float64 {
	letters, wide := d.letters[s.family+s.style], 0.0
	for _, r := range d.known(text) {
		wide += letters.width(r)
	}
	return wide * s.size * point
}

// stroke sets how thick lines are, mm, and makes them whole and black.
func (d *leaf) stroke(mm float64) {
	d.f.SetLineWidth(mm)
	d.f.SetDashPattern(nil, 0)
	d.f.SetDrawColor(0, 0, 0)
	d.f.SetFillColor(0, 0, 0)
}

// put sets one line of text whose top is at y, to the left, the right or the
// middle (L, R, C) of a room.
func (d *leaf) put(x, y, room float64, text string, s face, align string) {
	text = d.known(text)
	switch align {
	case "R":
		x += room - d.width(text, s)
	case "C":
		x += (room - d.width(text, s)) / 2
	}
	d.use(s)
	d.f.Text(x, y+s.size*point*0.95, text)
}

// likeness stands in for a letter that the faces lack and that looks like another.
var likeness = strings.NewReplacer("⌀", "ø", "∅", "ø", "\u202f", " ", "\u2009", " ", "\u2011", "-", "⅓", "1/3", "⅔", "2/3")

// known replaces letters that the faces lack by a mark that says so.
func (d *leaf) known(text string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || d.letters[sans].width(r) == 0 {
			d.unknown = true
			return utf8.RuneError
		}
		return r
	}, strings.ReplaceAll(likeness.Replace(text), glue, " "))
}

// lines breaks a text into lines that fit in a room of so many mm. A line break
// in it is kept; a word that is wider than the room is broken where it must be.
func (d *leaf) lines(text string, room float64, s face) []string {
	var out []string
	for piece := range strings.SplitSeq(text, "\n") {
		out = append(out, d.broken(tied(piece), room, s)...)
	}
	return out
}

func (d *leaf) broken(text string, room float64, s face) []string {
	var out []string
	line := ""
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }) {
		if line != "" && d.width(line+" "+word, s) <= room {
			line += " " + word
			continue
		}
		if line != "" {
			out, line = append(out, line), ""
		}
		for d.width(word, s) > room && length(word) > 1 {
			start, rest := cut(word, d.fitting(word, room, s))
			out, word = append(out, start), rest
		}
		line = word
	}
	if line != "" || len(out) == 0 {
		out = append(out, line)
	}
	return out
}

// fitting is how many of the letters of a word have room, at least one.
func (d *leaf) fitting(word string, room float64, s face) int {
	letters, wide := []rune(word), 0.0
	for n, r := range letters {
		if wide += d.width(string(r), s); wide > room {
			return max(n, 1)
		}
	}
	return len(letters)
}

// block sets a text in a room and returns how high it is.
func (d *leaf) block(x, y, room float64, text string, s face) float64 {
	all := d.lines(text, room, s)
	for i, line := range all {
		d.put(x, y+float64(i)*s.high(), room, line, s, "L")
	}
	return float64(len(all)) * s.high()
}

// flow sets a text so far in from the left, over as many pages as it takes.
func (d *leaf) flow(in float64, text string, s face) {
	for _, line := range d.lines(text, textWide-in, s) {
		d.need(s.high())
		d.put(d.left+in, d.y, textWide-in, line, s, "L")
		d.y += s.high()
	}
}
