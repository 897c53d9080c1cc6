package report_test

import (
	"math"

	"plumbhook/density"
	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/report"
)

// The results here are made by hand. Their figures hang together as those of a
// real lift would: 1000 kg is 9.80665 kN, and on four equal legs at 60° from the
// horizontal a leg carries a quarter of it over sin 60°, 2.831 kN, or a half if
// its neighbours are slack, 5.662 kN (statics).

// longName is not ASCII, and longer than a line has room for.
const longName = "Kühlwasser-Zwischenbehälter „Größe 4“ für die Außenaufstellung, mit Rohrstutzen und Bühne"

func header(warnings ...lift.Warning) lift.Header {
	return lift.Header{
		Schema: lift.Schema, Load: "Skid with pump", Drawing: "SK-17 rev B", Datum: "underside, front left corner",
		InputSHA256: "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef",
		Verdict:     lift.Verdict{Acceptable: true, Reasons: []string{}}, Warnings: warnings, Errors: []lift.Problem{},
		Assumptions: []string{"no hitch in the load file: vertical (a straight leg from hook to pick)"},
	}
}

func refused(h lift.Header, reasons ...string) lift.Header {
	h.Verdict = lift.Verdict{Acceptable: false, Reasons: reasons}
	return h
}

var (
	noAllowances = lift.Warning{Code: "no-allowances", Text: "no weld metal, paint, bolts or other extras are in the weight unless they are parts of the take-off",
		Fix: "add what is missing as `weight` parts, or raise the planning factor"}
	cgAbovePick = lift.Warning{Code: "cg-above-pick", Text: "the CG is 195.8 mm (7-11/16\") above pick A", Fix: "pick the load up higher, or see the stability figures"}
)

func weight() lift.Weight {
	return lift.Weight{
		VolumeM3:    0.0879,
		Weight:      lift.WeightRange{BestKg: 950, LowKg: 919.06, HighKg: 991.234, PlanningKg: 1000, SizingKg: 1000, Rule: "best weight × 1.05263, the planning factor of the load file"},
		CGM:         geom.Vec{1.2, 0.6, 0.4125},
		CGRangeM:    lift.Box{Min: geom.Vec{1.188, 0.592, 0.4}, Max: geom.Vec{1.212, 0.608, 0.425}},
		InertiaKgm2: [3][3]float64{{120.5, 1e-13, -3.25}, {1e-13, 480.25, 0}, {-3.25, 0, 12345.678}},
		BoxM:        lift.Box{Min: geom.Vec{0, 0, 0}, Max: geom.Vec{2.4, 1.2, 1.8}},
		Parts: []lift.Part{
			{Name: "base plate", Kind: "plate", Written: "2400 x 1200 x 20", Count: 1, VolumeM3: 0.0576, MassKg: 452.16, LowKg: 447.64, HighKg: 465.73,
				CGM: geom.Vec{1.2, 0.6, 0.01}, Material: "carbon steel", Basis: "volume × 7850 kg/m³ (490.1 lb/ft³) of carbon steel; -1 % / +3 %: as written"},
			{Name: longName, Kind: "tube", Written: `outside: 3' 6-1/2", wall: 3/8", height: 5'`, Count: 2, VolumeM3: 0.0303, MassKg: 237.84, LowKg: 235.46, HighKg: 244.98,
				CGM: geom.Vec{-12.3456, 0.6, 0.8}, Material: "carbon steel", Basis: "volume × 7850 kg/m³ (490.1 lb/ft³) of carbon steel; -1 % / +3 %: as written"},
			{Name: "pump", Kind: "weight", Written: "260 kg", Count: 1, MassKg: 260, LowKg: 235.96, HighKg: 280.524,
				CGM: geom.Vec{1.2, 0.6, 0.76}, Basis: "given as 260 kg; ±5 %: stated by its maker (common practice, no source)"},
		},
		Allowances: []lift.Allowance{},
	}
}

func ptr[T any](v T) *T { return &v }

