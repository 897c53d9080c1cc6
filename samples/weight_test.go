package samples_test

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/takeoff"
)

// pound in kg: International yard and pound agreement, 1959.
const pound = 0.45359237

// byHand is a part's mass, worked out from the drawing with a pocket
// calculator; the working stands beside it.
type byHand map[string]float64

// weighed compares a sample, part by part and as a whole, with what was worked
// out by hand. unit is what one of the figures is in kg.
func weighed(t *testing.T, file string, unit float64, parts byHand, whole float64, cg geom.Vec) {
	t.Helper()
	load, err := takeoff.Read(os.DirFS("."), file, takeoff.Options{})
	require.NoError(t, err)
	got, err := load.Weigh()
	require.NoError(t, err)
	require.Len(t, got.Parts, len(parts))
	for _, p := range got.Parts {
		want, known := parts[p.Name]
		require.True(t, known, "%s is not in the working", p.Name)
		assert.InDelta(t, want, float64(p.Best)/unit, 0.01, "%s: the working is rounded to hundredths", p.Name)
	}
	assert.InDelta(t, whole, float64(got.Best)/unit, 0.05, "sum of the parts")
	for i := range cg {
		assert.InDelta(t, cg[i], got.CG[i], 0.0002, "CG in m along %c: the working is rounded to tenths of a millimetre", "xyz"[i])
	}
}

// TestPipeSpoolByHand. Volumes in m³, steel of 7850 kg/m³; welds and paint are 1 % of
// all, at the CG of all: 1075.87 × 1.01. CG: x (1030.87 × 3.035 + 45 × 3.6)/1075.87,
// z 45 × (−0.32)/1075.87.
func TestPipeSpoolByHand(t *testing.T) {
	weighed(t, "pipe-spool.yaml", 1, byHand{
		"pipe":        930.77, // π × (0.508 − 0.0127) × 0.0127 × 6 = 0.1185695
		"flanges":     100.10, // 2 × π × (0.7 − 0.096) × 0.096 × 0.035 = 0.0127513
		"drain valve": 45,     // as given
	}, 1086.63, geom.Vec{3.0586, 0, -0.0134})
}

// TestPressFrameByHand. Volumes in m³, steel of 7850 kg/m³; π/4 = 0.785398.
func TestPressFrameByHand(t *testing.T) {
	weighed(t, "press-frame.yaml", 1, byHand{
		"feet":                      124.53,  // 2 × (0.2 × 1.0 × 0.04 − 2 × π/4 × 0.033² × 0.04) = 0.0158632
		"uprights":                  1303.10, // 2 × (0.05 × 0.9 × 2.2 − 0.05 × 0.4 × 0.8) = 0.166
		"bed girders":               339.12,  // 2 × 1.35 × 0.04 × 0.4 = 0.0432
		"bed":                       1098.29, // 1.35 × 0.9 × 0.12 − π/4 × 0.25² × 0.12 = 0.1399095
		"crown girders":             635.85,  // 2 × 1.35 × 0.06 × 0.5 = 0.081
		"crown plate":               663.44,  // 1.6 × 0.9 × 0.06 − π/4 × 0.2² × 0.06 = 0.0845150
		"left guide columns":        90.75,   // 2 × π × (0.12 − 0.02) × 0.02 × 0.92 = 0.0115611: mean girth × wall × height
		"right guide columns":       90.75,   // the same
		"slide clamped up":          282.60,  // 0.9 × 0.5 × 0.08 = 0.036
		"cylinder":                  620,     // as given
		"power pack drained of oil": 350,     // as given
		"shelf for the power pack":  54.95,   // 0.5 × 0.7 × 0.02 = 0.007
		"gussets under the shelf":   18.84,   // 2 × ½ × 0.4 × 0.3 × 0.02 = 0.0024
		"front lugs":                8.29,    // 2 × (0.12 × 0.03 × 0.16 − π/4 × 0.045² × 0.03) = 0.0010566
		"back lugs":                 8.29,    // the same
		"weld metal and paint":      70,      // as given
	}, 5758.82, geom.Vec{
		// All but three parts lie about x = 0.8: the pack and its shelf at
		// 1.775, the gussets a third of 0.4 out from 1.525, at 1.6583.
		// 0.8 + (350 × 0.975 + 54.95 × 0.975 + 18.84 × 0.8583) / 5758.82
		0.8714,
		// All but the pack lie about y = 0.5: 0.5 + 350 × 0.04 / 5758.82
		0.5024,
		// Feet 124.53 × 0.02 = 2.49, uprights 1554.3 × 1.14 − 251.2 × 1.3 =
		// 1445.34, bed girders 339.12 × 0.5 = 169.56, bed 1098.29 × 0.76 =
		// 834.70, crown girders 635.85 × 1.99 = 1265.34, crown plate 663.44 ×
		// 2.27 = 1506.01, columns 181.51 × 1.28 = 232.33, slide 282.6 × 1.49 =
		// 421.07, cylinder 620 × 1.885 = 1168.70, pack 350 × 1.25 = 437.50,
		// shelf 54.95 × 0.89 = 48.91, gussets 18.84 × 0.78 = 14.70 (the middle
		// of a triangle is a third down from its long side, at 0.88), lugs
		// 18.09 × 2.38 − 1.50 × 2.4 = 39.45, weld metal 70 × 1.25 = 87.50:
		// 7673.60 / 5758.82
		1.3325,
	})
}

