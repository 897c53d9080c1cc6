package report

import (
	"fmt"
	"io"
	"slices"
	"time"

	"github.com/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"

	"plumbhook/lift"
)

// Paper is the paper of a PDF.
type Paper string

// The papers that a PDF can be made for.
const (
	A4     Paper = "a4"
	Letter Paper = "letter"
)

// paperSizes of the papers in mm, width and height: ISO 216, and 8.5 by 11 inches.
var paperSizes = map[Paper][2]float64{A4: {210, 297}, Letter: {215.9, 279.4}}

// PDF writes the lift sheet as a PDF: the sheet for the crew on page 1, then the
// drawings and the working. The zero paper is A4. The same sheet gives the same
// bytes: no clock is read.
//
// A result that holds NaN or infinity is an error, and then nothing is written.
func PDF(w io.Writer, s lift.LiftSheet, paper Paper, opt Options) error {
	if err := JSON(io.Discard, s); err != nil {
		return err
	}
	if paper == "" {
		paper = A4
	}
	if _, known := paperSizes[paper]; !known {
		return fmt.Errorf("report: no paper %q", paper)
	}
	opt.Color = false
	first := newLeaf(s, paper, opt, 0) // to count the pages
	if err := first.f.Error(); err != nil {
		return fmt.Errorf("report: can't read the faces of the PDF: %w: %w", err, lift.ErrProgram)
	}
	first.all()
	d := newLeaf(s, paper, opt, first.f.PageNo())
	d.warningsOn, d.familiesOn, d.legsOn = first.warningsOn, first.familiesOn, first.legsOn
	d.all()
	if err := d.f.Output(w); err != nil {
		return fmt.Errorf("report: can't make the PDF: %w: %w", err, lift.ErrProgram)
	}
	return nil
}

// The text of a PDF, in mm: all papers have room for as wide a text as a drawing
// at its scale is.
const (
	textWide = 180.0
	leafTop  = 12.0
	leafFoot = 16.0 // from the lower edge
)

// leaf sets a PDF, page after page. It is the setter of its page of text.
type leaf struct {
	f          *fpdf.Fpdf
	p          *page
	s          lift.LiftSheet
	left, end  float64             // mm: of the text, and its lower edge
	y          float64             // mm: where the next thing goes
	pages      int                 // in all; 0 while they are counted
	table      []column            // whose head is set again on a new page; nil: no table
	noted      bool                // a remark stands under the last row of it
	letters    map[string]*letters // by family and style
	unknown    bool                // a letter was met that the faces don't have
	warningsOn int                 // pages that page 1 points to
	familiesOn int
	legsOn     int
}

func newLeaf(s lift.LiftSheet, paper Paper, opt Options, pages int) *leaf {
	size := paperSizes[paper]
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: size[0], Ht: size[1]}})
	d := &leaf{f: f, p: newPage(opt), s: s, left: (size[0] - textWide) / 2, end: size[1] - leafFoot, pages: pages, letters: map[string]*letters{}}
	d.p.set = d
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(d.left, leafTop, d.left)
	f.SetCatalogSort(true)
	d.faces()
	f.SetTitle(d.known("Lift sheet: "+s.Load), true)
	f.SetLang("en-GB")
	f.SetCreator("plumbhook "+opt.Version, true)
	f.SetProducer("plumbhook "+opt.Version, true)
	when := dated(s.Date)
	f.SetCreationDate(when)
	f.SetModificationDate(when)
	f.SetFooterFunc(d.footer)
	return d
}

// faces takes in the type faces, whose parts that are used go into the file.
func (d *leaf) faces() {
	for _, one := range []struct {
		family, style string
		file          []byte
	}{{sans, "", goregular.TTF}, {sans, "B", gobold.TTF}, {mono, "", gomono.TTF}} {
		known, err := newLetters(one.file)
		if err != nil {
			d.f.SetError(err)
			return
		}
		d.letters[one.family+one.style] = known
		d.f.AddUTF8FontFromBytes(one.family, one.style, slices.Clone(one.file))
	}
}

// dated is the day that the sheet is dated, for the properties of the file: a PDF
// must have one. A sheet that says none, or says it in words, gets the first day
// that a PDF may be dated, as nobody takes that for a date.
func dated(text string) time.Time {
	if day, err := time.Parse(time.DateOnly, text); err == nil {
		return day
	}
	return time.Date(1970, 1, 1, 0, 0, 0, 0, time.UTC)
}

// footer names load, input and program on each page, so that no leaf can stray
// into another sheet.
func (d *leaf) footer() {
	y := d.end + 4
	d.stroke(0.2)
	d.f.Line(d.left, y, d.left+textWide, y)
	const number = 24.0
	input := ""
	if d.s.InputSHA256 != "" {
		input = "Input sha256 " + d.s.InputSHA256[:min(16, len(d.s.InputSHA256))] + "   plumbhook " + d.p.opt.Version
	}
	style := face{sans, "", 7}
	room := textWide - number - d.width(input, style) - 4
	name := d.s.Load
	if d.s.State != "" {
		name += ", " + d.s.State
	}
	d.put(d.left, y+1, room, d.cutOff(name, room, style, 1), style, "L")
	d.put(d.left, y+1, textWide-number, input, style, "R")
	d.put(d.left, y+1, textWide, fmt.Sprintf("page %d of %d", d.f.PageNo(), d.pages), style, "R")
}

// turnOver begins a new page, with the head of the table that is broken.
func (d *leaf) turnOver() {
	d.f.AddPage()
	d.y = leafTop
	if d.table != nil {
		d.heads()
	}
}

// need begins a new page unless there are so many mm left on this one.
func (d *leaf) need(high float64) {
	if d.y+high > d.end {
		d.turnOver()
	}
}