// four hangs on four equal legs at 60° from the horizontal.
func four() lift.Hanging {
	each := func(kN float64) lift.Forces { return lift.Forces{"A": kN, "B": kN, "C": kN, "D": kN} }
	h := lift.Hanging{
		Solved: true, SizingKg: 1000, PlanningKg: 1000, Lengths: "cut for the load to hang level, the flattest leg at 60.0° from horizontal",
		Stable: true, StableWorst: true,
	}
	h.Posed = &lift.Posed{
		HookM: geom.Vec{1.2, 0.6, 3.5}, HeadroomM: 1.7, HeadroomWorstM: 1.72, TiltWorstDeg: 0.41,
		Stability: lift.Stability{MarginM: 2.1, FirstSlackShiftM: ptr(0.52), FirstSlackPick: "C", Toward: &geom.Vec{-0.6, 0.8, 0},
			Text: "stable: leg C goes slack if the CG is 520 mm (1' 8-1/2\") out toward −x and +y; the CG could rise 2.100 m (6' 10-11/16\") before the load rolls"},
		Governing: "A", GoverningCase: "CG at low x low y, legs as stated, at the sizing weight",
		Basis: "any leg slack: each leg's most in the hung pose, whichever others carry nothing", LeastAngleDeg: 45,
		Sharing: lift.Sharing{Elastic: each(2.83094), AnyLegSlack: each(5.66188), TwoOpposite: each(5.66188), RuleSet: each(5.39316),
			Rule: "EN: mode factor of the set 2.1 (EN 818-4; as reprinted)"},
		Squeeze:     each(1.41547),
		Diagonals:   []lift.Diagonal{{Picks: [2]string{"A", "C"}, OffM: 0, AnEquilibrium: true}, {Picks: [2]string{"B", "D"}, OffM: 0.0123}},
		CasesSolved: 153,
		Between:     &lift.Between{BestM: 0.42, WorstM: 0.395, Side: "A–B"}, InfluenceOn: "A",
		Influences: []lift.Influence{{Name: "pump", RangeKg: 44.564, CGShiftM: geom.Vec{0.003, -0.004, 0}, LegKN: -0.1262},
			{Name: "base plate", RangeKg: 18.09, CGShiftM: geom.Vec{0, 0, -0.0085}, LegKN: 0.0451}},
	}
	for i, name := range []string{"A", "B", "C", "D"} {
		h.Legs = append(h.Legs, lift.Leg{Pick: name, AtM: geom.Vec{0.2 + 2*float64(i%2), 0.1, 1.8}, LengthM: 1.963, FromHorizontalDeg: 60,
			FromVerticalDeg: 30, WorstFromHorizontalDeg: 59.27, TensionKN: 2.83094, WorstTensionKN: 5.71301})
	}
	return h
}

// lame hangs with one leg slack, leans, and is not stable at worst.
func lame() lift.Hanging {
	h := four()
	h.TiltDeg, h.TiltWorstDeg, h.LowCornerDropM, h.StableWorst = 4.26, 7.81, 0.178, false
	h.HeadroomM = -0.25
	h.Level = []lift.LevelWay{{Way: "lengths", Text: "legs of other lengths: A 1.950 m (6' 4-3/4\"), C 2.010 m (6' 7-1/8\"); that moves the hook 120 mm (4-3/4\") toward +x"},
		{Way: "lug", Text: "lug A moved 85 mm (3-3/8\") toward −y, the legs as they are", TiltDeg: 0.31}}
	h.Legs[1].Slack, h.Legs[1].TensionKN = true, 0
	h.Legs[1].Pick = "Öse hinten rechts außen"
	h.Sharing.Elastic = lift.Forces{"A": 2.8, "Öse hinten rechts außen": 0, "C": 2.8, "D": 5.1}
	h.Sharing.TwoOpposite, h.Diagonals = nil, nil
	h.Legs[0].WorstFromHorizontalDeg = 29.97
	h.Clearing = lift.Clearing{Looked: 12, ThicknessM: 0.04, FittingsM: 0.1,
		Clashes:     []lift.Clash{{Pick: "A", With: "guard over the coupling", AtM: geom.Vec{0.8, -0.1234, 1.25}, AlongM: 0.6432, GapM: -0.0775, Case: "CG at low x low y"}},
		NearMisses:  []lift.Clash{{Pick: h.Legs[1].Pick, With: "motor", AtM: geom.Vec{12.3456, 0.5, 1.9}, AlongM: 1.2, GapM: 0.0123, Box: true}},
		ThroughCuts: []lift.Clash{{Pick: "C", With: "cover", AtM: geom.Vec{0.5, 0.5, 1}, AlongM: 0.535, GapM: -0.02}},
		LeastHookM:  ptr(3.2616), LeastBars: []lift.Bar{{Picks: [2]string{"A", "D"}, LengthM: 1.601}, {Picks: [2]string{"Öse hinten rechts außen", "C"}, LengthM: 1.7}}}
	h.Included = lift.Included{Deg: 99.02, WorstDeg: 101.34, Picks: [2]string{"A", "C"}}
	h.Lugs = []lift.LugPull{{Pick: "A", InDeg: 12.3, OutDeg: 1.2, WorstInDeg: 13.01, WorstOutDeg: 2.34, SideKN: 0.2333},
		{Pick: "Öse hinten rechts außen", InDeg: 0, OutDeg: 49.52, WorstInDeg: 1.5, WorstOutDeg: 51.11, SideKN: 4.4471}}
	h.Stability.Toward, h.Stable = &geom.Vec{0, 1, 0}, false
	h.Stability.Text = "not stable: the CG is 100 mm (3-15/16\") too high"
	return h
}

