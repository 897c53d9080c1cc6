package takeoff

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/units"
)

func TestLugsFittingsAndTheLink(t *testing.T) {
	g := good(t, head+sound+`
picks:
  - {name: A, at: [0, 0, 0], lug: {normal: [3, 4, 0], axis: -z, hole: 40, thickness: 25, width: 120, edge: 2 in, yield: 50 ksi, tensile: 450 MPa, category: B}}
  - {name: B, at: [1000, 0, 0], lug: {hole: 40}, fitting: {shackle: 4.75 t, rated: 5 t}}
  - {name: C, at: [0, 900, 0], lug: {normal: y}, fitting: {eyebolt: M20, axis: [0, 0, 5]}}
  - {name: D, at: [0, 900, 100], fitting: {swivel hoist ring: 3/4 in}}
legs: {lengths: 3000, link: 8 t}
`).Rigging
	assert.InDelta(t, 0.6, g.Picks[0].Lug.Normal[0], 1e-12, "of length 1")
	assert.Equal(t, geom.Vec{0, 0, -1}, g.Picks[0].Lug.Axis)
	p := g.Picks[0].Plate
	assert.InDelta(t, 0.0508, p.Edge, 1e-12)
	assert.InDelta(t, 344.738e6, float64(p.Yield), 1e3, "50 ksi (NIST SP 811)")
	assert.Equal(t, units.Strength(450e6), p.Tensile)
	assert.Equal(t, "B", p.Category)
	assert.Nil(t, g.Picks[1].Lug, "nothing is said of how its plate stands")
	assert.Equal(t, &LugPlate{Hole: 0.040}, g.Picks[1].Plate)
	assert.Equal(t, "shackle", g.Picks[1].Fitting.Kind)
	assert.Equal(t, "4.75 t", g.Picks[1].Fitting.Size)
	assert.Equal(t, units.Mass(5000), g.Picks[1].Fitting.Rated)
	assert.Nil(t, g.Picks[2].Plate)
	assert.Equal(t, geom.Vec{0, 0, 1}, g.Picks[2].Lug.Axis, "it stands where nothing is said")
	assert.Equal(t, geom.Vec{0, 0, 1}, g.Picks[2].Fitting.Axis)
	assert.Equal(t, "3/4 in", g.Picks[3].Fitting.Size)
	assert.Equal(t, units.Mass(8000), g.Legs.Link)
}

// badFittings stand after head and sound, on line 8; the places were counted by hand.
var badFittings = []struct{ name, at, about, text, fix string }{
	{"no kind", "8:43", "fitting: {axis: z}", "the fitting has no kind", "{eyebolt: M20}"},
	{"two kinds", "8:67", "fitting: {eyebolt: M20, shackle: 2 t}", "two kinds", "the weaker"},
	{"unknown kind", "8:44", "fitting: {hook: 2 t}", `unknown key "hook" in a fitting`, "eyebolt"},
	{"axis of a shackle", "8:64", "fitting: {shackle: 2 t, axis: z}", "`axis` says nothing of a shackle", "lug: {normal: y}"},
	{"axis of a turnbuckle", "8:68", "fitting: {turnbuckle: 1 in, axis: z}", "`axis` says nothing of a turnbuckle", "take it away"},
	{"rated without a unit", "8:65", "fitting: {eyebolt: M20, rated: 2}", `"2"`, "kg"},
	{"rated alone", "8:43", "fitting: {rated: 2 t}", "the fitting has no kind", "{eyebolt: M20}"},
	{"no size", "8:44", "fitting: {eyebolt: ''}", "`eyebolt` has no value", "M20"},
	{"axis of nothing", "8:64", "fitting: {eyebolt: M20, axis: [0, 0, 0]}", "is no direction", "a direction"},
	{"plate without a hole", "8:51", "lug: {thickness: 25}", "`thickness` of a lug without its hole", "`hole:`"},
	{"hole of nothing", "8:46", "lug: {hole: 0}", "must be more than zero", "a length"},
	{"narrower than its hole", "8:57", "lug: {hole: 40, width: 40}", "nothing is left beside the hole", "`width` and `hole`"},
	{"edge in the hole", "8:56", "lug: {hole: 40, edge: 20}", "nothing is left before the hole", "centre of the hole"},
	{"strength without unit", "8:57", "lug: {hole: 40, yield: 355}", `"355"`, "MPa"},
	{"strength of a slip", "8:57", "lug: {hole: 40, yield: 355 psi}", "from 20 MPa to 2500 MPa", "look at its unit"},
	{"yield over tensile", "8:57", "lug: {hole: 40, yield: 500 MPa, tensile: 400 MPa}", "more than the tensile strength", "look at"},
	{"category", "8:60", "lug: {hole: 40, category: D}", `"D"`, "A or B"},
	{"axis without a plate", "8:39", "lug: {axis: z}", "says nothing without the plate", "`normal:`"},
	{"axis out of the plate", "8:39", "lug: {normal: y, axis: y}", "90° out of its plate", "foot to its hole"},
	{"a word", "8:39", "lug: y", "a lug must be a group of keys", "normal"},
}

func TestBadFittings(t *testing.T) {
	for _, tt := range badFittings {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, head+sound+"picks: [{name: A, at: [0, 0, 0], "+tt.about+"}]\n")
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
	p := problemsOf(t, head+sound+"legs: {lengths: 3000, link: 8}\n")
	require.Len(t, p, 1)
	assert.Equal(t, 29, p[0].Column)
	assert.Contains(t, p[0].Fix, "kg")
}

// pageHardware stands in the reference page over the keys of lugs and fittings.
var pageHardware = map[string]string{
	"a lug": `What stands after ` + "`lug`" + ` at a pick. ` + "`normal`" + ` says how the plate stands: a leg that pulls out of it pulls
the shackle from the side, and that holds less. ` + "`hole`" + ` is held against the pins of shackles.
With all the rest an **outline** of the plate by ASME BTH-1 3-3.3 is printed, to be verified by an
engineer: the plate round its hole, pulled in its own plane, without weld and what it stands on.
It can warn, and makes no lift acceptable.

`,
	"a fitting": `What stands after ` + "`fitting`" + ` at a pick: one kind, by its size in the tables of the rule set, held
against the worst pull of its leg at the angle that this has from the bolt. ` + "`rated`" + ` is what is
marked on it, for a pull in line; without it the table is gone by, and a size that is not there is
an error. Too small, or pulled from where it may not be: the lift is not acceptable.

`,
}
