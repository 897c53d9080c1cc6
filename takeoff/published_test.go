package takeoff

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"plumbhook/geom"
	"plumbhook/testdata/published/inprint"
	"plumbhook/units"
)

// Engineering Statics: Open and Interactive (Baker, Haynes), section 7, "3D
// Center of Mass": a block of 216 ft³ at 125 lb/ft³ with its centroid at
// (-3, 2, 4.5), a round hole of 50.27 ft³ at (-3, 2, 6), a steel wedge of 12 ft³
// at 493 lb/ft³ at (-4, 4.67, 1), all in feet. Printed: 26633 lb at
// (-3.22, 2.59, 3.37). The sides are chosen here to give those volumes and
// centroids; the text calls the hole centred, its table has z = 6 and is used.
const blockAndWedge = `
load: block with hole and wedge
units: ft
parts:
- name: block
  box: 6 x 4 x 9
  center: [-3, 2, 4.5]
  material: {name: masonry, density: 125 lb/ft3, tolerance: 0 %}
  cuts:
  - cylinder: {diameter: 4}
    from: [-3, 0, 6]
    to: [-3, 4, 6]
- name: wedge
  prism: {base: 2, top: 0, height: 3, length: 4}
  turn: [x 90, z 90]
  corner: [-6, 4, 0]
  material: {name: steel of the book, density: 493 lb/ft3, tolerance: 0 %}
`

func TestPublishedBlockAndWedge(t *testing.T) {
	w := weighed(t, blockAndWedge)
	const name = "block with hole and wedge"
	page := inprint.Of(t, "takeoff")
	page.Is(name, "weight", float64(w.Best/units.Pound))
	for i, axis := range []string{" x", " y", " z"} {
		page.Is(name, "centroid"+axis, w.CG[i]/float64(units.Foot))
		page.Is(name, "centroid of the wedge"+axis, w.Parts[1].CG[i]/float64(units.Foot))
	}
	near3(t, w.CG, w.Range.Min, 1e-12, "no tolerance, no range")
	near3(t, w.CG, w.Range.Max, 1e-12, "no tolerance, no range")
}

// Beer & Johnston, Vector Mechanics for Engineers: Statics, sample problem 5.7:
// the rim of a steel pulley of 0.8 m outside diameter, a section of 100 x 50 mm
// less 60 x 30 mm at mean radii of 375 and 365 mm; density 7850 kg/m³. Answer
// 60.0 kg (dimensions and answer from memory; 60.08 kg by the exact formula, as
// the book rounds its volumes to four digits).
func TestPublishedPulleyRim(t *testing.T) {
	w := weighed(t, `
load: pulley rim
units: mm
material: {name: steel, density: 7.85 g/cm3, tolerance: 0 %}
parts:
- name: rim
  tube: {outside: 800, wall: 50, height: 100}
  along: y
  center: [0, 0, 400]
  cuts:
  - tube: {outside: 760, wall: 30, height: 60}
    along: y
    center: [0, 0, 400]
`)
	inprint.Of(t, "takeoff").Is("pulley rim of steel", "weight", float64(w.Best))
	near3(t, geom.Vec{0, 0, 0.4}, w.CG, 1e-12, "CG")
}

// Hibbeler, Engineering Mechanics: Statics, problem 9-51: a truss of five
// uniform members of 4 m; a pick point for which it does not turn is at
// d = 60/20 = 3 m from A. The layout, two equilateral triangles side by side,
// is drawn here from the answer.
func TestPublishedTruss(t *testing.T) {
	const rods = `
load: truss
units: m
material: steel
parts:
- {name: AB, rod: {diameter: 50 mm}, from: [0, 0, 0], to: [4, 0, 0]}
- {name: AD, rod: {diameter: 50 mm, length: 4}, from: [0, 0, 0], to: [2, 0, 3.4641016]}
- {name: BD, rod: {diameter: 50 mm}, from: [2, 0, 3.4641016], to: [4, 0, 0]}
- {name: BC, rod: {diameter: 50 mm, height: 4}, from: [4, 0, 0], to: [6, 0, 3.4641016]}
- {name: CD, rod: {diameter: 50 mm}, from: [6, 0, 3.4641016], to: [2, 0, 3.4641016]}
`
	const weights = `
load: truss
units: m
parts:
- {name: AB, weight: 16 kg, at: [2, 0, 0], status: weighed}
- {name: AD, weight: 16 kg, at: [1, 0, 1.7320508], status: weighed}
- {name: BD, weight: 16 kg, at: [3, 0, 1.7320508], status: weighed}
- {name: BC, weight: 16 kg, at: [5, 0, 1.7320508], status: weighed}
- {name: CD, weight: 16 kg, at: [4, 0, 3.4641016], status: weighed}
`
	page := inprint.Of(t, "takeoff")
	for _, text := range []string{rods, weights} {
		page.Is("truss of five members", "pick from A", weighed(t, text).CG[0])
	}
}

// Engineering Statics: Open and Interactive, section 7, "Simple Center of
// Gravity": 50, 10 and 30 N at 0, 1.2 and 2.0 m. Printed: 0.8 m.
func TestPublishedThreeWeights(t *testing.T) {
	w := weighed(t, `
load: three weights
units: m
parts:
- {name: a, weight: 50 kg, at: [0, 0, 0], status: weighed}
- {name: b, weight: 10 kg, at: [1.2, 0, 0], status: weighed}
- {name: c, weight: 30 kg, at: [2.0, 0, 0], status: weighed}
`)
	inprint.Of(t, "takeoff").Is("50, 10 and 30 N at 0, 1.2 and 2.0 m", "centre of gravity", w.CG[0])
	// Farthest along +x, each ±3 %: the two that lie beyond are heavy, the
	// first is light: (12 + 60)·1.03 / (50·0.97 + 40·1.03) = 0.826756 m.
	assert.InDelta(t, 0.826756, w.CGReach(geom.Vec{1, 0, 0}), 1e-6)
	assert.Equal(t, w.Range.Max[0], w.CGReach(geom.Vec{1, 0, 0}))
}

// Inertia of a slender rod about its middle m·L²/12 and of a plate
// m·(a² + b²)/12: standard tables, from memory.
func TestInertia(t *testing.T) {
	w := weighed(t, "load: a\nunits: m\nparts:\n- {name: plate, weight: 12 kg, box: 3 m x 4 m x 1 mm, at: [7, 8, 9], status: weighed}\n")
	assert.InDelta(t, 12*(9+16)/12, w.Inertia.At(2, 2), 1e-9)
	assert.InDelta(t, 12*16/12, w.Inertia.At(0, 0), 1e-4, "thin: 1 mm")
	w = weighed(t, "load: a\nunits: m\nparts:\n- {name: one, weight: 2 kg, at: [1, 2, 3], count: 2, step: [2, 2, 0], status: weighed}\n")
	// Two points of 2 kg at ±(1, 1, 0) from the CG: Ixx = Σm·y² = 4, Ixy = −Σm·xy = −4.
	assert.InDelta(t, 4, w.Inertia.At(0, 0), 1e-12)
	assert.InDelta(t, 8, w.Inertia.At(2, 2), 1e-12)
	assert.InDelta(t, -4, w.Inertia.At(0, 1), 1e-12, "products carry a minus sign")
}
