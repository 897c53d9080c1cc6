package density_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/density"
)

func TestPipeWeightsAsPrinted(t *testing.T) {
	// The published list goes by the older factor 10.68 of 0.2833 lb/in³; B36.10M
	// states 10.69, 0.1 % more. The rest is rounding to 0.01 lb/ft.
	const source = "plain-end weights of ASME B36.10M sizes (from memory)"
	rows := []struct {
		name   string
		weight float64 // lb/ft
		mass   float64 // kg/m by the metric formula, from exact inches
	}{
		{"NPS 1/2 sch 40", 0.85, 1.27}, {"NPS 1 STD", 1.68, 2.50}, {"NPS 2 sch 40", 3.65, 5.44}, {"NPS 2 XS", 5.02, 7.48},
		{"NPS 3 sch 40", 7.58, 11.29}, {"NPS 4 sch 40", 10.79, 16.07}, {"NPS 4 sch 80", 14.98, 22.32},
		{"NPS 6 sch 40", 18.97, 28.27}, {"NPS 6 sch 80", 28.57, 42.57}, {"NPS 8 sch 40", 28.55, 42.54},
		{"NPS 10 sch 40", 40.48, 60.31}, {"NPS 12 STD", 49.56, 73.84}, {"NPS 12 sch 40", 53.52, 79.74},
		{"NPS 16 STD", 62.58, 93.23}, {"NPS 20 STD", 78.6, 117.09}, {"NPS 24 STD", 94.62, 140.96}, {"NPS 24 XS", 125.49, 186.95},
	}
	for _, row := range rows {
		s, err := density.FindSection(row.name)
		require.NoError(t, err, row.name)
		assert.InDelta(t, row.weight, s.PerLength/poundPerFoot, 0.0055+0.0011*row.weight, "%s: lb/ft (%s)", row.name, source)
		assert.InEpsilon(t, row.mass, s.PerLength, 0.003, "%s: kg/m", row.name)
	}
	const shapes = "AISC Manual Table 1-14 as carried in an open dataset"
	for name, weight := range map[string]string{"NPS 26 STD": "103", "NPS 18 XS": "93.5", "NPS 14 STD": "54.6", "NPS 12 XXS": "126",
		"NPS 10 XXS": "104", "NPS 10 XS": "54.8", "NPS 8 XXS": "72.5", "NPS 6 XXS": "53.2", "NPS 5 XS": "20.8", "NPS 4 XXS": "27.6",
		"NPS 3-1/2 XS": "12.5", "NPS 3 XXS": "18.6", "NPS 2-1/2 XXS": "13.7", "NPS 2 XXS": "9.04", "NPS 1-1/4 STD": "2.27", "NPS 3/4 XS": "1.48"} {
		s, err := density.FindSection(name)
		require.NoError(t, err, name)
		assert.InDelta(t, number(t, weight), s.PerLength/poundPerFoot, lastPlace(weight)*0.6, "%s: lb/ft (%s)", name, shapes)
	}
}

// The metric name of a pipe is weighed from millimetres by the metric formula.
func TestPipeByDN(t *testing.T) {
	s, err := density.FindSection("DN 150 sch 40")
	require.NoError(t, err)
	assert.InDelta(t, 0.1683, s.Depth, 1e-12, "168.3 mm (ASME B36.10M, open dataset)")
	assert.InDelta(t, 0.00711, s.Wall, 1e-12, "7.11 mm (ASME B36.10M, open dataset)")
	assert.InDelta(t, 28.26, s.PerLength, 0.0051, "kg/m (ASME B36.10M, from memory)")
	stainless, err := density.FindSection("NPS 6 sch 10S")
	require.NoError(t, err)
	assert.Equal(t, "ASME B36.19M", stainless.Standard)
	assert.Contains(t, stainless.Note, "2 % heavier")
}

