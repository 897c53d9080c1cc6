package report_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/units"
)

// TestRoundedToTheSafeSide: needs up, capacities down, the flattest angle down.
// The figures were worked out by hand from 1 lb = 0.45359237 kg and 1 lbf =
// 4.4482216152605 N (NIST SP 811, appendix B.8).
func TestRoundedToTheSafeSide(t *testing.T) {
	legs := text(t, results()["legs"], report.Options{})
	assert.Contains(t, legs, "2.831 kN", "2.83094 up")
	assert.Contains(t, legs, "5.714 kN", "5.71301 up")
	assert.Contains(t, legs, "1 285 lbf", "5713.01 N is 1284.33 lbf, up")
	assert.Contains(t, legs, "worst 59.2°", "59.27° from horizontal, down")
	assert.Contains(t, legs, "worst 30.8°", "and so from vertical, up")
	assert.Contains(t, legs, "0.5° at worst", "tilt of 0.41°, up")

	slings := text(t, results()["slings"], report.Options{})
	assert.Contains(t, slings, "640.9 kg (1 413 lb)", "640.82 kg is 1412.77 lb, both up")
	assert.Contains(t, slings, "rated 700.0 kg (1 543 lb)", "700 kg is 1543.24 lb, down")
	assert.Contains(t, slings, "92 % used", "0.91546 up")
	assert.Contains(t, slings, "46 % used", "0.457729 up")

	weigh := text(t, results()["weigh"], report.Options{})
	assert.Contains(t, weigh, "from 919.0 kg (2 026 lb) to 991.3 kg (2 186 lb)", "919.06 kg is 2026.18 lb, down; 991.234 kg is 2185.30 lb, up")
	assert.Contains(t, weigh, "9.807 kN", "1000 kg is 9.80665 kN, up")
}

// TestAnglesSayFromWhere: each angle of a leg says from where it counts.
func TestAnglesSayFromWhere(t *testing.T) {
	got := text(t, results()["legs"], report.Options{})
	assert.Contains(t, got, "45.0° from horizontal (45.0° from vertical)")
	assert.Regexp(t, `Angle from +Angle from`, got)
	assert.Regexp(t, `horizontal +vertical`, got)
}

// TestShownUnits: one system hides the figures of the other.
func TestShownUnits(t *testing.T) {
	metric := text(t, results()["legs"], report.Options{Show: units.Metric})
	assert.NotContains(t, metric[strings.Index(metric, "Leg to"):], "lbf")
	us := text(t, results()["legs"], report.Options{Show: units.US})
	assert.NotContains(t, us[strings.Index(us, "Leg to"):], "kN")
	assert.Contains(t, us, `6' 5-5/16"`, "1.963 m is 77.283 in")
}

// TestWaysOfCounting: they stand side by side by name, and two opposite legs
// are marked where they are no equilibrium.
func TestWaysOfCounting(t *testing.T) {
	got := text(t, results()["legs"], report.Options{})
	for _, want := range []string{"Elastic share", "Any leg slack", "Two opposite", "Rule set", "B and D: not an equilibrium", "A and C: the CG is on the line"} {
		assert.Contains(t, got, want)
	}
	assert.NotContains(t, text(t, results()["legs-two"], report.Options{}), "Elastic share", "statics alone")
}

// TestBasisIsMarked: a figure from memory or from common practice says so, and
// the mark is explained.
func TestBasisIsMarked(t *testing.T) {
	got := text(t, results()["slings"], report.Options{})
	assert.Contains(t, got, "1 400 kg (3 086 lb) [c]")
	assert.Contains(t, got, "hitch: vertical [m]")
	assert.Contains(t, got, "  [m] from memory:")
	assert.Contains(t, got, "  [c] common practice:")
	assert.NotContains(t, text(t, results()["legs"], report.Options{}), "[m]", "nothing is marked, so no legend")
}

// TestProposedPicksSaySo: proposals are geometry only.
func TestProposedPicksSaySo(t *testing.T) {
	for name, want := range map[string]bool{"picks-proposed": true, "sheet-unsolved": true, "sheet": false} {
		got := text(t, results()[name], report.Options{})
		assert.Equal(t, want, strings.Contains(got, "proposed; geometry only: strength of load and lug not checked"), name)
	}
}