// TestPumpSkidByHand. Volumes in cubic inches, steel of 490 lb/ft³ or
// 0.283565 lb/in³; a cubic foot has 1728 in³.
func TestPumpSkidByHand(t *testing.T) {
	weighed(t, "pump-skid-us.yaml", pound, byHand{
		"rails 8 x 6 x 3/8":                  946.82,  // 2 × 168 × (6 × 8 − 5.25 × 7.25) = 3339.0
		"cross members 6 x 4 x 1/4":          258.61,  // 4 × 48 × (4 × 6 − 3.5 × 5.5) = 912.0
		"deck":                               1025.94, // (168 × 60 − 24 × 18) × 0.375 = 3618.0
		"grout under the bedplate":           213.33,  // 96 × 30 × 1 = 2880 in³ = 1.66667 ft³ of 128 lb
		"bedplate":                           1020.83, // 96 × 30 × 1.25 = 3600.0
		"pump":                               1850,    // as given
		"motor":                              2380,    // as given
		"control panel and cables":           340,     // as given
		"suction pipe NPS 8 standard wall":   64.31,   // π × (8.625 − 0.322) × 0.322 × 27 = 226.780
		"suction flange":                     27.02,   // π × (8.625 + 2.4375) × 2.4375 × 1.125 = 95.302
		"discharge pipe NPS 6 standard wall": 37.98,   // π × (6.625 − 0.28) × 0.28 × 24 = 133.952
		"south lugs":                         46.27,   // 2 × (6 × 1 × 14 − π/4 × 1.75² × 1) = 163.189
		"north lugs":                         46.27,   // the same
	}, 8257.40, geom.Vec{
		// In inches, the sum of lb × in divided by 8257.40 lb, 39.3701 in to a m.
		// Rails 946.82 × 84, cross members 258.61 × 86, deck 1071.88 × 84 less
		// its opening 45.94 × 132, grout 213.33 × 72, bedplate 1020.83 × 72, pump
		// 1850 × 45, motor 2380 × 93, panel 340 × 162, suction pipe 64.31 × 13.5,
		// flange 27.02 × 0.5625, discharge pipe 37.98 × 45, lugs 92.54 × 81:
		// 644 365 / 8257.40 = 78.035 in
		1.9821,
		// All lies about 30 but the opening, 45.94 lb taken away at 42:
		// 30 − 45.94 × 12 / 8257.40 = 29.933 in
		0.7603,
		// Rails 946.82 × 4, cross members 258.61 × 5, deck 1025.94 × 8.1875, grout
		// 213.33 × 8.875, bedplate 1020.83 × 10, pump 1850 × 27.625, motor 2380 ×
		// 26.625, panel 340 × 38.375, suction pipe and flange 91.33 × 30, discharge
		// pipe 37.98 × 56.625, lugs 92.54 × 6.867: 158 629 / 8257.40 = 19.211 in
		0.4879,
	})
}

