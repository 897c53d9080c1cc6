package lift

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzReadPublished reads anything as a table of published values.
func FuzzReadPublished(f *testing.F) {
	const columns = "name,question,load,figure,value,tolerance,source,basis\n"
	for _, row := range []string{"a,weigh,\"load: a\",weight.best_kg,5,1e-9,handbook,read\n", "a,weigh,x,y,nan,1,s,read\n", "a,weigh,x,y,1,inf,s,read\n", "a,b\n", "", "\"", ",,,,1,1,s,read\n"} {
		f.Add(columns + row)
	}
	f.Add("")
	f.Fuzz(func(t *testing.T, text string) {
		list, err := ReadPublished(strings.NewReader(text))
		if err != nil {
			require.Contains(t, err.Error(), "published values")
			return
		}
		for _, p := range list {
			if p.Name == "" || p.Source == "" || math.IsNaN(p.Value) || math.IsInf(p.Value, 0) || !(p.Tolerance > 0) || math.IsInf(p.Tolerance, 0) {
				t.Fatalf("no value to hold against: %+v", p)
			}
		}
	})
}

// FuzzCompare holds anything that reads as a former bid against one of now: what is
// missing or odd in it is no reason to end.
func FuzzCompare(f *testing.F) {
	now, err := Bid([]BidPiece{bidPiece("A", skid(20, 300)), bidPiece("B", skid(30, 500))}, BidOptions{Rates: ratesOf(f, someRates)})
	if err != nil {
		f.Fatal(err)
	}
	for _, p := range now.Pieces[:1] {
		whole, err := json.Marshal(BidResult{Header: Header{Schema: Schema}, Pieces: []BidRow{p}, Gear: now.Gear[:1], Totals: now.Totals})
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(whole))
	}
	f.Add(`{"schema": "plumbhook/1", "pieces": [{"mark": "A"}, {"mark": "A", "quantity": -1, "lengths_m": null}], "gear": [{}], "crane": {}}`)
	f.Add(`{}`)
	f.Add(`{"pieces": [{"mark": "B", "inputs": [{"path": "", "value": ""}, {}]}], "totals": {"complete": true, "priced": true}}`)
	f.Fuzz(func(t *testing.T, text string) {
		var was BidResult
		if json.Unmarshal([]byte(text), &was) != nil {
			return
		}
		for _, changes := range []BidChanges{Compare(was, now, "was.json"), Compare(now, was, "now.json"), Compare(was, was, "")} {
			if _, err := json.Marshal(changes); err != nil {
				t.Fatal(err)
			}
		}
	})
}
