package geom

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/testdata/published/inprint"
)

// twoPieces are the solids of revolution of the text's Pappus problems: what
// is added less what is taken away.
func twoPieces(add []Moments, take ...Moments) Moments {
	var sum Moments
	for _, m := range add {
		sum = sum.Plus(m)
	}
	for _, m := range take {
		sum = sum.Minus(m)
	}
	return sum
}

func regular(n int, acrossFlats float64) []mgl64.Vec2 {
	ring := make([]mgl64.Vec2, n)
	for i := range ring {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r := acrossFlats / 2 / math.Cos(math.Pi/float64(n))
		ring[i] = mgl64.Vec2{r * cos, r * sin}
	}
	return ring
}

// solid is the volume of a shape in print, and the factor from it to the printed figure.
type solid struct {
	got    Moments
	factor float64
}

// holdVolumes asks for the one figure of each solid: its volume or what it weighs.
func holdVolumes(t *testing.T, solids map[string]solid) {
	t.Helper()
	page := inprint.Of(t, "geom")
	for _, v := range page.Rows() {
		s, known := solids[v.Item]
		require.True(t, known, v.Item)
		page.Is(v.Item, v.Quantity, s.got.Volume*s.factor)
	}
}

// TestPublishedVolumes holds volumes, and weights that come from them, to
// figures in print. A figure is right to half of its last printed digit; the
// sizes are in the unit of the source, which the formulas do not mind. The tables print
// 2.945 and 2.817 lb/ft for hexagon and octagon; exact at 490 lb/ft³ are 2.9469, 2.8190.
func TestPublishedVolumes(t *testing.T) {
	const lbPerFootPerSquareInch = 490.0 / 144 // steel, AISC (from memory)
	const pipe = 0.2833                        // lb/in³
	bar := func(ring []mgl64.Vec2) Moments { return made(NewPolygon(ring, nil, 1)).Moments() }
	weld := func(leg float64) Moments { return made(NewPrism(leg, 0, leg, 1)).Moments() }
	holdVolumes(t, map[string]solid{
		"cone, 3 ft radius, 10 ft high": {made(NewCone(6, 0, 10)).Moments(), 1},
		"cylinder under a cone": {twoPieces([]Moments{
			made(NewCylinder(3, 2)).Moments(),
			made(NewCone(3, 0, 2)).Moments()}), 1},
		"ring of rectangle and triangle": {twoPieces([]Moments{
			made(NewTube(4.8, 0.9, 1.5)).Moments(),
			made(NewCone(4.8, 3, 1.2)).Moments().Posed(at(0, 0, 1.5))},
			made(NewCylinder(3, 1.2)).Moments().Posed(at(0, 0, 1.5))), 1 / math.Pi},
		"pulley rim of steel": {twoPieces([]Moments{made(NewTube(0.8, 0.05, 0.1)).Moments()},
			made(NewTube(0.76, 0.03, 0.06)).Moments().Posed(at(0, 0, 0.02))), 7850},
		"block":             {made(NewBox(6, 4, 9)).Moments(), 1},
		"hole":              {made(NewCylinder(4, 4)).Moments(), 1},
		"wedge":             {made(NewPrism(2, 0, 3, 4)).Moments(), 1},
		"pipe NPS 2 sch 40": {made(NewTube(2.375, 0.154, 12)).Moments(), pipe},
		"pipe NPS 6 sch 40": {made(NewTube(6.625, 0.280, 12)).Moments(), pipe},
		"pipe NPS 12 STD":   {made(NewTube(12.75, 0.375, 12)).Moments(), pipe},
		"pipe NPS 24 XS":    {made(NewTube(24, 0.5, 12)).Moments(), pipe},
		"round bar 1 in":    {made(NewCylinder(1, 1)).Moments(), lbPerFootPerSquareInch},
		"square bar 1 in":   {made(NewBox(1, 1, 1)).Moments(), lbPerFootPerSquareInch},
		"hexagon bar 1 in":  {bar(regular(6, 1)), lbPerFootPerSquareInch},
		"octagon bar 1 in":  {bar(regular(8, 1)), lbPerFootPerSquareInch},
		// One and a half times the triangle, as the print counts.
		"fillet weld 1/4 in":  {weld(0.25), 1.5 * lbPerFootPerSquareInch},
		"fillet weld 5/16 in": {weld(0.3125), 1.5 * lbPerFootPerSquareInch},
		"fillet weld 3/8 in":  {weld(0.375), 1.5 * lbPerFootPerSquareInch},
		"fillet weld 5/8 in":  {weld(0.625), 1.5 * lbPerFootPerSquareInch},
		"fillet weld 1/2 in":  {weld(0.5), 1.5 * lbPerFootPerSquareInch},
		"fillet weld 3/4 in":  {weld(0.75), 1.5 * lbPerFootPerSquareInch},
	})
}