// TestGearboxByHand. Volumes in m³; grey cast iron of 7200 and steel of
// 7850 kg/m³.
func TestGearboxByHand(t *testing.T) {
	weighed(t, "gearbox-stl.yaml", 1, byHand{
		// Section in mm²: feet 1100 × 60 and body 960 × 620, less a hollow of
		// 500 × 360 and a polygon of 48 sides in a circle of radius 250, which is
		// 48/2 × 250² × sin 7.5° = 195 789: 285 411. × 420 = 0.1198725 m³
		"housing":                 863.08,
		"end shields":             256.18, // 2 × 0.03 × (0.96 × 0.62 − π/4 × (0.22² + 0.13²)) = 0.0326348
		"output shaft":            84.59,  // π/4 × 0.14² × 0.7 = 0.0107757
		"wheel":                   236.75, // π × (0.14 + 0.16) × 0.16 × 0.2 = 0.0301593
		"input shaft":             27.62,  // π/4 × 0.08² × 0.7 = 0.0035186
		"pinion":                  83.01,  // π × (0.08 + 0.09) × 0.09 × 0.22 = 0.0105746
		"output bearings":         28,     // 2 × 14, as given
		"input bearings":          8.4,    // 2 × 4.2, as given
		"oil left after draining": 6,      // as given
	}, 1593.64, geom.Vec{
		// Housing 863.08 × 0.55 = 474.69, shields 256.18 × 0.5582 = 143.00 (the
		// larger seat is on the left), what turns about x = 0.37: 349.34 × 0.37 =
		// 129.26, about 0.73: 119.03 × 0.73 = 86.89, oil 6 × 0.55 = 3.30:
		// 837.14 / 1593.64
		0.5253,
		// All lies about y = 0.21 but the shafts, 0.08 to the back and to the
		// front: 0.21 + (84.59 − 27.62) × 0.08 / 1593.64
		0.2129,
		// The housing's section: (66 000 × 30 + 595 200 × 370 − 375 789 × 370) /
		// 285 411 = 291.4 mm; 863.08 × 0.2914 = 251.48, oil 6 × 0.13 = 0.78, all
		// else on the height of the shafts 724.56 × 0.37 = 268.09:
		// 520.35 / 1593.64
		0.3265,
	})
}

// TestStackSectionByHand. Volumes in m³, steel of 7850 kg/m³; allowances of 2 %.
func TestStackSectionByHand(t *testing.T) {
	load, err := takeoff.Read(os.DirFS("."), "stack-section.yaml", takeoff.Options{})
	require.NoError(t, err)
	got, err := load.Weigh()
	require.NoError(t, err)
	want := byHand{
		"shell":            7072.92, // π × 2.39 × 0.01 × 12 = 0.9010088
		"flanges":          493.23,  // 2 × π × 2.5 × 0.1 × 0.04 = 0.0628319
		"stiffening rings": 220.18,  // 3 × π × 2.48 × 0.08 × 0.015 = 0.0280481
		"trunnions":        123.31,  // 2 × π/4 × 0.2² × 0.25 = 0.0157080
		"tail lug":         30.14,   // 0.3 × 0.04 × 0.32 = 0.00384
		"ladder with cage": 420,     // as given
	}
	require.Len(t, got.Parts, len(want))
	for _, p := range got.Parts {
		assert.InDelta(t, want[p.Name], float64(p.Best), 0.01, p.Name)
	}
	assert.InDelta(t, 8359.78*1.02, float64(got.Best), 0.05, "2 % of weld metal and paint")
	for axis, metres := range []float64{
		// Shell, flanges and ladder about 6: 7986.15 × 6, rings 220.18 × 6.0075,
		// trunnions 123.31 × 10.5, lug 30.14 × 0.2: 50 540.5 / 8359.78
		6.0457,
		0,
		// Lug 30.14 × 1.36, ladder 420 × 1.66: 738.2 / 8359.78
		0.0883,
	} {
		assert.InDelta(t, metres, got.CG[axis], 1e-4, "CG along %c", "xyz"[axis])
	}
}

