package samples_test

import (
	"archive/zip"
	"bytes"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"plumbhook/lift"
	"plumbhook/report"
)

// bare takes the values away from the formulas of a workbook, so that what another
// program shows for them it has worked out itself.
func bare(t *testing.T, file []byte) []byte {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	require.NoError(t, err)
	var b bytes.Buffer
	out := zip.NewWriter(&b)
	value, found := regexp.MustCompile(`</f><v>[^<]*</v>`), 0
	for _, part := range in.File {
		r, err := part.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		found += len(value.FindAll(text, -1))
		w, err := out.Create(part.Name)
		require.NoError(t, err)
		_, err = w.Write(value.ReplaceAll(text, []byte("</f>")))
		require.NoError(t, err)
	}
	require.NoError(t, out.Close())
	require.Greater(t, found, 10, "formulas with values")
	return b.Bytes()
}

// bids are the bids that are written as workbooks.
func bids(t *testing.T) map[string]bidBook {
	t.Helper()
	all := map[string]bidBook{}
	for name, sheet := range map[string]string{"bid": "bid-pieces.csv", "bid-rev-b": "bid-pieces-rev-b.csv"} {
		b := bidOf(t, sheet)
		var out bytes.Buffer
		require.NoError(t, report.BidXLSX(&out, b, report.Options{Version: "v1"}))
		all[name] = bidBook{b, out.Bytes()}
	}
	return all
}

type bidBook struct {
	bid  lift.BidResult
	file []byte
}

var again map[string][]byte // once for all tests

// recalculated are the workbooks of all samples, scenarios and bids as another
// program, LibreOffice Calc, saves them, their formulas worked out by it. It needs
// soffice on the machine, and CI has it.
func recalculated(t *testing.T) map[string][]byte {
	t.Helper()
	office, err := exec.LookPath("soffice")
	if err != nil {
		require.NotEqual(t, "true", os.Getenv("CI"), "CI must have soffice: package libreoffice-calc-nogui")
		t.Skip("no soffice on this machine")
	}
	if again != nil {
		return again
	}
	files := map[string][]byte{}
	for name, b := range books(t) {
		files[name] = b.file
	}
	for name, b := range bids(t) {
		files[name] = b.file
	}
	folder := t.TempDir()
	args := []string{"-env:UserInstallation=file://" + filepath.Join(folder, "profile"), "--headless", "--convert-to", "xlsx", "--outdir", filepath.Join(folder, "out")}
	for name, file := range files {
		path := filepath.Join(folder, name+".xlsx")
		require.NoError(t, os.WriteFile(path, bare(t, file), 0o600))
		args = append(args, path)
	}
	out, err := exec.Command(office, args...).CombinedOutput()
	require.NoError(t, err, "%s", out)
	all := map[string][]byte{}
	for name := range files {
		all[name], err = os.ReadFile(filepath.Join(folder, "out", name+".xlsx"))
		require.NoError(t, err, "%s", out)
	}
	again = all
	return again
}

// TestSpreadsheetRecalculated: LibreOffice works out the formulas of every sample
// and scenario to the figures of the result.
func TestSpreadsheetRecalculated(t *testing.T) {
	theirs := recalculated(t)
	for name, b := range books(t) {
		t.Run(name, func(t *testing.T) {
			f := opened(t, theirs[name])
			checker{t, opened(t, b.file), stored(f), b.sheet}.all()
			part, err := f.GetCellValue("Take-off", "B5")
			require.NoError(t, err)
			assert.Equal(t, b.sheet.Weigh.Parts[1].Name, part, "in the scenarios a part is called =1+1")
		})
	}
}

// TestEveryFormulaRecalculated: LibreOffice comes, for every cell with a formula of
// every workbook, to what the program wrote beside it.
func TestEveryFormulaRecalculated(t *testing.T) {
	theirs, ours, formulas := recalculated(t), map[string][]byte{}, 0
	for name, b := range books(t) {
		ours[name] = b.file
	}
	for name, b := range bids(t) {
		ours[name] = b.file
	}
	for name, file := range ours {
		t.Run(name, func(t *testing.T) {
			found := sameFormulas(t, opened(t, file), opened(t, theirs[name]))
			assert.GreaterOrEqual(t, found, countFormulas(t, file), "none is passed over; one in joined cells is met in each")
			formulas += found
		})
	}
	assert.Greater(t, formulas, 2000)
	t.Logf("%d formulas in %d workbooks", formulas, len(ours))
}

// countFormulas counts them in the parts of the file.
func countFormulas(t *testing.T, file []byte) (n int) {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	require.NoError(t, err)
	for _, part := range in.File {
		r, err := part.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		n += bytes.Count(text, []byte("</f>"))
	}
	return n
}

// sameFormulas holds the value of each formula of a workbook against another's, to
// 1e-9 of it, or of 1e-9 where a figure is the difference of others and nearly 0.
func sameFormulas(t *testing.T, ours, theirs *excelize.File) (formulas int) {
	t.Helper()
	raw := excelize.Options{RawCellValue: true}
	for _, sheet := range ours.GetSheetList() {
		lines, err := ours.GetRows(sheet)
		require.NoError(t, err)
		for row := 1; row <= len(lines); row++ {
			for column := 1; column <= len(lines[row-1]); column++ {
				cell, err := excelize.CoordinatesToCellName(column, row)
				require.NoError(t, err)
				formula, err := ours.GetCellFormula(sheet, cell)
				require.NoError(t, err)
				if formula == "" {
					continue
				}
				formulas++
				want, err := ours.GetCellValue(sheet, cell, raw)
				require.NoError(t, err)
				got, err := theirs.GetCellValue(sheet, cell, raw)
				require.NoError(t, err)
				x, first := strconv.ParseFloat(want, 64)
				y, second := strconv.ParseFloat(got, 64)
				if first != nil || second != nil {
					assert.Equal(t, want, got, "%s!%s: %s", sheet, cell, formula)
					continue
				}
				assert.InDelta(t, x, y, 1e-9*max(1, math.Abs(x)), "%s!%s: %s", sheet, cell, formula)
			}
		}
	}
	return formulas
}

// TestBidRecalculated: the sums of the bid, as LibreOffice works them out, are those
// of the result.
func TestBidRecalculated(t *testing.T) {
	theirs := recalculated(t)
	for name, b := range bids(t) {
		t.Run(name, func(t *testing.T) {
			f, s := opened(t, theirs[name]), b.bid.Totals
			value := stored(f)
			named := func(text string) string {
				found := rows(t, f, "Bid", "A", text)
				require.Len(t, found, 1, text)
				return "B" + strconv.Itoa(found[0])
			}
			for text, want := range map[string]float64{"Crew days": float64(s.CrewDays), "Gear": s.Gear, "Riggers": s.Riggers, "Total": s.Total} {
				assert.InDelta(t, want, value(t, "Bid", named(text)), 1e-9*max(1, want), text)
			}
			for i, g := range b.bid.Gear {
				assert.InDelta(t, g.Price, value(t, "Gear", "G"+strconv.Itoa(5+i)), 1e-9*max(1, g.Price), "%s %s", g.Kind, g.Size)
			}
			for i, p := range b.bid.Pieces {
				assert.InDelta(t, p.GrossKg/b.bid.Crane.CapacityKg, value(t, "Pieces", "M"+strconv.Itoa(5+i)), 1e-9, p.Mark)
			}
		})
	}
}