func TestPipeNames(t *testing.T) {
	for name, want := range map[string]string{
		"NPS 6 schedule 40": "NPS 6 sch 40", `6" sch 40`: "NPS 6 sch 40", "6 in. sch 40": "", "6 inch sch 40 pipe": "NPS 6 sch 40",
		"pipe NPS 6 STD": "NPS 6 sch 40", `6" XS`: "NPS 6 sch 80", "NPS 1-1/2 sch 80": "NPS 1-1/2 sch 80",
		"nps 1 1/2 sch80": "NPS 1-1/2 sch 80", "NPS 1.5 XS": "NPS 1-1/2 sch 80", "DN40 XS": "DN 40 sch 80",
		"NPS 0.5 sch 40": "NPS 1/2 sch 40", "NPS 12 sch STD": "NPS 12 sch STD",
	} {
		s, err := density.FindSection(name)
		if want == "" {
			assert.Error(t, err, name)
			continue
		}
		if assert.NoError(t, err, name) {
			assert.Equal(t, want, s.Name, name)
		}
	}
	// A size without a schedule is not a pipe yet.
	_, err := density.FindSection("NPS 6")
	var unknown *density.UnknownError
	require.ErrorAs(t, err, &unknown)
	assert.True(t, unknown.Several)
	assert.Contains(t, unknown.Near, "NPS 6 sch 40")
}

func TestRoundTubeEN10220(t *testing.T) {
	const source = "EN 10220: 0.0246615 (D - T) T"
	for name, mass := range map[string]string{"CHS 21.3 x 2.6": "1.20", "CHS 33.7 x 3.2": "2.41", "CHS 48.3 x 3.2": "3.56",
		"CHS 60.3 x 3.6": "5.03", "CHS 76.1 x 3.6": "6.44", "CHS 88.9 x 4.0": "8.38", "CHS 114.3 x 4.5": "12.19",
		"CHS 139.7 x 5.0": "16.61", "CHS 168.3 x 5.6": "22.47", "CHS 219.1 x 6.3": "33.06", "CHS 273 x 6.3": "41.44",
		"CHS 323.9 x 8.0": "62.32", "CHS 406.4 x 8.8": "86.29", "CHS 508 x 10": "122.81", "CHS 610 x 12.5": "184.19"} {
		s, err := density.FindSection(name)
		require.NoError(t, err, name)
		assert.InDelta(t, number(t, mass), s.PerLength, 0.0051, "%s: kg/m (%s)", name, source)
		assert.InEpsilon(t, s.PerLength, s.OutlineArea()*7850, 1e-5, name)
	}
}

func TestBars(t *testing.T) {
	const source = "7850 kg/m³ and 490 lb/ft³; AISC Manual bar tables (from memory)"
	kilograms := map[string]string{"round 8": "0.395", "round 10": "0.617", "round 12": "0.888", "round 16": "1.578", "round 20": "2.466",
		"round 25": "3.853", "round 30": "5.549", "round 40": "9.865", "round 50": "15.413", "round 60": "22.195", "round bar 80 mm": "39.458",
		"ø100": "61.654", "flat 20x5": "0.78", "flat 30x5": "1.18", "flat 40 x 5": "1.57", "flat 50x6": "2.35", "flat 60x8": "3.77",
		"flat 80x8": "5.02", "flat 80x10": "6.28", "flat bar 100x10": "7.85", "flat 120x12": "11.30", "flat 150x15": "17.66",
		"flat 200x20": "31.40", "flat 300x25 mm": "58.88", "square 20": "3.14"}
	for name, mass := range kilograms {
		s, err := density.FindSection(name)
		require.NoError(t, err, name)
		assert.InDelta(t, number(t, mass), s.PerLength, lastPlace(mass)*0.51, "%s: kg/m (%s)", name, source)
	}
	pounds := map[string]string{"round 0.25 in": "0.167", `round 3/8"`: "0.376", "round 1/2": "0.668", "round 5/8 in": "1.044",
		"round 3/4 in": "1.503", "round 1 in": "2.673", "round 1-1/4 in": "4.176", "rod 1 1/2 in": "6.013", `round 2"`: "10.690",
		"round 2-1/2 in": "16.703", "round 3 in": "24.053", "round 4 in": "42.761", "square 1 in": "3.403", "flat 4 x 1/2 in": "6.806"}
	for name, weight := range pounds {
		s, err := density.FindSection(name)
		require.NoError(t, err, name)
		assert.InDelta(t, number(t, weight), s.PerLength/poundPerFoot, 0.0011, "%s: lb/ft (%s)", name, source)
	}
}
