package report_test

import "plumbhook/lift"

// stacked hangs under a hook that is too low: 6 m less 1.72 m of legs, 1.8 m of
// load and 19 mm of tilt leave 2.461 m, over an obstacle of 2.2 m and 300 mm 39 mm
// too little.
func stacked() lift.Hanging {
	h := four()
	posed := *h.Posed
	posed.Stack = &lift.Stack{TipM: 8, BlockM: 2, HookM: 6, LegsM: 1.72, LoadM: 1.8, DropM: 0.0192, UndersideM: 2.4608,
		ObstacleM: ptr(2.2), ClearanceM: 0.3, OverM: ptr(-0.0392), SetDownOnM: ptr(1.2), SetDownM: ptr(1.2608), LeftM: -0.0392, HookNeededM: 6.0392}
	posed.Working = working().withoutSizing()
	h.Posed = &posed
	return h
}

// explained is a sizing with the heights, a crane's table and the working.
func explained() lift.Sizing {
	s := sizing()
	s.Gross.Crane = &lift.CraneStand{RadiusM: 8, ToleranceM: 0.3, SwingM: 0.4, AtM: 8.7, RowM: 10, CapacityKg: 1480}
	s.Gross.CapacityKg, s.Gross.Used, s.Gross.Trigger = 1480, ptr(0.913527), 0.75
	s.Gross.ExtrasKg = 12.5
	s.Heights = &lift.HeightCurve{Family: "alloy_chain", Material: "grade 10", Top: "the headroom stated", Text: "a size is saved between 1.200 m (3' 11-1/4\") and 1.700 m (5' 6-15/16\") over the picks, 6 mm in place of 8 mm",
		Rows: []lift.HeightRow{
			{HookM: 0.58, LongestM: 1.15, FlattestDeg: 30.3, WorstFlattestDeg: 29.91, WorstTensionKN: 9.91, Acceptable: false, Reasons: []string{tooFlat}},
			{HookM: 1.2, LongestM: 1.562, FlattestDeg: 50.2, WorstFlattestDeg: 49.81, WorstTensionKN: 6.42, RequiredKg: 719.8, Size: "8 mm", Acceptable: true},
			{HookM: 1.7, LongestM: 1.963, FlattestDeg: 60, WorstFlattestDeg: 59.27, WorstTensionKN: 5.71301, RequiredKg: 640.82, Size: "6 mm", Saves: true, Acceptable: true},
		}}
	w := working()
	s.Working = &w.Working
	return s
}

type whole struct{ lift.Working }

func (w whole) withoutSizing() *lift.Working {
	return &lift.Working{Statics: w.Statics}
}

// working is two legs that carry 1000 kg: 9.80665 kN, half each, over sin 60°.
func working() whole {
	leg := func(pick string, x float64) lift.StaticLeg {
		return lift.StaticLeg{Pick: pick, XM: x, OutM: 1, RiseM: 1.7320508, Deg: 60, Sine: 0.8660254, VerticalKN: 4.903325, TensionKN: 5.661872, LevelKN: 2.830936}
	}
	return whole{lift.Working{
		Statics: lift.StaticsWorking{Pick: "A", Case: "best CG, legs as stated, at the sizing weight", LoadKg: 1000, LoadKN: 9.80665,
			How:  "with nothing carried by B and D, as legs a little long leave it: two legs carry, and the levers of their picks about the plumb line give what each takes",
			Legs: []lift.StaticLeg{leg("A", -1), leg("C", 1)}, Levers: &lift.Levers{Own: 0.5773503, Other: 0.5773503, VerticalKN: 4.903325}, SumKN: 9.80665,
			TensionKN: 5.661872, MoreKN: 0.051138, MoreBecause: "wind and tag line; the worst case is best CG, legs as stated", WorstKN: 5.71301},
		Sizing: &lift.RatingWorking{TensionKN: 5.71301, Dynamic: lift.Factor{Name: "dynamic", Value: 1.1, Source: "stated", Basis: "stated"}, DynamicKN: 6.284311, Gravity: 9.80665, LoadKg: 640.8214,
			Hitch: lift.Factor{Name: "hitch: vertical", Value: 1, Source: "EN 818-4", Basis: "from memory"}, Parts: 1, ByLegKg: 640.8214,
			SetLoadKg: 1100, Mode: &lift.Factor{Name: "mode", Value: 2.1, Source: "EN 818-4", Basis: "read"}, Choke: &lift.Factor{Value: 1}, BySetKg: 523.8095, RequiredKg: 640.8214},
		Chosen: []lift.FamilyWorking{{Family: "wire_rope", Material: "steel core, steel ferrule", Leg: "A", LoadKg: 640.8214, Hitch: lift.Factor{Name: "hitch: basket", Value: 2, Source: "EN 13414-1", Basis: "read"}, Parts: 0.9,
			Factors: []lift.Factor{{Name: "bend over a pin of 22 mm", Value: 0.8, Source: "EN 13414-1", Basis: "from memory"}}, Product: 1.44, ByFactorsKg: 445.0149, RequiredKg: 500,
			More: "the check of the set asks for more", Size: "8 mm", RatedKg: 700, Utilisation: 0.7142857, Source: "EN 13414-1:2003 Table 4", Basis: "read"}},
	}}
}
