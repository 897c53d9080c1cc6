package report

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"plumbhook/lift"
)

// ErrNothingDrawn is of a sheet without drawings.
var ErrNothingDrawn = errors.New("there is nothing to draw: the load has no part with a shape, and no pose was found")

// The sheet of all drawings, mm: two stand beside each other.
const (
	sheetEdge = 10.0
	sheetGap  = 8.0
	sheetText = 3.2
)

// SVG writes all drawings and plots of a lift sheet as one picture, to scale when
// it is printed at its own size. Which load it is of, and whether it may be lifted,
// stands at its top.
func SVG(w io.Writer, s lift.LiftSheet, opt Options) error {
	all := append(append([]lift.Drawing{}, s.Drawings...), s.Plots...)
	if len(all) == 0 {
		return ErrNothingDrawn
	}
	wide := 2*sheetEdge + all[0].Wide
	if len(all) > 1 {
		wide += sheetGap + all[1].Wide
	}
	head, y := svgHead(s, opt, wide-2*sheetEdge)
	var b strings.Builder
	for i := 0; i < len(all); i += 2 {
		x, tall := sheetEdge, 0.0
		for k, d := range all[i:min(i+2, len(all))] {
			size := fmt.Sprintf(`x="%s" y="%s" width="%s" height="%s"`, mm(x), mm(y), mm(d.Wide), mm(d.High))
			b.WriteString(svgSized(d, fmt.Sprintf("d%d", i+k), size))
			fmt.Fprintf(&b, `<rect class="frame" x="%s" y="%s" width="%s" height="%s"/>`+"\n", mm(x), mm(y), mm(d.Wide), mm(d.High))
			x, tall = x+d.Wide+sheetGap, max(tall, d.High)
		}
		y += tall + sheetGap
	}
	high := y - sheetGap + sheetEdge
	_, err := fmt.Fprintf(w, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s" width="%smm" height="%smm">
<title>%s</title>
<style>
%s.sheet{font-family:"Liberation Sans",Arial,Helvetica,sans-serif}
.name,.verdict{font-weight:bold}
.frame{fill:none;stroke:#000;stroke-width:.18}
</style>
<rect width="100%%" height="100%%" fill="#fff"/>
%s%s</svg>
`, mm(wide), mm(high), mm(wide), mm(high), svgWords("Lift drawings: "+s.Load), markStyle, head, b.String())
	return err
}

// svgHead is the text above the drawings, and where they begin.
func svgHead(s lift.LiftSheet, opt Options, wide float64) (string, float64) {
	var b strings.Builder
	y := sheetEdge - 2
	line := func(class, text string, size float64) {
		y += 1.4 * size
		fmt.Fprintf(&b, `<text class="sheet %s" x="%s" y="%s" font-size="%s">%s</text>`+"\n", class, mm(sheetEdge), mm(y), mm(size), svgWords(text))
	}
	fit := func(text string) []string { return wrap(text, 0, int(wide/(0.6*sheetText))) }
	line("name", "LIFT DRAWINGS: "+s.Load, 4.6)
	var facts []string
	for _, f := range []struct{ name, value string }{{"State", s.State}, {"Drawing", s.Drawing}, {"Datum", s.Datum},
		{"Input", shortHash(s.InputSHA256)}, {"Program", program(opt)}, {"Date", s.Date}} {
		if f.value != "" {
			facts = append(facts, f.name+": "+f.value)
		}
	}
	for _, l := range fit(strings.Join(facts, ".  ")) {
		line("", l, sheetText)
	}
	if s.Verdict.Acceptable {
		line("verdict", "Acceptable as described, at the worst over the ranges stated.", sheetText)
	} else {
		line("verdict", notAcceptable, 4.6)
		for i, reason := range s.Verdict.Reasons {
			for _, l := range fit(fmt.Sprintf("%d. %s", i+1, reason)) {
				line("", l, sheetText)
			}
		}
	}
	for _, l := range fit("A picture beside the lift sheet, not in its place: read the sheet's warnings, assumptions and cautions. Dimensions govern over what is measured on paper.") {
		line("", l, sheetText)
	}
	return b.String(), y + 5
}

func program(opt Options) string {
	if opt.Version == "" {
		return ""
	}
	return "plumbhook " + opt.Version
}