// TestStackSectionShares: levers by hand. Lying: head (6.0457 − 0.2)/10.3.
// Upright: the CG is 0.0883 m and the tail lug 1.42 m to the tail's side of the
// head line, so tail 0.0883/1.42. The tail goes slack when the CG is plumb below
// the trunnions, atan(0.0883/4.4543) = 1.14° past upright. The head pick is 10.3·sin − 1.42·cos
// higher than the tail's: 5° before that 10.181 m, and 100 mm less at 83.65°.
func TestStackSectionShares(t *testing.T) {
	two := sheet(t, "stack-section.yaml").Legs.TwoHooks
	require.NotNil(t, two)
	first, last := two.Curve[0], two.Curve[len(two.Curve)-1]
	assert.InDelta(t, 0.56754, first.HeadPart, 5e-5)
	assert.InDelta(t, 1-0.0622, last.HeadPart, 1e-4)
	for _, c := range two.Curve {
		assert.InDelta(t, 8526.98*1.03*9.80665/1000, c.HeadKN+c.TailKN, 0.001, "turned %g°: kN", c.TurnedDeg)
	}
	require.Len(t, two.HandOverDeg, 1)
	assert.Less(t, two.HandOverDeg[0], 83.7, "at the best CG")
	assert.Greater(t, two.HandOverDeg[0], 82.0, "earlier at the worst")
}

// TestRinseTankByHand. Steel of 7850 kg/m³; the tank's heads as shells parallel
// to their inside, V = A·t + M·t² + 4/3·π·t³ with area A and integral of mean
// curvature M of the ellipsoid, by numerical integration outside the program.
func TestRinseTankByHand(t *testing.T) {
	load, err := takeoff.Read(os.DirFS("."), "rinse-tank.yaml", takeoff.Options{})
	require.NoError(t, err)
	want := byHand{
		"skid beams":       255.36,  // 30.4 kg/m × 4.2 × 2
		"skid cross beams": 112.54,  // 30.4 kg/m × 1.234 × 3
		"tank":             1368.06, // shell π/4 × (1.616² − 1.6²) × 3.2: 1015.19; heads 352.87
		"tank contents":    934.08,  // lying, 0.3 deep: segment × 3.2, and heads π·1.6³/12 × (0.3/1.6)² × (3 − 0.6/1.6)
		"saddles":          73.29,   // 2 × 0.016 × (1.2 × 0.425 − segment of radius 0.816 over 1.2, 0.21824)
		"pump":             380,     // as given
		"pump plate":       98.91,   // 0.9 × 0.7 × 0.02
		"lugs":             10.05,   // 2 × 0.02 × 0.16 × 0.2
	}
	got, err := load.Weigh()
	require.NoError(t, err)
	require.Len(t, got.Parts, len(want))
	for _, p := range got.Parts {
		assert.InDelta(t, want[p.Name], float64(p.Best), 0.01, p.Name)
	}
	require.Len(t, got.Allowances, 3)
	assert.InDelta(t, 0.015*1918.21, float64(got.Allowances[0].Best), 0.01, "weld metal: 1.5 % of the steel")
	// Paint: HEA 160 has 0.906 m²/m (EN 10365 tables, from memory) × 12.1 m and its
	// ends; tank about 2 × (π·1.608·3.2 + 2 × 1.084·1.608²) = 43.5 m²; saddles 1.2,
	// plate 1.3, lugs 0.2: 57.2 m² × 0.35 × 0.65 = 13.0.
	assert.InDelta(t, 13.0, float64(got.Allowances[1].Best), 0.15)
	assert.InDelta(t, 90, float64(got.Allowances[2].Best), 1e-9)

	// Dry, in the shop, the four cells read 2540 kg, 2.585 m from the datum.
	w, ok, err := load.AsWeighed(got)
	require.NoError(t, err)
	require.True(t, ok)
	assert.False(t, w.Conflict)
	assert.InDelta(t, 2540, float64(w.Shown[0].Read), 1e-9)
	assert.InDelta(t, 0.3+3.6*(809+803)/2540.0, w.Shown[0].ReadCG[0], 1e-9)
}

// TestRinseTankStates: sums of the parts that are there; full to 95 % the tank
// holds 0.95 × (π/4·1.6²·3.2 + π·1.6³/12) m³ of water.
func TestRinseTankStates(t *testing.T) {
	load, err := takeoff.Read(os.DirFS("."), "rinse-tank.yaml", takeoff.Options{})
	require.NoError(t, err)
	allowances := 0.015*1918.21 + 13.0 + 90
	for state, want := range map[string]float64{
		"shipping":   2298.21 + allowances,
		"water test": 2298.21 + allowances + 950*(math.Pi/4*1.6*1.6*3.2+math.Pi*1.6*1.6*1.6/12),
	} {
		in, err := load.In(state)
		require.NoError(t, err)
		w, err := in.Weigh()
		require.NoError(t, err)
		assert.InDelta(t, want, float64(w.Best), 0.3, state)
	}
}

