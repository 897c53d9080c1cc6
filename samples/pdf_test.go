package samples_test

import (
	"bytes"
	"encoding/json"
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
	"plumbhook/takeoff"
	"plumbhook/units"
)

// figuresOf is what of the JSON of a sheet is held against the PDF.
type figuresOf struct {
	Weigh struct {
		Weight struct {
			Best   float64 `json:"best_kg"`
			Sizing float64 `json:"sizing_kg"`
		} `json:"weight"`
	} `json:"weigh"`
	Legs struct {
		Legs []struct {
			Pick  string  `json:"pick"`
			Worst float64 `json:"worst_tension_kn"`
			Angle float64 `json:"from_horizontal_deg"`
		} `json:"legs"`
	} `json:"legs"`
}

// drawn takes a sample down the whole line, with its drawings.
func drawn(t *testing.T, file string) lift.LiftSheet {
	t.Helper()
	load, err := takeoff.Read(os.DirFS("."), file, takeoff.Options{})
	require.NoError(t, err)
	s, err := lift.Sheet(load, lift.Options{Draw: true, Show: units.Metric})
	require.NoError(t, err)
	return s
}

// TestPDFPrintsTheFigures: the text of page 1 of each sample's PDF has the weights
// and each leg's worst tension of the JSON, a need never rounded down, and no
// further off than its fourth digit.
func TestPDFPrintsTheFigures(t *testing.T) {
	for _, sample := range samples {
		t.Run(sample.file, func(t *testing.T) {
			s := drawn(t, sample.file)
			var doc, b bytes.Buffer
			require.NoError(t, report.JSON(&doc, s))
			var want figuresOf
			require.NoError(t, json.Unmarshal(doc.Bytes(), &want))
			require.NotEmpty(t, want.Legs.Legs)
			require.NoError(t, report.PDF(&b, s, report.A4, report.Options{Show: units.Metric, Version: "v1.2.3"}))
			page := words(t, b.Bytes())
			assert.Contains(t, page, "ACCEPTABLE AS DESCRIBED")
			assert.NotContains(t, page, "NOT ACCEPTABLE")
			assert.InEpsilon(t, want.Weigh.Weight.Best, onPage(t, page, `Best +([\d .]+) (k?)g,`), 1e-3)
			sizing := onPage(t, page, `Sized on +([\d .]+) (k?)g:`)
			assert.GreaterOrEqual(t, sizing, want.Weigh.Weight.Sizing*(1-1e-9))
			assert.InEpsilon(t, want.Weigh.Weight.Sizing, sizing, 1e-3)
			for _, leg := range want.Legs.Legs {
				worst := onPage(t, page, regexp.QuoteMeta(leg.Pick)+` .*kN +([\d .]+) (k)N `)
				assert.GreaterOrEqual(t, worst, leg.Worst*(1-1e-9), leg.Pick)
				assert.InEpsilon(t, leg.Worst, worst, 1e-3, leg.Pick)
				assert.Regexp(t, regexp.QuoteMeta(leg.Pick)+` .* `+regexp.QuoteMeta(strconv.FormatFloat(leg.Angle, 'f', 1, 64))+"°;", page)
			}
		})
	}
}

// onPage reads a figure from a page.
func onPage(t *testing.T, page, pattern string) float64 {
	t.Helper()
	found := regexp.MustCompile(pattern).FindStringSubmatch(page)
	require.NotNil(t, found, "no %s in\n%s", pattern, page)
	require.Equal(t, "k", found[2])
	x, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(found[1]), " ", ""), 64)
	require.NoError(t, err)
	return x
}

// words is the text of the first page. Without the program that reads it the test
// is skipped, but not in CI.
func words(t *testing.T, doc []byte) string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("pdftotext is not there (Debian: poppler-utils)")
		}
		t.Skip("pdftotext is not there (Debian: poppler-utils)")
	}
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	require.NoError(t, os.WriteFile(file, doc, 0o644))
	out, err := exec.Command("pdftotext", "-layout", "-l", "1", file, "-").Output()
	require.NoError(t, err)
	return string(out)
}

// TestWorkingAddsUp: the sums that are set with their numbers put in come to the
// CG and to the weight that the sheet states.
func TestWorkingAddsUp(t *testing.T) {
	for _, sample := range samples {
		t.Run(sample.file, func(t *testing.T) {
			s := sheet(t, sample.file)
			cg := s.Weigh.CGSum()
			assert.InDelta(t, s.Weigh.Weight.BestKg, cg.MassKg, 1e-9*cg.MassKg)
			for i := range 3 {
				assert.InDelta(t, s.Weigh.CGM[i], cg.CGM[i], 1e-9)
			}
			balance, ok := s.ForceSum()
			if sample.file == "pipe-spool.yaml" { // held by friction in its bights: legs and weight alone come out to 1e-5 only
				require.False(t, ok, "%+v", balance)
				return
			}
			if s.Legs.Posed == nil || len(s.Legs.Bars) > 0 { // two hooks, or bars between: no such sum
				require.False(t, ok, "%+v", balance)
			} else {
				require.True(t, ok, "%+v", balance)
			}
			for i := range 3 {
				assert.InDelta(t, balance.UpKN[i], balance.SumKN[i], 1e-6*balance.WeightKN)
			}
			_, ok = s.Slings.Counted()
			assert.True(t, ok || s.Slings.Rules == "EN", "%+v", s.Slings.Governing)
		})
	}
}
