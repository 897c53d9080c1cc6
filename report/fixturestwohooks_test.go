package report_test

import (
	"plumbhook/geom"
	"plumbhook/lift"
)

// twoHooks is a load of 1000 kg, 9.80665 kN, turned to 60° on two hooks: as
// of statics 40 % of it on the head at the start, 46.9 % at the end.
func twoHooks() lift.Hanging {
	share := func(deg, part, rise, apart float64) lift.HookShare {
		return lift.HookShare{TurnedDeg: deg, HeadKN: 9.80665 * part, TailKN: 9.80665 * (1 - part), HeadPart: part, RiseM: rise, ApartM: apart}
	}
	leg := func(pick string, kn float64) lift.Leg {
		return lift.Leg{Pick: pick, AtM: geom.Vec{2, 0.6, 1.8}, FromHorizontalDeg: 90, WorstFromHorizontalDeg: 90, TensionKN: kn, WorstTensionKN: kn * 1.01}
	}
	return lift.Hanging{
		Solved: true, SizingKg: 1000, PlanningKg: 1000, Stable: true,
		Lengths: "head: two slings taken as plumb, as from a bar; tail: one line, plumb",
		Legs:    []lift.Leg{leg("A", 2.3), leg("Öse hinten rechts außen", 2.3), leg("C", 5.884)},
		States: []lift.StateLegs{{Name: "as drawn", SizingKg: 1000, Acceptable: true, Pick: "C", WorstTensionKN: 5.943, Governs: true},
			{Name: "water test", SizingKg: 800, Reasons: []string{"no"}}},
		TwoHooks: &lift.TwoHooks{
			ToDeg: 60, Out: "one hook higher or lower against the other than meant by up to 50 mm (1-15/16\"); lines out of plumb by up to 1.0°, each its own way",
			Curve: []lift.HookShare{share(0, 0.4, -1.5, 20), share(-30, 0, -12.8, 17.24), share(30, 0.42493, 8.701, 18.071), share(60, 1, 16.571, 11.299)},
			Events: []lift.HookEvent{{TurnedDeg: 0, Text: "the tail hook carries its most"},
				{TurnedDeg: 60, Text: "the head hook goes slack with the CG over the pick of the tail hook: the load goes over and FALLS THROUGH", Through: true}},
			Head: lift.Hook{Picks: []string{"A", "Öse hinten rechts außen"}, MostKN: 4.6, WorstKN: 4.646, WorstKg: 473.8, WorstCase: "best CG, turned 60.0°, at the sizing weight",
				Crane: &lift.HookCrane{CapacityKg: 1000, BlockKg: 100, LoadKg: 573.8, Used: 0.5738}},
			Tail: lift.Hook{Picks: []string{"C"}, MostKN: 5.884, WorstKN: 5.943, WorstKg: 606, WorstCase: "CG 40 mm out toward −x at its lowest, turned 0.0°, the tail line 1.0° out of plumb away from the other, at the sizing weight",
				Crane: &lift.HookCrane{CapacityKg: 1000, BlockKg: 100, ShareLimit: 0.75, LoadKg: 706, Used: 0.706}},
			RollMarginM: ptr(0.9), RollMarginWorstM: ptr(0.8), RollHeld: true,
			RollText:   "the CG is 900 mm (2' 11-7/16\") below the line through the picks, 800 mm (2' 7-1/2\") below at worst; lugs side by side hold it as well",
			NotChecked: "speeding up and stopping, wind",
		},
	}
}

// hooked is the sizing of two hooks.
func hooked() lift.Slung {
	s := lift.Slung{Header: header(), Sizing: sizing()}
	s.ByHook = []lift.HookSizing{{Hook: "head", Sizing: sizing()}, {Hook: "tail", Sizing: sizing()}}
	return s
}

// level is a lift on two hooks that is not turned.
func level() lift.Hanging {
	h := twoHooks()
	two := *h.TwoHooks
	two.ToDeg, two.Curve, two.Events = 0, two.Curve[:1], nil
	h.TwoHooks, h.Legs, h.States = &two, h.Legs[1:], nil
	return h
}
