package report_test

import (
	"bytes"
	"encoding/csv"
	"io"
	"reflect"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
)

// bidNamed is a bid every name of which is the token, with what changed in it.
var bidNamed = sync.OnceValues(func() (lift.BidResult, error) {
	files := fstest.MapFS{
		"p.csv":       {Data: []byte(named("rules,EN\nmark,envelope (mm),weight (kg),description,drawing,load file\nNAMEa,2000 x 1000 x 500,900,NAMEb,NAMEc,\nNAMEd,2000 x 1000 x 500,1400,NAMEe,NAMEf,\nNAMEg,,,NAMEh,,whole.yaml\n", token))},
		"r.csv":       {Data: []byte(named("currency,EUR\nkind,family,material,size,rated (t),length (m),adjust from (m),buy,hire day\nsling,alloy chain,grade 8,NAMEa,2,4,0.5,200,8\nshackle,,NAMEb,NAMEc,3.25,,,14,\ncrane,,,NAMEd,6,,,,900\nrigger,,,NAMEe,,,,,400\n", token))},
		"whole.yaml":  {Data: []byte(named(strings.ReplaceAll(hostileLoad, "sling stock: rack.csv\n", ""), token))},
		"whole2.yaml": {Data: []byte(named("load: 'NAMEa'\nunits: mm\nparts: [{name: 'NAMEb', weight: 5 kg, at: [0, 0, 0]}]\n", token))},
	}
	rows, err := takeoff.ReadPieces(files, "p.csv", takeoff.Options{})
	if err != nil {
		return lift.BidResult{}, err
	}
	rates, err := takeoff.ReadRates(files, "r.csv", takeoff.Options{})
	if err != nil {
		return lift.BidResult{}, err
	}
	bid := func(whole string) (lift.BidResult, error) {
		var pieces []lift.BidPiece
		for _, row := range rows {
			p := lift.BidPiece{Mark: row.Mark, Quantity: row.Quantity, File: token + ".yaml", Rough: row.LoadFile == "", Assumed: row.Assumed, Inputs: row.Inputs,
				Open: func() (*takeoff.Load, error) { return row.Load, row.Err }}
			if row.LoadFile != "" {
				p.Open = func() (*takeoff.Load, error) { return takeoff.Read(files, whole, takeoff.Options{}) }
				p.Inputs = takeoff.Inputs(files, whole, takeoff.Options{})
			}
			pieces = append(pieces, p)
		}
		pieces = append(pieces, lift.BidPiece{Mark: "lost " + token, File: token, Open: func() (*takeoff.Load, error) {
			return nil, takeoff.Problems{{File: token, Text: token, Fix: token}}
		}})
		return lift.Bid(pieces, lift.BidOptions{Rates: rates})
	}
	was, err := bid("whole2.yaml")
	if err != nil {
		return was, err
	}
	now, err := bid("whole.yaml")
	changes := lift.Compare(was, now, token)
	now.Changes, now.RatesFile = &changes, token
	return now, err
})

// TestBidNamesSteerNothing does for a bid what TestNamesSteerNothing does for a sheet.
func TestBidNamesSteerNothing(t *testing.T) {
	plain, err := bidNamed()
	require.NoError(t, err)
	require.NotNil(t, plain.Changes)
	with := func(text string) map[string][]byte {
		b := plain
		poison(reflect.ValueOf(&b).Elem(), token, text)
		all := map[string][]byte{}
		for form, write := range map[string]func(io.Writer) error{
			"text": func(w io.Writer) error { return report.Text(w, b, report.Options{Version: text}) },
			"compare": func(w io.Writer) error {
				return report.Text(w, lift.Compared{Header: b.Header, BidChanges: *b.Changes}, report.Options{})
			},
			"JSON": func(w io.Writer) error { return report.JSON(w, b) },
			"CSV":  func(w io.Writer) error { return report.BidCSV(w, b) },
			"XLSX": func(w io.Writer) error { return report.BidXLSX(w, b, report.Options{Version: text}) },
			"HTML": func(w io.Writer) error { return report.BidHTML(w, b, "./sheets", report.Options{Version: text}) },
		} {
			var out bytes.Buffer
			require.NoError(t, write(&out), form)
			all[form] = out.Bytes()
		}
		return all
	}
	for name, text := range payloads {
		t.Run(name, func(t *testing.T) {
			mild, wild := with(tame(text)), with(text)
			for form, out := range wild {
				printable(t, form, out)
				narrow(t, form, out)
			}
			assert.Equal(t, bones(t, mild["HTML"], false), bones(t, wild["HTML"], false))
			assert.Equal(t, formulas(t, mild["XLSX"]), formulas(t, wild["XLSX"]))
			noFormulas(t, wild["CSV"], mild["CSV"])
		})
	}
	for name, text := range steering {
		t.Run(name, func(t *testing.T) {
			all := with(text)
			for form, out := range all {
				printable(t, form, out)
			}
			noFormulas(t, all["CSV"], with(tame("x"))["CSV"])
		})
	}
}

// noFormulas sees that a CSV file has as many rows and columns as another, and that no
// cell of it is a formula to a spreadsheet.
func noFormulas(t *testing.T, out, like []byte) {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(out)).ReadAll()
	require.NoError(t, err)
	want, err := csv.NewReader(bytes.NewReader(like)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, len(want))
	for _, row := range rows {
		require.Len(t, row, len(want[0]))
		for _, cell := range row {
			first, _ := strings.CutPrefix(strings.TrimLeft(cell, " \t\r\n\u00a0"), "")
			if first != "" {
				assert.NotContains(t, "=+-@＝＋－＠", string([]rune(first)[:1]), "%q", cell)
			}
		}
	}
}

// TestEveryTextIsPlain: nor do the texts and documents of the other commands hold what
// steers a terminal.
func TestEveryTextIsPlain(t *testing.T) {
	whole, err := tokenSheet()
	require.NoError(t, err)
	load, err := takeoff.ReadFrom(strings.NewReader(named(strings.ReplaceAll(hostileLoad, "sling stock: rack.csv\n", ""), token)), token, nil, takeoff.Options{As: "yaml"})
	require.NoError(t, err)
	checked, err := lift.Check(load)
	require.NoError(t, err)
	dip, err := lift.DipTable(load, token+" g", 10, lift.Options{})
	require.NoError(t, err)
	for what, result := range map[string]any{
		"check": &checked, "dip": &dip, "weigh": &lift.Weighed{Header: whole.Header, Weight: whole.Weigh}, "legs": &lift.Hung{Header: whole.Header, Hanging: whole.Legs},
		"picks": &lift.Picked{Header: whole.Header, SheetPicks: whole.Picks}, "slings": &lift.Slung{Header: whole.Header, Sizing: *whole.Slings}, "failed": &lift.Failed{Header: whole.Header},
	} {
		for name, text := range steering {
			poisoned := reflect.New(reflect.TypeOf(result).Elem())
			poisoned.Elem().Set(reflect.ValueOf(result).Elem())
			poison(poisoned.Elem(), token, text)
			var words, doc bytes.Buffer
			require.NoError(t, report.Text(&words, poisoned.Elem().Interface(), report.Options{Version: text}))
			require.NoError(t, report.JSON(&doc, poisoned.Elem().Interface()))
			printable(t, what+", "+name, words.Bytes())
			narrow(t, "text", words.Bytes())
			printable(t, "JSON", doc.Bytes())
		}
	}
}
