package report_test

import (
	"bytes"
	"errors"
	"io"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/rig"
	"plumbhook/takeoff"
)

// sheetSeeds are small loads, each of which goes another way through the program.
var sheetSeeds = []string{`
load: plain
units: m
material: structural steel
rules: EN
parts: [{name: plate, plate: 2 x 1 x 0.02, center: [1, 0.5, 0]}]
picks: [{name: A, at: [0.2, 0.2, 0]}, {name: B, at: [1.8, 0.2, 0]}, {name: C, at: [1.8, 0.8, 0]}, {name: D, at: [0.2, 0.8, 0]}]
hook: {above: picks, height: 2}
legs: {lengths: level}
`, `
load: a bare weight
units: mm
rules: US
parts: [{name: bar, weight: 2000 kg, center: [1200, 0, -300]}]
picks: [{name: left, at: [0, 0, 0]}, {name: right, at: [3000, 0, 0]}]
legs: {lengths: 2500}
`, `
load: no picks
units: ft
material: structural steel
parts: [{box: 4 x 3 x 2, corner: [0, 0, 0], cuts: [{cylinder: {diameter: 1, height: 2}, center: [2, 1.5, 1]}]}]
`, `
load: under a bar
units: m
material: structural steel
rules: EN
parts: [{name: slab, box: 4 x 2 x 0.1, center: [0, 0, 0.05]}]
picks: [{name: left, at: [-1.5, 0, 0.1]}, {name: right, at: [1.5, 0, 0.1]}]
rig: {bar: {kind: spreader, weight: 100 kg, length: 3, height: 1, hook: 2, holds: [left, right]}}
`, `
load: on two hooks
units: m
rules: EN
parts: [{name: beam, weight: 1000 kg, box: 4 x 0.3 x 0.3, center: [2, 0, 0]}]
picks: [{name: A, at: [0.5, 0, 0.15]}, {name: B, at: [3.5, 0, 0.15]}]
rig: {two hooks: {head: A, tail: B, turn: {from: 0, to: 20}}}
`, `
load: a tank
units: m
material: structural steel
rules: US
parts: [{name: tank, tube: {inside: 1, wall: 0.01, length: 2}, along: x, at: [0, 0, 0.5], contents: {fluid: water, depth: 0.3, inside: {cylinder: {diameter: 1, height: 2}, along: x, at: [0, 0, 0.5]}}}]
picks: [{name: A, at: [0.3, 0, 1]}, {name: B, at: [1.7, 0, 1]}]
hitch: {kind: basket, around: 1.02, along: x, friction: 0.2}
wind: {speed: 8 m/s}
factors: {dynamic: 1.2}
`}

// FuzzSheet goes the whole way from a load file to each form of the sheet: whatever
// the file says, the program ends with problems of the file or with a sheet that each
// form can print, and never with a fault of its own.
func FuzzSheet(f *testing.F) {
	for _, seed := range sheetSeeds {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 4000 {
			t.Skip("long files are the reader's test")
		}
		if fault := wholeWay(text, true); fault != "" {
			t.Fatalf("%s\n%s", fault, text)
		}
	})
}

// TestSheetOfOddNumbers puts odd figures in the place of those of small loads, as a slip
// of the pen or of a unit does.
func TestSheetOfOddNumbers(t *testing.T) {
	figure := regexp.MustCompile(`\b\d+(\.\d+)?\b`)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(sheetSeeds).Draw(t, "load")
		text = figure.ReplaceAllStringFunc(text, func(was string) string {
			if rapid.IntRange(0, 9).Draw(t, "keep") > 0 {
				return was
			}
			return rapid.SampledFrom([]string{"0", "-" + was, was + "e-6", was + "e-3", was + "e3", was + "e7", "0.0001", "1e-300", "1e300", "7"}).Draw(t, "odd")
		})
		if fault := wholeWay(text, false); fault != "" {
			t.Fatalf("%s\n%s", fault, text)
		}
	})
}

// wholeWay goes from the text of a load file to each form of the sheet, and says what
// is wrong with the program; empty: nothing. Pages and books, which take longer, are
// left out where they are not asked for.
func wholeWay(text string, pages bool) string {
	load, err := takeoff.ReadFrom(strings.NewReader(text), "fuzz.yaml", fstest.MapFS{}, takeoff.Options{As: "yaml"})
	if err != nil || len(load.Parts) > 20 {
		return ""
	}
	s, err := lift.Sheet(load, lift.Options{Draw: true, Solids: pages, Explain: pages})
	var problems takeoff.Problems
	switch {
	case errors.As(err, &problems), errors.Is(err, rig.ErrDisagree):
		return "" // two methods that disagree print no tensions: as it must be
	case err != nil:
		return err.Error()
	}
	opt := report.Options{}
	for name, write := range map[string]func(io.Writer) error{
		"text": func(w io.Writer) error { return report.Text(w, s, opt) },
		"JSON": func(w io.Writer) error { return report.JSON(w, s) },
		"HTML": func(w io.Writer) error { return report.HTML(w, s, opt) },
		"XLSX": func(w io.Writer) error { return report.XLSX(w, s, opt) },
		"PDF":  func(w io.Writer) error { return report.PDF(w, s, report.A4, opt) },
		"SVG":  func(w io.Writer) error { return report.SVG(w, s, opt) },
	} {
		if !pages && (name == "HTML" || name == "XLSX" || name == "PDF") {
			continue
		}
		var b bytes.Buffer
		if err := write(&b); err != nil && !errors.Is(err, report.ErrNothingDrawn) {
			return name + ": " + err.Error()
		}
		if (name == "text" || name == "HTML") && strings.Contains(b.String(), "NaN") {
			return "NaN in " + name
		}
	}
	return ""
}