// TestPublishedCentroids holds volume and centroid to the check values of a
// centroid table. The table has six decimals.
func TestPublishedCentroids(t *testing.T) {
	l := []mgl64.Vec2{{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 3}, {0, 3}}
	solids := map[string]Moments{
		// Prisms: the table measures from the right angle, geom from the middle.
		"right triangle 3 x 2, long 4": made(NewPrism(3, 0, 2, 4)).Moments().Posed(at(1.5, 1, 0)),
		"trapezoid 3 and 1, 2 high":    made(NewPrism(3, 1, 2, 1)).Moments().Posed(at(1.5, 1, 0)),
		"cone":                         made(NewCone(6, 0, 10)).Moments(),
		"cone frustum":                 made(NewCone(2, 1, 2)).Moments(),
		"cone frustum, wide end up":    made(NewCone(1, 2, 2)).Moments(),
		"L of area 6":                  made(NewPolygon(l, nil, 1)).Moments(),
		"wedge":                        made(NewWedge(4, 3, 5, 2)).Moments(),
		"obelisk":                      made(NewPyramid(4, 3, 2, 1, 5)).Moments(),
		"frustum of a square pyramid":  made(NewPyramid(4, 4, 2, 2, 3)).Moments(),
		"pyramid, A·H/3 and H/4":       made(NewPyramid(3, 4, 0, 0, 5)).Moments(),
		"eccentric reducer, solid":     made(NewConeShell(2, 1.2, 1.5, 0, 0.4)).Moments(),
		"hemisphere":                   made(NewHemisphere(2, 0)).Moments(),
		"hollow hemisphere":            made(NewHemisphere(2, 0.1)).Moments(),
		"spherical cap":                made(NewCap(4, 0.7)).Moments(),
	}
	page := inprint.Of(t, "geom")
	for _, name := range page.Items() {
		m, known := solids[name]
		require.True(t, known, name)
		page.Is(name, "volume", m.Volume)
		holdCentroid(page, name, "centroid", m.Centroid())
	}
}

// holdCentroid asks for the three coordinates of a centroid.
func holdCentroid(page *inprint.Page, item, what string, c Vec) {
	for i, axis := range []string{" x", " y", " z"} {
		page.Is(item, what+axis, c[i])
	}
}

// TestPublishedBlockWithHoleAndWedge is the worked example of a textbook, placed with
// poses. The text prints volumes, centroids and densities; sizes that give
// just those volumes and centroids were chosen here. Its words have the hole
// in the middle, its table at z = 6: the table gives the printed answer.
func TestPublishedBlockWithHoleAndWedge(t *testing.T) {
	const name = "block with hole and wedge"
	page := inprint.Of(t, "geom")
	along := Pose{TurnAbout(0, -math.Pi/2), Vec{-3, 0, 6}} // own z becomes y
	hole := made(NewCylinder(4, 4)).Moments().Posed(along)
	nearVec(t, Vec{-3, 2, 6}, hole.Centroid(), 1e-12, "where the text has it")

	// The wedge is 2 along y, 3 up and 4 along x, its right angle at y = 4, z = 0:
	// own x becomes y, own y becomes z, own z becomes x.
	turn := mgl64.Mat3FromCols(Vec{0, 1, 0}, Vec{0, 0, 1}, Vec{1, 0, 0})
	wedge := made(NewPrism(2, 0, 3, 4)).Moments().Posed(Pose{turn, Vec{-6, 5, 1.5}})
	holdCentroid(page, name, "centroid of the wedge", wedge.Centroid())

	block := made(NewBox(6, 4, 9)).Moments().Posed(at(-3, 2, 0))
	all := block.Minus(hole).Times(125).Plus(wedge.Times(493)) // lb/ft3
	page.Is(name, "weight", all.Volume)
	holdCentroid(page, name, "centroid", all.Centroid())
}

// TestPublishedInertia holds the second moments to the mass moments of inertia
// that tables of homogeneous solids give, about axes through the centroid.
// For density 1; the formula stands in the row.
func TestPublishedInertia(t *testing.T) {
	solids := map[string]Moments{
		"cube of 2":                   made(NewBox(2, 2, 2)).Moments(),
		"cylinder r 1, h 2":           made(NewCylinder(2, 2)).Moments(),
		"tube 2 and 1, h 3":           made(NewTube(4, 1, 3)).Moments(),
		"cone r 3, h 10":              made(NewCone(6, 0, 10)).Moments(),
		"ball r 1":                    made(NewSphere(2, 0)).Moments(),
		"hollow ball 2 and 1":         made(NewSphere(4, 1)).Moments(),
		"hemisphere r 1":              made(NewHemisphere(2, 0)).Moments(),
		"ring 2 and 0.5":              made(NewRing(4, 1)).Moments(),
		"square pyramid, base 2, h 3": made(NewPyramid(2, 2, 0, 0, 3)).Moments(),
	}
	page := inprint.Of(t, "geom")
	for _, name := range page.Items() {
		m, known := solids[name]
		require.True(t, known, name)
		got := Inertia(m.Central())
		page.Is(name, "about x or y", got.At(0, 0))
		page.Is(name, "about z", got.At(2, 2))
		want := mgl64.Diag3(Vec{got.At(0, 0), got.At(0, 0), got.At(2, 2)})
		for i := range want {
			assert.InDelta(t, want[i], got[i], 1e-6, "%s: alike about x and y, no products", name)
		}
	}
}
