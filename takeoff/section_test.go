package takeoff

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/testdata/published/inprint"
	"plumbhook/units"
)

// TestPublishedSectionWeights: what a length weighs, within half of the last printed digit
// of the mass by length.
func TestPublishedSectionWeights(t *testing.T) {
	page := inprint.Of(t, "takeoff")
	for name, tt := range map[string]struct {
		part   string
		length float64 // in the unit of the print
	}{
		"HEA 200":      {"section: HEA 200, length: 2400", 2.4},
		"IPE 300":      {"section: IPE 300, length: 6 m", 6},
		"W12x26":       {"section: W12x26, length: 20 ft", 20},
		"HSS4x4x1/4":   {"section: HSS4x4x1/4, length: 10 ft", 10},
		"UPN 200":      {"section: UPN 200, length: 1000", 1},
		"C15x50":       {"section: C15x50, length: 10 ft", 10},
		"L 100x100x10": {"section: L 100x100x10, length: 2000", 2},
		"NPS 6 sch 40": {"pipe: NPS 6 sch 40, length: 10 ft", 3.048},
		"flat 100x10":  {"section: flat 100x10, length: 2000", 2},
	} {
		w := weighed(t, head+"- {"+tt.part+", at: [0, 0, 0]}\n")
		one := units.Mass(1)
		if strings.Contains(tt.part, "ft") && name != "NPS 6 sch 40" {
			one = units.Pound
		}
		page.Is(name, "weight", float64(w.Best/one)/tt.length)
	}
}

// TestHollowSectionIsNotAreaTimesDensity: the printed area of HSS4x4x1/4, 3.37
// in² (AISC Manual Part 1, from memory), times 3.4 lb/ft per in² would be
// 11.5 lb/ft, 6 % short of the printed 12.21.
func TestHollowSectionIsNotAreaTimesDensity(t *testing.T) {
	w := weighed(t, head+"- {section: HSS4x4x1/4, length: 1 ft, at: [0, 0, 0]}\n")
	assert.Greater(t, float64(w.Best/units.Pound), 12.2)
}

func TestSectionBasisNamesTheTable(t *testing.T) {
	p := good(t, head+"- {section: HEA 200, from: [0, 0, 0], to: [2400, 0, 0]}\n").Parts[0]
	assert.Contains(t, p.Basis, "42.3 kg/m (28.42 lb/ft) of EN 10365 HEA 200 (read) × 2.400 m")
	assert.Contains(t, p.Basis, "±4 %: EN 10034")
	assert.InDelta(t, -0.04, p.Low, 1e-12, "EN 10034: mass of a delivered section ±4 %")
	assert.Equal(t, "HEA 200", p.Written)

	own := good(t, head+"- {section: HEA 200, length: 2400, at: [0, 0, 0], tolerance: 1 %}\n").Parts[0]
	assert.InDelta(t, 0.01, own.High, 1e-12, "a written tolerance goes before that of the standard")
	assert.Equal(t, "HEA 200, length 2400", own.Written)

	// EN 10060 round bar: the table has no tolerance of the mass for it.
	bar := good(t, head+"- {section: round 20, length: 1000, at: [0, 0, 0]}\n").Parts[0]
	assert.Contains(t, bar.Basis, "spread of the density alone")
}

// TestSectionOfAnotherMaterial: the mass by the table times density over 7850
// kg/m³. Aluminium is 2700 kg/m³ (EN 1999-1-1, from memory): 42.3 × 2.4 × 2700
// / 7850 = 34.92 kg.
func TestSectionOfAnotherMaterial(t *testing.T) {
	w := weighed(t, head+"- {section: HEA 200, length: 2400, at: [0, 0, 0], material: aluminium}\n")
	assert.InDelta(t, 34.92, float64(w.Best), 0.01)
	assert.Contains(t, w.Parts[0].Basis, "× 2700 / 7850 of aluminium")

	// 490 lb/ft³ is steel, 0.01 % below 7850 kg/m³, and not scaled.
	same := weighed(t, head+"- {section: HEA 200, length: 2400, at: [0, 0, 0], material: {name: steel, density: 490 lb/ft3}}\n")
	assert.InDelta(t, 101.52, float64(same.Best), 1e-9)

	l := good(t, "load: a\nunits: mm\nmaterial: concrete\nparts:\n- {name: beam, section: HEA 200, length: 2400, at: [0, 0, 0]}\n")
	require.Equal(t, "section-not-steel", l.Warnings[0].Code, "a section that takes the load's light material is asked about")
}

// TestCutInASection: a hole of 50 in the web of HEA 200, 6.5 thick, takes away
// π/4 × 0.050² × 0.0065 × 7850 = 0.1002 kg; the density that fits the printed
// mass to the outline is within 0.2 % of 7850.
func TestCutInASection(t *testing.T) {
	w := weighed(t, head+`- section: HEA 200
  from: [0, 0, 0]
  to: [2400, 0, 0]
  cuts:
  - cylinder: {diameter: 50}
    from: [600, -3.25, 0]
    to: [600, 3.25, 0]
`)
	assert.InDelta(t, 101.52-0.1002, float64(w.Best), 0.0003)
	assert.Greater(t, w.CG[0], 1.2, "the CG moves away from the hole")
}

// TestChannelLiesOffItsBack: UPN 200 has its centroid 20.1 mm from the back of
// its web (EN 10365, from memory), and its flanges to the left of the way.
func TestChannelLiesOffItsBack(t *testing.T) {
	there := weighed(t, head+"- {section: UPN 200, from: [0, 0, 0], to: [1000, 0, 0], up: z, line: back}\n")
	near3(t, geom.Vec{0.5, 0.0201, 0}, there.CG, 0.0001, "CG, printed to 0.1 mm")
	assert.InDelta(t, 0, there.Extent.Min[1], 1e-9, "its back is on the line")
	back := weighed(t, head+"- {section: UPN 200, from: [1000, 0, 0], to: [0, 0, 0], up: z, line: back}\n")
	near3(t, geom.Vec{0.5, -0.0201, 0}, back.CG, 0.0001, "the other way round")
}

// TestAngleStandsOnItsHeel: L 150x100x10 has its centroid 48.1 mm along the
// long leg and 23.4 mm along the short one from the heel (EN 10056-1, from
// memory: cx 4.81, cy 2.34 cm).
func TestAngleStandsOnItsHeel(t *testing.T) {
	w := weighed(t, head+"- {section: L 150x100x10, from: [0, 0, 0], to: [1000, 0, 0], up: z, line: heel}\n")
	near3(t, geom.Vec{0.5, 0.0234, 0.0481}, w.CG, 0.0002, "CG")
	near3(t, geom.Vec{1, 0.1, 0.15}, w.Extent.Max, 1e-9, "short leg to the left of the way, long leg up")
}

// TestTeeHangsFromItsFlange: of T 50 the flange is on top where up points; its
// centroid is 13.9 mm below it (EN 10055, from memory).
func TestTeeHangsFromItsFlange(t *testing.T) {
	w := weighed(t, head+"- {section: T 50, from: [0, 0, 0], to: [1000, 0, 0], up: z, line: top}\n")
	near3(t, geom.Vec{0.5, 0, -0.0139}, w.CG, 0.0002, "CG")
	assert.InDelta(t, 0, w.Extent.Max[2], 1e-9)
	assert.InDelta(t, -0.050, w.Extent.Min[2], 1e-9)
}
