package report_test

import (
	"plumbhook/geom"
	"plumbhook/lift"
)

// barred hangs under a spreader with two drops of 30° from plumb at each end, and
// a frame and a lifting beam that are there for their lines to be printed. 1000 kg
// and 120 kg of bars are 10.98 kN; on two legs at 60° each carries 6.341 kN and
// presses the spreader by 3.170 kN (statics).
func barred() lift.Hanging {
	h := four()
	h.Lengths = "drops and top legs cut for load and bars to hang level, hook 2.500 m (8' 2-7/16\") above the points that the spreader is held by"
	h.Basis, h.Sharing, h.Diagonals = "statics alone: the taut legs leave nothing to sharing", lift.Sharing{Elastic: h.Sharing.Elastic}, nil
	h.Stability = lift.Stability{MarginM: 0.42, Text: "stable: the CG of the load could rise 420 mm (1' 4-9/16\") before load or bars roll"}
	h.Influences, h.InfluenceOn = nil, ""
	ends := []lift.BarEnd{{AtM: geom.Vec{0.2, 0.6, 3}, Holds: []string{"A", "D"}}, {AtM: geom.Vec{2.2, 0.6, 3}, Holds: []string{"B", "C"}}}
	h.BarRigging = lift.BarRigging{
		Bars: []lift.HungBar{
			{Name: "spreader", Kind: "spreader", WeightKg: 120, TiltWorstDeg: 0.61, AtM: geom.Vec{1.2, 0.6, 3}, Along: geom.Vec{1, 0, 0}, Ends: ends,
				CompressionKN: 3.1702, MomentKNM: 0.2942, CompressionCase: "best CG, legs as stated, at the sizing weight",
				MomentCase: "best CG, legs as stated, at the sizing weight", LeastHookM: ptr(0.3125), HookM: ptr(2.5)},
			{Name: longName, Kind: "frame", WeightKg: 1234.5, TiltDeg: 1.25, TiltWorstDeg: 2.04, AtM: geom.Vec{-1.2, 0.6, 3}, Along: geom.Vec{0.6, 0.8, 0}, Ends: append(ends, ends...),
				CompressionKN: 12.5, AcrossKN: 3.75, MomentKNM: 1234.56, CompressionCase: "best CG, legs as stated, at the sizing weight", MomentCase: "best CG, legs as stated, at the sizing weight"},
			{Name: "lifting beam", Kind: "lifting beam", WeightKg: 80, AtM: geom.Vec{1.2, 0.6, 3}, Along: geom.Vec{0, 1, 0}, Ends: ends, MomentKNM: 14.71, MomentCase: "CG 12 mm out toward +x, all drops long, at the sizing weight", HoldAtM: ptr(-0.0465)},
		},
		UpperGoverning: "hook–spreader 2", UpperCase: "CG 12 mm out toward +x, all drops long, at the sizing weight", BarsKg: 1434.5,
	}
	for _, name := range []string{"hook–spreader 1", "hook–spreader 2"} {
		h.UpperLegs = append(h.UpperLegs, lift.UpperLeg{Name: name, LengthM: 2.887, FromHorizontalDeg: 60, FromVerticalDeg: 30, WorstFromHorizontalDeg: 58.91,
			TensionKN: 6.3409, WorstTensionKN: 6.4412, Slack: name == "hook–spreader 1"})
	}
	return h
}

// barredSizing sizes the drops and the top legs by themselves.
func barredSizing() lift.Sizing {
	s := sizing()
	rule := lift.Factor{Name: "bridle on a bar: load ÷ mode factor 1.4", Value: 1.4, Source: "EN 818-4; as reprinted", Basis: "read"}
	s.Sets = []lift.SlingSet{
		{Name: "drops", Required: s.Required, Governing: s.Governing, Factors: append(s.Factors[:len(s.Factors):len(s.Factors)], rule), Families: s.Families},
		{Name: "legs from hook to bar", Required: map[string]float64{"hook–spreader 1": 800, "hook–spreader 2": 800},
			Governing: lift.Governing{Pick: "hook–spreader 2", RequiredKg: 800, TensionKN: 6.4412}, Factors: s.Factors, Families: s.Families},
	}
	s.Gross.BarsKg = 120
	s.Gross.TotalKg += 120
	return s
}
