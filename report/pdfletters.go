package report

import (
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// letters are those of a type face, with their widths as they are looked up. All
// faces of the PDF have the same ones.
type letters struct {
	font   *sfnt.Font
	buffer sfnt.Buffer
	widths map[rune]float64 // in parts of the face's size
}

func newLetters(face []byte) (*letters, error) {
	font, err := sfnt.Parse(face)
	return &letters{font: font, widths: map[rune]float64{}}, err
}

// width is how wide a letter is, in parts of the size of the face; 0: there is none.
func (l *letters) width(r rune) float64 {
	if wide, known := l.widths[r]; known {
		return wide
	}
	wide := l.look(r)
	l.widths[r] = wide
	return wide
}

func (l *letters) look(r rune) float64 {
	const em = 1000
	if r > 0xFFFF {
		return 0 // more than the writer of the PDF can take
	}
	index, err := l.font.GlyphIndex(&l.buffer, r)
	if err != nil || index == 0 {
		return 0
	}
	wide, err := l.font.GlyphAdvance(&l.buffer, index, fixed.I(em), font.HintingNone)
	if err != nil {
		return 0
	}
	return float64(wide) / 64 / em
}
