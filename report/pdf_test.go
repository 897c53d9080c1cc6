package report_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/units"
)

// sheets are the sheets that PDFs are made of here: the fixtures, and one on which
// everything is long and there is too much of all.
func sheets() map[string]lift.LiftSheet {
	all := map[string]lift.LiftSheet{"crowded": crowded()}
	for name, result := range results() {
		if s, ok := result.(lift.LiftSheet); ok {
			all[name] = s
		}
	}
	return all
}

func crowded() lift.LiftSheet {
	s := sheet()
	s.Load, s.Drawing, s.Datum, s.State = longName+", "+longName, longName, longName+longName+longName, longName
	s.Verdict = lift.Verdict{}
	for i := range 40 {
		s.Verdict.Reasons = append(s.Verdict.Reasons, fmt.Sprintf("reason %d: %s", i+1, longName))
		s.Warnings = append(s.Warnings, lift.Warning{Code: "x", Text: fmt.Sprintf("warning %d: %s", i+1, longName), Fix: longName})
		s.Weigh.Parts = append(s.Weigh.Parts, s.Weigh.Parts[1])
	}
	posed := *s.Legs.Posed
	posed.Basis = strings.Repeat("a lower basis because of this and that; ", 30)
	s.Legs.Posed = &posed
	for len(s.Legs.Legs) < 24 {
		leg := s.Legs.Legs[0]
		leg.Pick = longName
		s.Legs.Legs = append(s.Legs.Legs, leg)
	}
	s.Cautions = append(s.Cautions, strings.Repeat("Not checked at all: "+longName+". ", 3), "漢字 and \U0001F3D7 have no letter here, ⌀ has")
	return s
}

func pdf(t *testing.T, s lift.LiftSheet, paper report.Paper, opt report.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.PDF(&b, s, paper, opt))
	return b.Bytes()
}

// poppler runs one of the programs that read a PDF. Where it is not there the test
// is skipped, but not in CI.
func poppler(t *testing.T, doc []byte, program string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not there (Debian: poppler-utils)", program)
		}
		t.Skipf("%s is not there (Debian: poppler-utils)", program)
	}
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	require.NoError(t, os.WriteFile(file, doc, 0o644))
	for i, a := range args {
		args[i] = strings.ReplaceAll(a, "FILE", file)
	}
	out, err := exec.Command(program, args...).CombinedOutput()
	require.NoError(t, err, "%s", out)
	return string(out)
}

// TestPDFIsTheSameEachTime: no clock, no chance, no order of a map.
func TestPDFIsTheSameEachTime(t *testing.T) {
	for name, s := range sheets() {
		one := pdf(t, s, report.A4, report.Options{Version: "v1.2.3"})
		for range 3 {
			assert.True(t, bytes.Equal(one, pdf(t, s, report.A4, report.Options{Version: "v1.2.3"})), name)
		}
		assert.False(t, bytes.Equal(one, pdf(t, s, report.Letter, report.Options{Version: "v1.2.3"})), "%s: paper", name)
	}
}

// TestPDFRefuses what is no figure, and paper that it does not know.
func TestPDFRefuses(t *testing.T) {
	var b bytes.Buffer
	s := sheet()
	s.Weigh.VolumeM3 = math.NaN()
	require.ErrorIs(t, report.PDF(&b, s, report.A4, report.Options{}), lift.ErrProgram)
	require.ErrorContains(t, report.PDF(&b, sheet(), "a3", report.Options{}), "a3")
	assert.Zero(t, b.Len())
}

// TestPDFNamesItselfOnEachPage: load, input, program and page n of m.
func TestPDFNamesItselfOnEachPage(t *testing.T) {
	for name, s := range sheets() {
		pages := strings.Split(strings.TrimSuffix(poppler(t, pdf(t, s, report.A4, report.Options{Version: "v1.2.3"}), "pdftotext", "-layout", "FILE", "-"), "\f"), "\f")
		for i, page := range pages {
			assert.Contains(t, page, fmt.Sprintf("page %d of %d", i+1, len(pages)), name)
			assert.Contains(t, page, "sha256 0123456789abcdef", name)
			assert.Contains(t, page, "plumbhook v1.2.3", name)
			assert.Contains(t, page, s.Load[:12], name)
		}
	}
}

