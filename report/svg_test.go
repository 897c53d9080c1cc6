package report_test

import (
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/report"
)

// drawnSheet has one drawing with a mark of each kind.
func drawnSheet(h lift.Header) lift.LiftSheet {
	return lift.LiftSheet{Header: h, Drawings: []lift.Drawing{{
		View: "plan", Title: `Plan <of "it">`, Alt: "A & B", Wide: 180, High: 100, Scale: 20,
		Marks: []lift.Mark{
			{Kind: "line", Of: "part", At: []mgl64.Vec2{{10, 20}, {30.126, 40}, {10, 20}}, Part: `frame "1"`},
			{Kind: "line", Of: "size", At: []mgl64.Vec2{{10, 10}, {50, 10}}, Arrows: true},
			{Kind: "area", Of: "cg", At: []mgl64.Vec2{{1, 2}, {3, 4}, {5, 6}}},
			{Kind: "circle", Of: "pick", At: []mgl64.Vec2{{25, 75}}, Radius: 0.9, Part: "A"},
			{Kind: "text", Of: "leg", At: []mgl64.Vec2{{60, 70}}, Text: "A ≤ 5 kN <", Size: 2.8, Align: "right"},
			{Kind: "text", Of: "size", At: []mgl64.Vec2{{5, 50}}, Text: "up", Size: 2.8, Align: "middle", Turn: 90},
		},
	}}}
}

func svgOf(t *testing.T, s lift.LiftSheet) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, report.SVG(&b, s, report.Options{Version: "1.0"}))
	return b.String()
}

// TestSVGByHand: y counts down from the top of 100 mm, places are to a hundredth.
func TestSVGByHand(t *testing.T) {
	got := svgOf(t, drawnSheet(header()))
	for _, want := range []string{
		`<polyline class="m-part" data-part="frame &#34;1&#34;" points="10,80 30.13,60 10,80"/>`,
		`<polyline class="m-size" points="10,90 50,90"/><polygon class="m-size" points="10,90 12.2,89.63 12.2,90.37"/><polygon class="m-size" points="50,90 47.8,90.37 47.8,89.63"/>`,
		`<polygon class="m-cg" points="1,98 3,96 5,94"/>`,
		`<circle class="m-pick" data-part="A" cx="25" cy="25" r="0.9"/>`,
		`<text class="m-leg" x="60" y="30" font-size="2.8" text-anchor="end">A ≤ 5 kN &lt;</text>`,
		`<text class="m-size" transform="rotate(-90 5 50)" x="5" y="50" font-size="2.8" text-anchor="middle">up</text>`,
		`<title id="d0-title">Plan &lt;of &#34;it&#34;&gt;</title><desc id="d0-words">A &amp; B</desc>`,
		"Acceptable as described", "Program: plumbhook 1.0",
	} {
		assert.Contains(t, got, want)
	}
	assert.NotContains(t, got, "NOT ACCEPTABLE")
	assert.NotContains(t, strings.ReplaceAll(got, "http://www.w3.org/2000/svg", ""), "http", "no address of anything")
}

// TestSVGOfARefusedLift says so, with the reasons.
func TestSVGOfARefusedLift(t *testing.T) {
	got := svgOf(t, drawnSheet(refused(header(), "the CG is outside the picks")))
	assert.Contains(t, got, ">NOT ACCEPTABLE<")
	assert.Contains(t, got, "1. the CG is outside the picks")
	assert.NotContains(t, got, "Acceptable as described")
}

func TestSVGWithoutDrawings(t *testing.T) {
	require.Error(t, report.SVG(io.Discard, lift.LiftSheet{Header: header()}, report.Options{}))
}

// TestSVGIsXML from its beginning to its end.
func TestSVGIsXML(t *testing.T) {
	d := xml.NewDecoder(strings.NewReader(svgOf(t, drawnSheet(header()))))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		if e, ok := token.(xml.StartElement); ok && e.Name.Local == "circle" {
			for _, a := range e.Attr {
				if strings.HasPrefix(a.Name.Local, "c") && a.Name.Local != "class" {
					_, err := strconv.ParseFloat(a.Value, 64)
					require.NoError(t, err)
				}
			}
		}
	}
}
