package report

import (
	"fmt"
	"html"
	"slices"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/lift"
)

// markStyle is how the marks of a drawing are stroked and filled, in mm: by
// weight and dashes, never by colour, so that it reads in black and white. Lines
// by the widths of ISO 128-2, 0.13 to 0.7 mm (from memory).
const markStyle = `.drawing{background:#fff;color:#000}
.drawing polyline,.drawing polygon,.drawing circle{fill:none;stroke:#000;stroke-width:.25;stroke-linecap:round;stroke-linejoin:round}
.drawing text{font-family:"Liberation Sans",Arial,Helvetica,sans-serif;fill:#000;stroke:#fff;stroke-width:.7;stroke-linejoin:round;paint-order:stroke}
.drawing .m-hole{stroke-width:.18}
.drawing .m-ground{stroke-width:.7}
.drawing .m-leg{stroke-width:.6}
.drawing .m-bar{stroke-width:1.2}
.drawing polyline.m-leg{stroke-linecap:butt}
.drawing circle.m-pick{fill:#fff;stroke-width:.4}
.drawing circle.m-hook{fill:#fff;stroke-width:.6}
.drawing circle.m-cg{fill:#fff;stroke-width:.3}
.drawing polygon.m-cg,.drawing polygon.m-axis,.drawing polygon.m-size{fill:#000;stroke:none}
.drawing .m-region,.drawing .m-size,.drawing .m-axis,.drawing .m-label{stroke-width:.13}
.drawing circle.m-label{fill:#000;stroke:none}
.drawing polyline.m-plumb{stroke-width:.18;stroke-dasharray:4 .8 .6 .8;stroke-linecap:butt}
.drawing polyline.m-scale{stroke-width:.35}
.drawing polyline.m-curve{stroke-width:.5}
.drawing polyline.m-second{stroke-width:.5;stroke-dasharray:2.4 1.2;stroke-linecap:butt}
.drawing circle.m-point{fill:#fff;stroke-width:.3}
.drawing polyline.m-point{stroke-width:.4}
.drawing polygon.m-point{fill:#000;stroke:none}
.drawing polyline.m-limit{stroke-width:.3;stroke-dasharray:.5 .9;stroke-linecap:butt}
.drawing text.m-title,.drawing text.m-leg,.drawing text.m-cg,.drawing text.m-pick{font-weight:bold}
`

// svg renders a drawing to stand in a page, which has [markStyle] among its
// styles. y is turned over: SVG counts down from the top. Places are printed in
// millimetres to a hundredth, the drawing's own.
func svg(d lift.Drawing, id string) string {
	return svgSized(d, id, fmt.Sprintf(`width="%smm" height="%smm"`, mm(d.Wide), mm(d.High)))
}

// svgTitled renders a drawing to stand under a title of its own: without the title
// in it, and the strip that it stands in.
func svgTitled(d lift.Drawing, id string) string {
	const strip = 8.0 // mm
	d.High -= strip
	d.Marks = slices.DeleteFunc(slices.Clone(d.Marks), func(m lift.Mark) bool { return m.Of == "title" })
	return svg(d, id)
}

// svgSized renders a drawing with the attributes that say how large it is.
func svgSized(d lift.Drawing, id, size string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" class="drawing" role="img" aria-labelledby="%s-title %s-words" viewBox="0 0 %s %s" %s>`,
		id, id, mm(d.Wide), mm(d.High), size)
	fmt.Fprintf(&b, `<title id="%s-title">%s</title><desc id="%s-words">%s</desc>`, id, svgWords(d.Title), id, svgWords(d.Alt))
	b.WriteByte('\n')
	for _, m := range d.Marks {
		b.WriteString(svgMark(d, m))
		b.WriteByte('\n')
	}
	b.WriteString("</svg>\n")
	return b.String()
}

// svgWords are words as they stand in a picture: XML refuses a file that holds a
// control character.
func svgWords(text string) string { return html.EscapeString(clean(text)) }

// mm prints a length on paper.
func mm(x float64) string {
	s := strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.2f", x), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func svgMark(d lift.Drawing, m lift.Mark) string {
	lead := ` class="m-` + m.Of + `"`
	if m.Part != "" {
		lead += ` data-part="` + svgWords(m.Part) + `"`
	}
	x, y := mm(m.At[0][0]), mm(d.High-m.At[0][1])
	switch m.Kind {
	case "circle":
		return fmt.Sprintf(`<circle%s cx="%s" cy="%s" r="%s"/>`, lead, x, y, mm(m.Radius))
	case "text":
		return svgText(m, lead, x, y)
	case "area":
		return fmt.Sprintf(`<polygon%s points="%s"/>`, lead, svgPoints(d, m.At))
	}
	line := fmt.Sprintf(`<polyline%s points="%s"/>`, lead, svgPoints(d, m.At))
	if m.Arrows {
		n := len(m.At)
		line += svgArrow(d, m.Of, m.At[0], m.At[1]) + svgArrow(d, m.Of, m.At[n-1], m.At[n-2])
	}
	return line
}

func svgText(m lift.Mark, lead, x, y string) string {
	anchor := map[string]string{"left": "start", "middle": "middle", "right": "end"}[m.Align]
	if m.Turn != 0 {
		lead += fmt.Sprintf(` transform="rotate(%s %s %s)"`, mm(-m.Turn), x, y)
	}
	return fmt.Sprintf(`<text%s x="%s" y="%s" font-size="%s" text-anchor="%s">%s</text>`, lead, x, y, mm(m.Size), anchor, svgWords(m.Text))
}

func svgPoints(d lift.Drawing, at []mgl64.Vec2) string {
	var points []string
	for _, p := range at {
		points = append(points, mm(p[0])+","+mm(d.High-p[1]))
	}
	return strings.Join(points, " ")
}

// svgArrow is the head of an arrow at the end of a line.
func svgArrow(d lift.Drawing, of string, tip, from mgl64.Vec2) string {
	const long, half = 2.2, 0.37
	way := from.Sub(tip)
	if way.Len() < 1e-9 {
		return ""
	}
	way = way.Normalize()
	side := mgl64.Vec2{-way[1], way[0]}.Mul(half)
	back := tip.Add(way.Mul(long))
	return fmt.Sprintf(`<polygon class="m-%s" points="%s"/>`, of, svgPoints(d, []mgl64.Vec2{tip, back.Add(side), back.Sub(side)}))
}
