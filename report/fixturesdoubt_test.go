package report_test

import (
	"plumbhook/geom"
	"plumbhook/lift"
)

// inStates is a load with allowances, statistics, states and a weighing that
// agrees with the take-off.
func inStates() lift.Weighed {
	w := weight()
	w.Allowances = []lift.Allowance{{Name: "weld metal, all seams of the vessel", Of: "structural steel", Written: "add 1.5 %, low 0.8 %, high 2.5 %", BestKg: 14.25, LowKg: 7.6, HighKg: 23.75,
		CGM: geom.Vec{1.2, 0.6, 0.4}, Basis: "1.5 % of the 950 kg (2 094 lb) of structural steel; it may be anywhere in the box of structural steel"}}
	w.Statistics = &lift.Statistics{RSSLowKg: 930.12, RSSHighKg: 978.9, P5Kg: 938, P50Kg: 955.5, P95Kg: 974.321, Samples: 100_000, Seed: 1}
	w.Influences = four().Influences
	w.AsWeighed = &lift.AsWeighed{WeightKg: 962.3, WeightSigmaKg: 2.9, CGM: geom.Vec{1.198, 0.602, 0.41}, CGSigmaM: geom.Vec{0.002, 0.0015, 0.03},
		Read:          []lift.CellsAlone{{Weighings: []string{"shop floor"}, Without: []string{"pump"}, WeightKg: 702.5, SigmaKg: 2.0, CGM: [3]*float64{ptr(1.2), ptr(0.61), nil}}},
		Text:          "Take-off and cells agree within 3 sigmas.",
		LoadFileLines: []string{"- name: whole load as weighed", "  weight: 962.3 kg"}}
	return lift.Weighed{Header: header(), Weight: w, States: []lift.StateWeight{
		{Name: "as drawn", Weight: w.Weight, CGM: w.CGM, CGRangeM: w.CGRangeM},
		{Name: "water test, full to the brim", Weight: lift.WeightRange{BestKg: 4321.5, SizingKg: 4600.25}, CGM: geom.Vec{1.3, 0.6, 0.9}, Governs: true}}}
}

// atOdds is a take-off that a weighing speaks against.
func atOdds() lift.Weighed {
	w := weight()
	w.AsWeighed = &lift.AsWeighed{WeightKg: 1100, WeightSigmaKg: 4, CGM: geom.Vec{1.2, 0.6, 0.4}, Conflict: true, Sigmas: 11.4,
		Text: "shop floor: weight 150 kg more than the take-off, 11.4 sigmas. CONFLICT: look for what is missing from the take-off."}
	return lift.Weighed{Header: refused(header(), "the take-off and the weighing are 11.4 standard deviations apart"), Weight: w}
}

// stated hangs in three states, with liquid that can run.
func stated() lift.Hanging {
	h := two()
	h.Liquid = &lift.FreeLiquid{Parts: []string{"tank contents"}, RiseM: 0.0272, RiseWorstM: 0.1387, CGM: geom.Vec{1.2, 0.6, 0.4},
		Text: "tank contents can run: it acts as if the CG of the load were 27.21 mm (1-1/16\") higher, 138.7 mm (5-7/16\") at the worst level"}
	h.States = []lift.StateLegs{
		{Name: "as drawn", SizingKg: 1000, Acceptable: true, Reasons: []string{}, Pick: "A", WorstTensionKN: 5.713, TiltWorstDeg: 0.41, StableWorst: true, Governs: true},
		{Name: "shipping", SizingKg: 800, Acceptable: true, Reasons: []string{}, Pick: "Öse hinten rechts außen", WorstTensionKN: 4.6, TiltWorstDeg: 1.2, StableWorst: true},
		{Name: "water test", SizingKg: 4600, Reasons: []string{"unstable"}, TiltWorstDeg: 12}}
	return h
}

// dipped is a tank of 1 m³, a metre square.
func dipped() lift.Dip {
	d := lift.Dip{Header: header(), Part: "tank"}
	for i := range 5 {
		depth := 0.25 * float64(i)
		d.Rows = append(d.Rows, lift.DipRow{DepthM: depth, LevelM: 0.2 + depth, Fill: depth, VolumeM3: depth, MassKg: 1000 * depth, CGM: geom.Vec{1.2, 0.6, 0.2 + depth/2}})
	}
	return d
}

// meshed is a cube of 600 mm, a facet of which faces the wrong side.
func meshed() lift.Checked {
	m := &lift.MeshHealth{Triangles: 12, Solids: 1, Shells: 1, OpenEdges: 0, Box: lift.Box{Max: geom.Vec{600, 600, 600}}, Area: 2.16e6, Volume: 2.16e8, VolumeDoubt: 7.2e7,
		Mending: []string{"1 facet was turned over to face the same side as its neighbours"}, Mended: true, Material: "carbon steel",
		Candidates: []lift.MeshCandidate{{Unit: "mm", Metres: 0.001, SizeM: geom.Vec{0.6, 0.6, 0.6}, VolumeM3: 0.216, WeightKg: 1695.6}}}
	h := refused(header(), "the surface is folded")
	h.Errors = []lift.Problem{{File: "cube.stl", Text: "the surface is folded", Fix: "repair the mesh"}}
	return lift.Checked{Header: h, Mesh: m, Findings: []lift.Finding{{Code: "mesh-folded", Part: "cube.stl", Text: "the surface is folded", Fix: "repair the mesh", WeightEffectKg: 565.2}}}
}

// unmeasured is an open mesh of which the unit is not known.
func unmeasured() lift.Checked {
	c := meshed()
	m := *c.Mesh
	m.Shells, m.OpenEdges, m.Holes, m.Mending = 3, 6, 2, nil
	m.Candidates = append(m.Candidates, lift.MeshCandidate{Unit: "ft", Metres: 0.3048, SizeM: geom.Vec{182.88, 182.88, 182.88}, VolumeM3: 6116438.9, WeightKg: 4.8014e10})
	c.Mesh = &m
	c.Findings = nil
	return c
}
