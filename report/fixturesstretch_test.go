package report_test

import (
	"plumbhook/geom"
	"plumbhook/lift"
)

// stretched hangs in an attitude of its own on legs that stretch, and is told what
// gear would settle the sharing. The figures are made up to be laid out.
func stretched() lift.Hanging {
	h := four()
	h.Attitude = &lift.Attitude{Up: geom.Vec{-0.5, 0, 0.866}, Deg: 30, Text: "turned 30° from how it is drawn, the load's −0.50 x, +0.87 z pointing up"}
	h.Stretch = &lift.Stretched{
		Text:    "synthetic web, nylon, 8 to 10 % at a rated load of 2 903 kg (6 400 lb) (from memory, no source: what the trade tells of nylon slings): hung with the middle, the worst solved with both ends",
		StiffKN: 316, RigidDeg: ptr(0.62), TravelM: ptr(0.0931),
	}
	for _, leg := range h.Legs {
		h.Stretch.Legs = append(h.Stretch.Legs, lift.StretchLeg{Pick: leg.Pick, UnloadedM: leg.LengthM, LoadedM: 1.9806, LongerM: 0.0176})
	}
	h.Gear = []lift.GearWay{
		{Way: "reading", Text: "a turnbuckle or chain hoist with a load cell in leg A, set to 2.831 kN (636.4 lbf) with the load just off the ground: then no leg carries more than 2.831 kN (636.5 lbf)"},
		{Way: "beam", Text: "a balance beam, or one line run through a block, between legs A and B, which makes them pull alike: 2.831 kN (636.4 lbf) each"},
	}
	return h
}

// equalised hangs with a beam between two legs.
func equalised() lift.Hanging {
	h := four()
	h.Basis = "legs A and D pull alike, so that statics settles all; below the governing basis (any leg slack), because the load file says: balance beam, drawing R-7"
	h.Sharing.Equalised, h.Sharing.TwoOpposite, h.Sharing.RuleSet, h.Diagonals = h.Sharing.Elastic, nil, nil, nil
	return h
}