// TestStairFlightByHand. Volumes in m³, steel of 7850 kg/m³.
func TestStairFlightByHand(t *testing.T) {
	weighed(t, "stair-flight.yaml", 1, byHand{
		"stringers":  188.40, // 2 × 4 × 0.012 × 0.25 = 0.024
		"treads":     160,    // as given
		"handrails":  88,     // as given
		"head plate": 22.98,  // 0.012 × 0.976 × 0.25 = 0.002928
		"south lugs": 2.26,   // 2 × 0.1 × 0.012 × 0.12 = 0.000288
		"north lugs": 2.26,   // the same
	}, 473.19, geom.Vec{ // the parts, 463.91, and 2 % of weld metal and paint, 9.28
		// All but the head plate, at 3.994, and the lugs, at 2.05, lies about 2:
		// 2 + (22.98 × 1.994 + 4.52 × 0.05) / 463.91
		2.0993,
		0.5, // all is the same to both sides
		// 371.38 × 0.125 + 88 × 0.285 + 4.52 × 0.31 = 72.90, / 463.91
		0.1572,
	})
}

// TestConveyorByHand. Volumes in m³, steel of 7850 kg/m³.
func TestConveyorByHand(t *testing.T) {
	weighed(t, "conveyor-spreader.yaml", 1, byHand{
		"side plates":        678.24, // 2 × 6 × 0.012 × 0.6 = 0.0864
		"cross members":      83.08,  // 5 × 0.012 × 1.176 × 0.15 = 0.010584
		"deck":               443.12, // 6 × 1.176 × 0.008 = 0.056448
		"head pulley":        240,    // as given
		"drive with gearbox": 620,    // as given
		"guards":             85,     // as given
	}, 2149.44, geom.Vec{
		// All about x = 3 (the cross members at 0.206 + 2 × 1.397) but the pulley,
		// the drive and the guards: 3 + (240 × 2.7 + 620 × 1.8 − 85 × 0.5)/2149.44
		3.8009,
		0.6, // symmetric
		// (678.24 × 0.3 + 83.08 × 0.275 + 443.12 × 0.354 + 240 × 0.6 + 620 × 0.64
		// + 85 × 0.75)/2149.44 = 987.74/2149.44
		0.4595,
	})
}

// TestRoofModuleByHand. Volumes in m³, steel of 7850 kg/m³.
func TestRoofModuleByHand(t *testing.T) {
	weighed(t, "roof-two-tiers.yaml", 1, byHand{
		"long beams":  434.07, // 2 × 8 × (0.1 × 0.2 − 0.088 × 0.188) = 0.055296
		"cross beams": 343.05, // 5 × 3.8 × (0.08 × 0.16 − 0.07 × 0.15) = 0.0437
		"roof sheet":  1256,   // 8 × 4 × 0.005 = 0.16
		"ventilator":  310,    // as given
		"insulation":  260,    // as given
	}, 2603.12, geom.Vec{
		4.1905, // all about x = 4 but the ventilator at 5.6: 4 + 310 × 1.6/2603.12
		2.0357, // all about y = 2 but the ventilator at 2.3: 2 + 310 × 0.3/2603.12
		// (777.12 × 0.1 + 1256 × 0.2025 + 310 × 0.56 + 260 × 0.11)/2603.12
		0.2052,
	})
}

// TestMotorRackWeight, steel at 7850 kg/m³.
//
//	base plate  2.4 × 1.4 × 0.06 = 0.2016 m³: 1582.56 kg, centre at z 0.030
//	motor       1400.00 kg, as weighed, centre at z 0.610
//	posts       4 × 0.06 × 0.06 × 0.9 = 0.01296 m³: 101.74 kg, centre at z 0.510
//	whole       3084.30 kg; z (1582.56 × 0.030 + 1400 × 0.610 + 101.74 × 0.510)/3084.30
//	            = 953.36/3084.30 = 0.3091; x 1.2 and y 0.7 by symmetry
func TestMotorRackWeight(t *testing.T) {
	weighed(t, "motor-rack.yaml", 1, byHand{"base plate": 1582.56, "motor": 1400, "lifting posts": 101.74}, 3084.30, geom.Vec{1.2, 0.7, 0.3091})
}