// two hangs on two legs, which statics settles.
func two() lift.Hanging {
	h := four()
	h.Legs, h.Sharing, h.Diagonals = h.Legs[:2], lift.Sharing{Elastic: lift.Forces{"A": 5.66188, "B": 5.66188}}, nil
	h.Squeeze = lift.Forces{"A": 2.83094, "B": 2.83094}
	h.Basis = "statics alone: the taut legs leave nothing to sharing"
	h.Clearing = lift.Clearing{Looked: 1, FittingsM: 0.1}
	h.Included = lift.Included{Deg: 60, WorstDeg: 60, Picks: [2]string{"A", "B"}}
	h.Bending = &lift.LoadBending{Axis: "x", LengthM: 12, PicksM: [2]float64{2.4, 9.2}, Sagging: lift.Moment{KNm: 6.6781, AtM: 6.1}, Hogging: lift.Moment{KNm: 8.4752, AtM: 9.2},
		BestM: [2]float64{2.4853, 9.5147}, BestEnds: [2]float64{2.4853, 2.4853}, BestKNm: 6.6741}
	return h
}

func unsolved() lift.Hanging {
	return lift.Hanging{SizingKg: 1000, PlanningKg: 1000, Legs: []lift.Leg{}}
}

var (
	tooShort = "legs that cannot reach: legs A and B, 900 mm (2' 11-7/16\") and 900 mm (2' 11-7/16\") long, are too short to meet at one hook: their picks are 2.000 m (6' 6-3/4\") apart; use longer legs, or picks closer together"
	tooFlat  = "leg A at 29.97° from horizontal (60.03° from vertical) is flatter than the 30° from horizontal (60° from vertical) allowed (worst case)"
)

func given() lift.Proposal {
	return lift.Proposal{Given: true, Reasons: []string{"given by the load file"}, Legs: four(), Verdict: lift.Verdict{Acceptable: true},
		Picks: []lift.Pick{{Name: "A", AtM: geom.Vec{0.2, 0.1, 1.8}}, {Name: "B", AtM: geom.Vec{2.2, 0.1, 1.8}},
			{Name: "C", AtM: geom.Vec{2.2, 1.1, 1.8}}, {Name: "D", AtM: geom.Vec{0.2, 1.1, 1.8}}}}
}

func proposed() lift.Proposal {
	return lift.Proposal{Score: 0.7071, Legs: two(), Verdict: lift.Verdict{Acceptable: true, Reasons: []string{}}, Warns: []lift.Warning{cgAbovePick},
		Picks:   []lift.Pick{{Name: "A", AtM: geom.Vec{0.1, 0.6, 1.8}}, {Name: "B", AtM: geom.Vec{2.3, 0.6, 1.8}}},
		Reasons: []string{"2 picks, level, on the load's own top", "no pick can have to carry more than 50 % of the weight"}}
}

