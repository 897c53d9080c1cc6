package takeoff

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The tolerance that a part gets by its form, in %. The limits of plate are
// those of EN 10029:1991, Table 1, class A (read), or as named; with the ±0.5 %
// of the density of steel (1 + a)(1 + b) − 1, by hand.
func TestToleranceByForm(t *testing.T) {
	plate := func(low, high float64) (l, h float64) { return (1+low)*0.995 - 1, (1+high)*1.005 - 1 }
	tests := []struct {
		name, part string
		low, high  float64 // before the density, as parts
		density    bool
		basis      string
	}{
		{"plate of 10 mm", "plate: 2000 x 1000 x 10", -0.5 / 10, 1.2 / 10, true, "EN 10029:1991, Table 1"},
		{"plate of 20 mm", "plate: 2000 x 1000 x 20", -0.6 / 20, 1.3 / 20, true, "EN 10029:1991, Table 1"},
		{"plate of 50 mm, standing", "plate: 50 x 1000 x 2000", -1.0 / 50, 1.8 / 50, true, "±0.5 % of the density"},
		{"on the edge of two bands", "plate: 2000 x 1000 x 15", -0.6 / 15, 1.3 / 15, true, "the wider of each"},
		{"outline", "plate: {outline: [[0, 0], [900, 0], [0, 900]], thickness: 10}", -0.05, 0.12, true, "EN 10029:1991"},
		{"sheet", "plate: 2000 x 1000 x 2", -0.1, 0.1, true, "common practice, no source"},
		{"slab above the table", "plate: 2000 x 1000 x 500", -1.2 / 250, 2.4 / 250, true, "carried on: common practice, no source"},
		{"plate of stainless steel", "material: 316L, plate: 2000 x 1000 x 10", 0.95*0.99 - 1, 1.12*1.01 - 1, false, "EN 10029:1991"},
		{"plate of another metal", "material: {name: alloy, density: 2700 kg/m3, tolerance: 2 %}, plate: 2000 x 1000 x 10", -0.02, 0.02, false, "limits on plate are those of steel"},
		{"box", "box: 2000 x 1000 x 10", -0.005, 0.005, false, "sizes taken as exact"},
		{"box as plate", "form: plate, box: 2000 x 1000 x 10", -0.05, 0.12, true, "thickness of plate"},
		{"class B", "form: EN 10029 class B, plate: 2000 x 1000 x 10", -0.3 / 10, 1.4 / 10, true, "EN 10029 class B"},
		{"US plate", "form: A6 plate, plate: 2000 x 1000 x 25.4", -0.254 / 25.4, 1.524 / 25.4, true, "from memory"},
		{"casting", "form: casting, box: 100 x 100 x 100", -0.05, 0.05, true, "3 to 5 % from a drawing"},
		{"bought in", "form: bought in, box: 100 x 100 x 100", -0.1, 0.1, true, "common practice, no source"},
		{"pressure pipe", "form: pressure pipe, tube: {outside: 100, wall: 10, height: 500}", -0.125, 0.125, true, "wall of pressure pipe"},
		{"section of another form", "form: ASTM A6 shapes, section: HEA 200, length: 2000", -0.025, 0.025, false, "mass of ASTM A6 shapes"},
		{"status wider", "status: estimated, plate: 2000 x 1000 x 10", -0.25, 0.25, false, "estimated"},
		{"status narrower", "status: weighed, plate: 2000 x 1000 x 10", -0.05, 0.12, true, "EN 10029:1991"},
		{"as written", "tolerance: 3 %, form: casting, plate: 2000 x 1000 x 10", -0.03, 0.03, false, "as written"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			at := ", at: [0, 0, 0]}\n"
			l := good(t, head+"- {name: a, "+tt.part+at)
			low, high := tt.low, tt.high
			if tt.density {
				low, high = plate(low, high)
			}
			assert.InDelta(t, low, l.Parts[0].Low, 1e-12)
			assert.InDelta(t, high, l.Parts[0].High, 1e-12)
			if tt.basis != "the wider of each" {
				assert.Contains(t, l.Parts[0].Basis, tt.basis)
			}
		})
	}
}

// A status that is wider on one side only widens that side.
func TestStatusWidensEachSide(t *testing.T) {
	p := good(t, head+"- {name: a, status: calculated, plate: 2000 x 1000 x 10, at: [0, 0, 0]}\n").Parts[0]
	assert.InDelta(t, -0.1, p.Low, 1e-12)
	assert.InDelta(t, 1.12*1.005-1, p.High, 1e-12)
}

// A casting of cast iron: the spread of its density, 2 %, with the 5 % of its
// sizes (common practice, no source).
func TestFormIsKept(t *testing.T) {
	p := good(t, head+"- {name: a, form: casting, box: 9 x 9 x 9, at: [0, 0, 0], material: cast iron}\n").Parts[0]
	assert.Equal(t, "casting", p.Form)
	assert.InDelta(t, 1.05*1.02-1, p.High, 1e-12)
	assert.InDelta(t, 0.95*0.98-1, p.Low, 1e-12)
}

func TestBadForms(t *testing.T) {
	for _, tt := range []struct{ name, part, text, fix string }{
		{"unknown", "form: castng, box: 9 x 9 x 9", "\"castng\" is no product form", "did you mean \"casting\"?"},
		{"of a weight", "form: casting, weight: 9 kg, tolerance: 1 %", "a known weight has no product form", "`status: catalogue`"},
		{"of a weld", "form: casting, weld: {leg: 6, length: 900}", "known by its mass", "`tolerance:`"},
		{"of another material", "form: plate, box: 9 x 9 x 9, material: concrete", "those of steel", "take `form` away"},
		{"without the size that counts", "form: EN 10279, box: 9 x 9 x 9", "go by the depth", "`tolerance:`"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, head+"- {name: a, "+tt.part+", at: [0, 0, 0]}\n")
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, 5, p[0].Line)
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
		})
	}
}