// TestPDFFirstPage has the verdict, the reasons and the figures as the text has
// them, and says where the rest is if there is too much.
func TestPDFFirstPage(t *testing.T) {
	page := func(name string, opt report.Options) string {
		return poppler(t, pdf(t, sheets()[name], report.A4, opt), "pdftotext", "-layout", "-l", "1", "FILE", "-")
	}
	good := page("sheet", report.Options{Show: units.Metric})
	assert.Contains(t, good, "ACCEPTABLE AS DESCRIBED")
	assert.NotContains(t, good, "NOT ACCEPTABLE")
	for _, want := range []string{"4 May 2026", "SK-17 rev B", "950.0 kg", "991.3 kg", "5.714 kN", "640.9 kg", "Prepared", "Checked", "Approved", "The tag on each sling governs."} {
		assert.Contains(t, good, want)
	}
	assert.NotContains(t, good, " lb", "metric alone was asked for")
	us := page("sheet", report.Options{Show: units.US})
	assert.Contains(t, us, "1 285 lbf")
	assert.NotContains(t, us, " kg")

	bad := page("sheet-unsolved", report.Options{})
	assert.Less(t, strings.Index(bad, "NOT ACCEPTABLE"), strings.Index(bad, "WEIGHT AND"))
	assert.NotRegexp(t, `\d kN|\d lbf|\d°`, bad, "there is no pose: nothing looks like a tension")
	assert.Contains(t, page("sheet-no-rules", report.Options{}), "slings are not sized")

	full := page("crowded", report.Options{})
	assert.Regexp(t, `\d+ reasons more: page 2`, full)
	assert.Regexp(t, `\d+ warnings? more: page 2`, full)
	assert.Regexp(t, `\d+ legs more: page \d+`, full)
}

// TestPDFWorking: what a checker goes by follows, with what is not looked at.
func TestPDFWorking(t *testing.T) {
	got := strings.Join(strings.Fields(poppler(t, pdf(t, crowded(), report.A4, report.Options{}), "pdftotext", "-layout", "FILE", "-")), " ")
	for _, want := range []string{"TAKE-OFF", "THE SUM OF THE CG", "reason 40:", "warning 40:", "NOT CHECKED", "CAUTIONS", "ø has", "stands for a letter"} {
		assert.Contains(t, got, want)
	}
	assert.Greater(t, strings.Count(got, "Part, as written"), 2, "the head of a table that goes over pages stands on each")
}

var (
	pageBox = regexp.MustCompile(`<page width="([\d.]+)" height="([\d.]+)">`)
	wordBox = regexp.MustCompile(`<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*)</word>`)
)

// TestPDFKeepsToThePage: no word runs off a page, and on page 1, whatever is on
// it, none runs into another.
func TestPDFKeepsToThePage(t *testing.T) {
	const margin = 12 / 25.4 * 72 // points
	for name, s := range sheets() {
		for paper, high := range map[report.Paper]float64{report.A4: 841.89, report.Letter: 792} {
			for page, text := range strings.Split(poppler(t, pdf(t, s, paper, report.Options{}), "pdftotext", "-bbox", "FILE", "-"), "</page>") {
				size := pageBox.FindStringSubmatch(text)
				if size == nil {
					continue
				}
				assert.InDelta(t, high, number(t, size[2]), 0.1, "%s", paper)
				var words [][4]float64
				for _, w := range wordBox.FindAllStringSubmatch(text, -1) {
					box := [4]float64{number(t, w[1]), number(t, w[2]), number(t, w[3]), number(t, w[4])}
					assert.GreaterOrEqual(t, box[0], margin, "%s, page %d: %s", name, page+1, w[5])
					assert.LessOrEqual(t, box[2], number(t, size[1])-margin, "%s, page %d: %s", name, page+1, w[5])
					assert.LessOrEqual(t, box[3], high-10, "%s, page %d: %s", name, page+1, w[5])
					deep := (box[3] - box[1]) / 4 // boxes reach above and below the letters
					words = append(words, [4]float64{box[0] + 0.5, box[1] + deep, box[2] - 0.5, box[3] - deep})
					if page > 0 {
						continue
					}
					for _, other := range words[:len(words)-1] {
						one := words[len(words)-1]
						meet := one[0] < other[2] && other[0] < one[2] && one[1] < other[3] && other[1] < one[3]
						assert.False(t, meet, "%s, %s: %q runs into another word at %v", name, paper, w[5], other)
					}
				}
			}
		}
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return x
}

// TestPDFFonts: every face is in the file, so that it prints alike everywhere.
func TestPDFFonts(t *testing.T) {
	lines := strings.Split(strings.TrimSpace(poppler(t, pdf(t, crowded(), report.A4, report.Options{}), "pdffonts", "FILE")), "\n")
	require.Greater(t, len(lines), 2)
	for _, l := range lines[2:] {
		assert.Regexp(t, ` yes +(yes|no) +yes `, l, "embedded, and its letters have names")
	}
	info := poppler(t, pdf(t, sheet(), report.A4, report.Options{}), "pdfinfo", "FILE")
	assert.Regexp(t, `Title: +Lift sheet: Skid with pump`, info)
	assert.NotContains(t, info, "Author")
}