func beside(p lift.Proposal) lift.Proposal {
	p.TradeOff = "beside the picks of the load file: 2 legs fewer; but 400 mm (1' 3-3/4\") more headroom"
	return p
}

func impossible() lift.Proposal {
	p := proposed()
	p.Legs, p.Warns = unsolved(), nil
	p.Verdict = lift.Verdict{Reasons: []string{tooShort}}
	return p
}

func sizing() lift.Sizing {
	memory := func(name string, value float64) lift.Factor {
		return lift.Factor{Name: name, Value: value, Source: "EN 818-4", Basis: "from memory"}
	}
	return lift.Sizing{
		Rules: "EN", Required: map[string]float64{"A": 640.82, "B": 640.82, "C": 640.82, "D": 640.82},
		Governing: lift.Governing{Pick: "A", RequiredKg: 640.82, TensionKN: 5.71301},
		Hitch:     map[string]float64{"A": 1, "B": 1, "C": 1, "D": 1},
		Factors: []lift.Factor{{Name: "dynamic", Value: 1.1, Source: "stated", Basis: "stated"}, memory("hitch: vertical", 1),
			{Name: "mode, check of the set: 4 parts, 0 to 45° from vertical", Value: 2.1, Source: "EN 818-4; as reprinted", Basis: "read"}},
		Families: []lift.Family{
			{Family: "round_sling", Material: "polyester", Use: "no", Reasons: []string{"400 °C (752 °F) is above 100 °C (EN 1492-2 scope)"},
				Against: []string{"400 °C (752 °F) is above 100 °C (EN 1492-2 scope)"}},
			{Family: "wire_rope", Material: "steel core, steel ferrule", Use: "care", Reasons: []string{"not stated: edges"}, Against: []string{"not stated: edges"}, Cautions: []string{"look at every wire (no source)"},
				Factors: []lift.Factor{memory("bend over a pin of 22 mm", 0.804512)},
				Choice:  &lift.Choice{Size: "8 mm", RatedKg: 700, RequiredKg: 640.8, Utilisation: 0.91546, WeightKg: 2.02, Source: "EN 13414-1:2003 Table 4", Basis: "read", Note: "as reprinted"}},
			{Family: "alloy_chain", Material: "grade 10", Use: "yes", Reasons: []string{"stated: no edges"},
				Choice: &lift.Choice{Size: "6 mm", RatedKg: 1400, RequiredKg: 640.8, Utilisation: 0.457729, Source: "no source: common trade steps of grade 10 chain", Basis: "common practice"}},
			{Family: "metal_mesh", Use: "care", Reasons: []string{"no size is large enough"}, Against: []string{"not stated: edges"}},
			{Family: "two_path_round_sling", Use: "care", ByTag: true, Reasons: []string{"only its tag says"}, Against: []string{"only its tag says"}},
		},
		Gross: lift.Gross{LowKg: 919.06, BestKg: 950, HighKg: 991.234, PlanningKg: 1000, SizingKg: 1000, RiggingKg: 2.02, BlockKg: 350, TotalKg: 1352.02, CapacityKg: 20000,
			Ladder: []lift.Rung{{Name: "Load, sizing weight", Kg: 1000}, {Name: "Slings, heaviest set that may be used", Kg: 2.02}, {Name: "Hook block, as stated", Kg: 350}, {Name: "Hoist rope below the tip", Open: "not stated"}},
			Used:   ptr(0.067601), Crane: &lift.CraneStand{RadiusM: 8, AtM: 8, CapacityKg: 20000},
			Note: "load, heaviest of the sets that may be used, and what is stated of the crane"},
	}
}

func sheet() lift.LiftSheet {
	s := sizing()
	return lift.LiftSheet{Header: header(noAllowances), Date: "4 May 2026", Weigh: weight(), Picks: lift.SheetPicks{Proposals: []lift.Proposal{given()}},
		Legs: four(), Slings: &s, Marking: painted(), Cautions: []string{"The tag on each sling governs.", "Nobody on or under the load."}}
}