// TestSheetOrder: the sheet keeps its order, and ends with lines to sign on.
func TestSheetOrder(t *testing.T) {
	got := text(t, results()["sheet"], report.Options{Version: "v1"})
	at := 0
	for _, want := range []string{"LIFT SHEET", "Skid with pump", "SK-17 rev B", "underside", "sha256 0123456789abcdef", "plumbhook v1", "4 May 2026",
		"Verdict", "WARNINGS", "1  WEIGHT", "2  TAKE-OFF", "3  PICKS", "4  HOW IT HANGS", "Governs", "Basis", "way of counting", "Squeeze", "5  SLINGS", "Gross load",
		"ASSUMED", "CAUTIONS", "Prepared ____", "Checked ____", "Date ____"} {
		next := strings.Index(got[at:], want)
		require.GreaterOrEqual(t, next, 0, "%q does not come where it should", want)
		at += next
	}
}

// TestNamesCantSteerATerminal: what can't be printed is replaced.
func TestNamesCantSteerATerminal(t *testing.T) {
	s := sheet()
	s.Load, s.Weigh.Parts[0].Name, s.Date = "a\x1b[2Jb", "c\x07d", "\u202etoday"
	got := text(t, s, report.Options{})
	assert.NotContains(t, got, "\x1b")
	assert.NotContains(t, got, "\x07")
	assert.NotContains(t, got, "\u202e")
	assert.Contains(t, got, "c\uFFFDd")
}

// TestFailedHasNoText: an input that can't be used has no figures.
func TestFailedHasNoText(t *testing.T) {
	assert.Empty(t, text(t, lift.Fail(errors.New("no")), report.Options{}))
	assert.Error(t, report.Text(&bytes.Buffer{}, 3, report.Options{}), "not a result")
}

// TestJSON: one document, indented, that reads back, with all digits.
func TestJSON(t *testing.T) {
	for name, result := range results() {
		var b bytes.Buffer
		require.NoError(t, report.JSON(&b, result), name)
		decoder := json.NewDecoder(&b)
		var doc map[string]any
		require.NoError(t, decoder.Decode(&doc), name)
		assert.False(t, decoder.More(), "%s: one document", name)
		assert.Equal(t, "plumbhook/1", doc["schema"], name)
	}
	var b bytes.Buffer
	h := four()
	h.HeadroomM = 0.1234567890123456
	require.NoError(t, report.JSON(&b, lift.Hung{Header: header(), Hanging: h}))
	assert.Contains(t, b.String(), "\n  \"headroom_m\": 0.1234567890123456,\n")
	assert.Contains(t, b.String(), `"elastic": {`)
}

// TestJSONRefusesNoFigures: NaN and infinity are never printed, and count as a
// failure of the program.
func TestJSONRefusesNoFigures(t *testing.T) {
	h := four()
	h.HeadroomM = nan
	var b bytes.Buffer
	err := report.JSON(&b, lift.Hung{Header: header(), Hanging: h})
	require.ErrorIs(t, err, lift.ErrProgram)
	assert.Contains(t, err.Error(), "NaN")
	assert.Empty(t, b.String(), "not half a document")

	w := weight()
	w.CGM = geom.Vec{0, 0, nan}
	assert.ErrorIs(t, report.JSON(&b, lift.Weighed{Weight: w}), lift.ErrProgram)
}

// TestSameTextEachTime: maps do not show in the order of the text.
func TestSameTextEachTime(t *testing.T) {
	first := text(t, results()["sheet"], report.Options{})
	for range 20 {
		assert.Equal(t, first, text(t, results()["sheet"], report.Options{}))
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("no room") }

// TestWriteErrors: what the writer says is passed on.
func TestWriteErrors(t *testing.T) {
	assert.EqualError(t, report.Text(broken{}, checked(), report.Options{}), "no room")
	assert.EqualError(t, report.JSON(broken{}, checked()), "no room")
}
