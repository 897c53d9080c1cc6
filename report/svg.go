package report

import (
	"fmt"
	"html"
	"strings"

	"plumbhook/lift"
)

// svg renders a drawing. y is turned over: SVG counts down from the top. Places
// are printed in millimetres to a hundredth, the drawing's own.
func svg(d lift.Drawing, id string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" class="drawing" role="img" aria-labelledby="%s-title %s-words" viewBox="0 0 %s %s" width="%smm" height="%smm">`,
		id, id, mm(d.Wide), mm(d.High), mm(d.Wide), mm(d.High))
	fmt.Fprintf(&b, `<title id="%s-title">%s</title><desc id="%s-words">%s</desc>`, id, html.EscapeString(d.Title), id, html.EscapeString(d.Alt))
	b.WriteByte('\n')
	for _, m := range d.Marks {
		b.WriteString(svgMark(d, m))
		b.WriteByte('\n')
	}
	b.WriteString("</svg>\n")
	return b.String()
}

// mm prints a length on paper.
func mm(x float64) string {
	s := strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.2f", x), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func svgMark(d lift.Drawing, m lift.Mark) string {
	class := "m-" + m.Of
	part := ""
	if m.Part != "" {
		part = ` data-part="` + html.EscapeString(m.Part) + `"`
	}
	x, y := m.At[0][0], d.High-m.At[0][1]
	switch m.Kind {
	case "circle":
		return fmt.Sprintf(`<circle class="%s"%s cx="%s" cy="%s" r="%s"/>`, class, part, mm(x), mm(y), mm(m.Radius))
	case "text":
		anchor := map[string]string{"left": "start", "middle": "middle", "right": "end"}[m.Align]
		return fmt.Sprintf(`<text class="%s"%s x="%s" y="%s" font-size="%s" text-anchor="%s">%s</text>`, class, part, mm(x), mm(y), mm(m.Size), anchor, html.EscapeString(m.Text))
	}
	var at []string
	for _, p := range m.At {
		at = append(at, mm(p[0])+","+mm(d.High-p[1]))
	}
	kind, extra := "polyline", ""
	if m.Kind == "area" {
		kind = "polygon"
	}
	if m.Arrows {
		extra = ` marker-start="url(#arrow)" marker-end="url(#arrow)"`
	}
	return fmt.Sprintf(`<%s class="%s"%s%s points="%s"/>`, kind, class, part, extra, strings.Join(at, " "))
}