func painted() *lift.Marking {
	return &lift.Marking{WeightKg: 1000, CG: lift.MarkedPlace{Name: "CG", FromM: geom.Vec{1.2, 0.6, 0.4125}},
		Lines: []string{"WEIGHT 1 000 kg (2 205 lb)", `CG 1.200 m (3' 11-1/4") from the edge of least x, 600 mm (1' 11-5/8") from the edge of least y, 413 mm (1' 4-1/4") above the underside`},
		Notes: []string{"Distances are along the load's own axes."}}
}

func badSheet() lift.LiftSheet {
	s := sheet()
	s.Header = refused(header(noAllowances, cgAbovePick), tooShort)
	s.Load, s.Drawing, s.Datum, s.Date = longName, "", "", ""
	s.Picks.Proposals[0], s.Legs, s.Slings = proposed(), unsolved(), &lift.Sizing{Rules: "EN"}
	return s
}

func checked() lift.Checked {
	return lift.Checked{
		Header: header(noAllowances),
		Findings: []lift.Finding{
			{Code: "material-default", Text: "named no material and took carbon steel: base plate, shell", Fix: "write `material:` on parts that are made of something else"},
			{Code: "mesh-unsound", Part: "housing", Text: "weighed although 12 edges are open", Fix: "repair the mesh", WeightEffectKg: 12.3456},
		},
		Parts: []lift.Seat{
			{Name: "base plate", Kind: "plate", Written: "2400 x 1200 x 20", Count: 1, Material: "carbon steel", MassKg: 452.16, BoxM: lift.Box{Max: geom.Vec{2.4, 1.2, 0.02}}},
			{Name: longName, Kind: "tube", Written: "outside: 1000, wall: 12", Count: 2, Material: "carbon steel", MassKg: 237.84,
				BoxM: lift.Box{Min: geom.Vec{-12.3456, -12.3456, 0}, Max: geom.Vec{12.3456, 12.3456, 1.524}}},
			{Name: "pump", Kind: "weight", Written: "260 kg", Count: 1, MassKg: 260, BoxM: lift.Box{Min: geom.Vec{1.2, 0.6, 0.76}, Max: geom.Vec{1.2, 0.6, 0.76}}},
		},
	}
}

func materials(names ...string) report.Materials {
	var rows []density.Material
	for _, name := range names {
		m, err := density.Find(name)
		if err != nil {
			panic(err)
		}
		rows = append(rows, m)
	}
	return report.NewMaterials(rows...)
}

// results are all that is rendered, by the name of the golden file.
func results() map[string]any {
	bare := checked()
	bare.Findings, bare.Warnings = nil, nil
	withoutRules := sheet()
	withoutRules.Slings = nil
	statics := lift.Hung{Header: header(), Hanging: two()}
	return map[string]any{
		"check":             checked(),
		"check-clean":       bare,
		"weigh":             lift.Weighed{Header: header(noAllowances), Weight: weight()},
		"weigh-states":      inStates(),
		"weigh-conflict":    atOdds(),
		"legs-states":       lift.Hung{Header: refused(header(), "in the state \"water test\": unstable"), Hanging: stated()},
		"dip":               dipped(),
		"mesh":              meshed(),
		"mesh-no-unit":      unmeasured(),
		"weigh-strict":      lift.Weighed{Header: refused(header(noAllowances), "warning counted by --strict: "+noAllowances.Text), Weight: weight()},
		"picks-proposed":    lift.Picked{Header: header(cgAbovePick), SheetPicks: lift.SheetPicks{Proposals: []lift.Proposal{proposed(), impossible()}}},
		"picks-given":       lift.Picked{Header: header(), SheetPicks: lift.SheetPicks{Proposals: []lift.Proposal{given(), beside(proposed())}}},
		"picks-none":        lift.Picked{Header: refused(header(), "no picks are given and none could be proposed")},
		"legs":              lift.Hung{Header: header(noAllowances), Hanging: four()},
		"legs-two":          statics,
		"legs-outside":      lift.Hung{Header: header(), Hanging: outside(four())},
		"legs-stretch":      lift.Hung{Header: header(), Hanging: stretched()},
		"legs-equalised":    lift.Hung{Header: header(), Hanging: equalised()},
		"legs-bars":         lift.Hung{Header: header(), Hanging: barred()},
		"slings-bars":       lift.Slung{Header: header(), Sizing: barredSizing()},
		"legs-unacceptable": lift.Hung{Header: refused(header(cgAbovePick), "unstable: the CG is 100 mm (3-15/16\") too high", tooFlat), Hanging: lame()},
		"legs-unsolved":     lift.Hung{Header: refused(header(noAllowances), tooShort), Hanging: unsolved()},
		"slings":            lift.Slung{Header: header(noAllowances), Sizing: sizing()},
		"slings-stock":      lift.Slung{Header: header(), Sizing: fromRack()},
		"slings-height":     lift.Slung{Header: header(), Sizing: explained()},
		"legs-headroom":     lift.Hung{Header: refused(header(), "headroom: the load would pass 40 mm (1-9/16\") too low over the obstacle, its clearance in, with the hook at its highest: raise the hook, use shorter legs, or a bar"), Hanging: stacked()},
		"slings-hardware":   slungOnHardware(),
		"slings-unsolved":   lift.Slung{Header: refused(header(), tooShort), Sizing: lift.Sizing{Rules: "US"}},
		"legs-two-hooks":    lift.Hung{Header: refused(header(), "falls through: turned 60.0° the head hook goes slack"), Hanging: twoHooks()},
		"legs-level-hooks":  lift.Hung{Header: header(), Hanging: level()},
		"slings-two-hooks":  hooked(),
		"sheet":             sheet(),
		"sheet-unsolved":    badSheet(),
		"sheet-no-rules":    withoutRules,
		"materials":         materials("structural steel", "tin bronze", "plain concrete", "insulating firebrick"),
		"materials-one":     materials("grey cast iron"),
	}
}

