package report_test

import "plumbhook/lift"

// hardware is that of four legs on shackles, one of them on hardware that is there.
// 1.0 t of EN 13889 has a pin of 11 mm and a bow of 10; M12 of DIN 580:2003 is rated
// 340 kg, 240 at 45°: 640.82 × 340/240 = 907.83.
func hardware() *lift.Hardware {
	choice := func(seat string) []lift.ShackleChoice {
		return []lift.ShackleChoice{{Grade: "grade 6", Size: "1.0 t", RatedKg: 1000, RequiredKg: 640.82, Utilisation: 0.64082, PinM: 0.011, BowM: 0.010, Seat: seat,
			Source: "EN 13889", Basis: "from memory"}}
	}
	within, over := true, false
	lug := func(pick string, allowed float64, ok *bool) lift.LugCheck {
		return lift.LugCheck{Pick: pick, HoleM: 0.012, PinM: 0.011, PullKN: 6.284, OutDeg: ptr(6.2), Missing: []string{}, Category: "B", Nd: 3, Governs: "bearing of the pin", Within: ok,
			Limits: []lift.LugLimit{{Name: "tension through the hole", AllowedKN: 20, Utilisation: 0.3142}, {Name: "bearing of the pin", AllowedKN: allowed, Utilisation: 6.284 / allowed}},
			Source: "ASME BTH-1 3-3.3, as reprinted", Basis: "to be verified by an engineer", Covers: "outline, to be verified by an engineer: the plate round its hole"}
	}
	none := lug("D", 1, nil)
	none.Missing, none.OutDeg = []string{"width", "edge"}, nil
	return &lift.Hardware{
		Shackles: []lift.LegShackle{
			{Pick: "A", PullKN: 5.71301, OffDeg: ptr(0.0), HoleM: 0.012, Choices: choice("snug")},
			{Pick: longName, PullKN: 5.71301, OffDeg: ptr(6.2), HoleM: 0.010, Choices: choice("too large")},
			{Pick: "C", PullKN: 5.71301, Choices: choice("")},
			{Pick: "D", PullKN: 5.71301, Choices: []lift.ShackleChoice{}, Text: "none at the load: both ends of the basket are at the hook"},
		},
		Eyes: []lift.EyeOnPin{{Family: "wire_rope", Material: "steel core, steel ferrule", Size: "9 mm", LeastM: 0.018, BowM: 0.010, Source: "EN 13414-1:2003", Basis: "read"},
			{Family: "wire_rope", Material: "fibre core", Size: "5 mm", LeastM: 0.010, BowM: 0.010, Enough: true, Source: "EN 13414-1:2003", Basis: "read"}},
		Link: &lift.Link{Eyes: 4, RequiredKg: 1100, IntermediateKg: 1025.312, IncludedDeg: 60.04, HookDeg: 90, ShackleDeg: 120,
			Text: "4 eyes: a master link with intermediate links, two eyes in each", Source: "hook: no source", Basis: "common practice"},
		Fittings: []lift.FittingCheck{{Pick: longName, Kind: "eyebolt", Size: "M12", Grade: "C15E", PullKN: 5.71301, OffDeg: ptr(30.73), RatedKg: 340, RequiredKg: 907.83, Utilisation: 2.67,
			Why: "907.9 kg is needed in line, and it is rated 340 kg", Factors: []lift.Factor{{Name: "dynamic", Value: 1.1, Source: "stated", Basis: "stated"}},
			Cautions: []string{"the shoulder sits flush on the face"}, Source: "DIN 580:2003 Annex A Table A.1", Basis: "read", Note: "as reprinted"},
			{Pick: "C", Kind: "shackle", Size: "2.0 t", Grade: "grade 6", PullKN: 5.71301, RatedKg: 2000, RequiredKg: 640.82, Utilisation: 0.32041, Holds: true, Factors: []lift.Factor{},
				Cautions: []string{}, Source: "EN 13889", Basis: "from memory"}},
		Lugs:   []lift.LugCheck{lug("A", 7, &within), lug(longName, 5, &over), none},
		Weight: "the weight of the shackles at the load is not known here: ask",
	}
}

// slungOnHardware is a sizing with all that may stand under HARDWARE.
func slungOnHardware() lift.Slung {
	s := sizing()
	s.Hardware = hardware()
	s.Gross.HardwareKg = 1.27
	s.Gross.TotalKg += 1.27
	return lift.Slung{Header: refused(header(), "pick C: eyebolt M12 is too small"), Sizing: s}
}
