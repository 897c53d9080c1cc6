package takeoff

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// bidReference is the page on the lists of a bid, made from the tables by which
// they are read.
func bidReference() string {
	var b strings.Builder
	b.WriteString("# The lists of a bid\n\n`plumbhook bid` reads two lists, CSV or XLSX, each with one row of headers. A unit stands in the header, such as\n" +
		"`length (m)`, or after each value. Columns whose header begins with `note` are not read. Of a workbook with several\nsheets the one called `pieces`, or `rates`, is read. This page is made from the tables by which they are read.\n")
	table := func(title, words string, list []column) {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n\n| column | other names | holds |\n| --- | --- | --- |\n", title, words)
		for _, c := range list {
			fmt.Fprintf(&b, "| `%s` | %s | %s |\n", c.name, strings.Join(c.also, ", "), c.takes)
		}
	}
	table("Pieces", fmt.Sprintf("`rules` and US or EN may stand in two cells above the header. A row has a `load file`, or an `envelope` with a `weight`,\n"+
		"or an `envelope` with `fill` and `material`. Where nothing is said: a weight by fill is %g %% / +%g %%, a stated weight\n"+
		"is `estimated`, the CG is within %g %% of the shorter side of the middle, picks are %g %% of each side in from the ends.",
		100*fillLow, 100*fillHigh, 100*cgOff, 100*pickInset), pieceColumns)
	table("Rates", "`currency` and its name stand in two cells above the header, or in a column. Each row has a price at least; a price\n"+
		"that is not offered is blank, never 0. A sling or bar with `adjust from` serves all lengths up to `length`; without it, it\n"+
		"is made to the lengths of one set of legs, up to `length`. A sling without a material is held to the worst of its family.", rateColumns)
	return b.String()
}

// TestBidReferenceIsUpToDate holds the page against the tables.
func TestBidReferenceIsUpToDate(t *testing.T) {
	const name = "../docs/bid.md"
	if *update {
		require.NoError(t, os.WriteFile(name, []byte(bidReference()), 0o666))
	}
	got, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.True(t, bidReference() == string(got), "the tables have changed: go test ./takeoff -run TestBidReferenceIsUpToDate -update")
}

// A workbook says the same as the CSV.
func TestRatesOfAWorkbook(t *testing.T) {
	rows := [][]any{{"currency", "EUR"}, {"kind", "family", "size", "rated (t)", "buy", "hire day"}, {"sling", "alloy chain", "8 mm", 2, 210.5, 9}, {"rigger", nil, nil, nil, nil, 410}}
	f := excelize.NewFile()
	require.NoError(t, f.SetSheetName("Sheet1", "rates"))
	for i, row := range rows {
		require.NoError(t, f.SetSheetRow("rates", fmt.Sprintf("A%d", i+1), &row))
	}
	data, err := f.WriteToBuffer()
	require.NoError(t, err)
	got, err := ReadRates(fstest.MapFS{"r.xlsx": {Data: data.Bytes()}}, "r.xlsx", Options{})
	require.NoError(t, err)
	require.Len(t, got.Rows, 2)
	assert.Equal(t, "alloy_chain", got.Rows[0].Family)
	assert.InDelta(t, 2000, float64(got.Rows[0].Rated), 1e-9)
	assert.Equal(t, 210.5, *got.Rows[0].Buy)
	assert.Nil(t, got.Rows[0].Week)
	assert.Equal(t, 410.0, *got.Rows[1].Day)
}