// outside puts a wind, a tag line and a form that holds on about 1000 kg on four legs.
// 500 N on 9 806.65 N are 2.919°, and 51 mm for each metre of hoist line; 1.5 kN/m² on
// 2 m² are 3 kN, 305.9 kg more on the hook.
func outside(h lift.Hanging) lift.Hanging {
	part, turn := 0.9, 0.2
	posed := *h.Posed
	posed.SideForces = &lift.SideForces{
		Wind:    &lift.WindPush{SpeedMS: 10, PressureNM2: 62.5, ShapeFactor: 2, AreaM2: 4, ForceKN: 0.5, CentreM: geom.Vec{1, 0.5, 0.5}, From: "any side; the greatest area is to +y", Area: "as stated"},
		TagLine: &lift.TagPull{PullKN: 0.1, Toward: "+y", AtM: geom.Vec{2, 0, 0}},
		MostKN:  0.6, LeanDeg: 2.919, SwingPerM: 0.05099, MoreTiltDeg: 2.919, TurnKNM: 0.2,
		HoldPullKN: 0.5, TurnPullKN: &turn, TurnLeverM: 1, CraneFactor: &part, SailM2PerT: 8,
	}
	posed.LiftOff = &lift.LiftOff{Kind: "adhesion", PressureNM2: 1500, AreaM2: 2, PullKN: 3, HookKg: 1305.9, Tension: lift.Forces{}, Governs: true}
	posed.TrialLift = &lift.TrialLift{BestKg: 1000, LowKg: 950, HighKg: 1050, StopAboveKg: 1050, Indeterminate: true, TiltDeg: 0.4, TiltWorstDeg: 1.25,
		FirstCorner: "corner +x and +y", LastCorner: "side −x", DropM: 0.012, HookOver: "the CG"}
	for i, leg := range h.Legs {
		posed.SideForces.Legs = append(posed.SideForces.Legs, lift.SideLeg{Pick: leg.Pick, MoreKN: 0.05})
		posed.LiftOff.Tension[leg.Pick] = 3.7
		posed.TrialLift.Legs = append(posed.TrialLift.Legs, lift.Reading{Pick: leg.Pick, BestKN: 2.831, LowKN: 2.6, HighKN: 3.1})
		posed.TrialLift.Tight = append(posed.TrialLift.Tight, lift.Tight{Pick: leg.Pick, RiseM: 0.004 * float64(i)})
	}
	h.Posed = &posed
	return h
}

var nan = math.NaN()
