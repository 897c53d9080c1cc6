package report_test

import "plumbhook/lift"

// fromRack is a sizing with a list of own slings: a set, one that lacks a sling and
// one that may not be used.
func fromRack() lift.Sizing {
	s := sizing()
	s.Stock = &lift.SlingStock{File: "rack.csv", Inspection: "held against 2026-05-04: at least every 12 months", Sets: []lift.StockSet{
		{Family: "alloy_chain", Material: "grade 8", Use: "care", Complete: true, Size: "8 mm", RatedKg: 2000, RequiredKg: 640.82, Utilisation: 0.32041, WeightKg: 10.96,
			Marks: []lift.StockMark{{Pick: "A", Mark: "K1", LengthM: 1.963}, {Pick: "B", Mark: "K2 (1 of 3)", LengthM: 1.963}, {Pick: "C", Mark: "K2 (2 of 3)", LengthM: 1.963},
				{Pick: "D", Mark: "K7", LengthM: 2.027, Steps: 2}},
			Missing: []string{}, Reasons: []string{"painted surface (common practice, no source): pad it", "K3: not chosen: last inspected 2025-03-02, more than 12 months before 2026-05-04"}},
		{Family: "synthetic_web", Material: "", Use: "yes", Size: "60 mm", RatedKg: 2000, RequiredKg: 640.82, Utilisation: 0.32041,
			Marks:   []lift.StockMark{{Pick: "A", Mark: "G1", LengthM: 1.96}},
			Missing: []string{"needs 4 of 60 mm, has 1 (G1)", "leg B takes a sling of 1.963 m: none is left"}, Reasons: []string{}},
		{Family: "round_sling", Material: "polyester", Use: "no", Marks: []lift.StockMark{}, Missing: []string{}, Reasons: []string{"400 °C (752 °F) is above 100 °C (EN 1492-2 scope)"}},
	}}
	return s
}
