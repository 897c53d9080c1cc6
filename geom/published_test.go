package geom

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
)

// Sources of the printed values. "Seen" was read in the document or a public
// quotation of it; what was not is marked from memory.
const (
	openStatics = `D. Baker, W. Haynes, "Engineering Statics: Open and Interactive", sec. 7, "3D Center of Mass" (seen)`
	hibbeler    = `R. C. Hibbeler, "Engineering Mechanics: Statics", 14th ed., `
	beer        = `F. Beer, E. Johnston, "Vector Mechanics: Statics", sample problem 5.7, pulley rim (dimensions and answer from memory)`
	pipes       = "ASME B36.10M, weight of plain-end steel pipe at 0.2833 lb/in3 (from memory)"
	bars        = "weight of steel bar at 490 lb/ft3 as printed in public weight tables (seen)"
	fillets     = "Iowa DOT Instructional Memorandum 569, fillet welds, 1.5 x the triangle (seen)"
	standard    = "standard centroid table (from memory); figure derived here by numerical integration"
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

// TestPublishedVolumes holds volumes, and weights that come from them, to
// figures in print. A figure is right to half of its last printed digit; the
// sizes are in the unit of the source, which the formulas do not mind.
func TestPublishedVolumes(t *testing.T) {
	const lbPerFootPerSquareInch = 490.0 / 144 // steel, AISC (from memory)
	bar := func(ring []mgl64.Vec2) Moments { return made(NewPolygon(ring, nil, 1)).Moments() }
	weld := func(leg float64) Moments { return made(NewPrism(leg, 0, leg, 1)).Moments() }
	tests := []struct {
		name   string
		got    Moments
		factor float64 // from the volume to the printed figure
		want   float64
		tol    float64
		source string
	}{
		{"cone, 3 ft radius, 10 ft high, ft3", made(NewCone(6, 0, 10)).Moments(), 1, 94.2, 0.05,
			hibbeler + "sec. 9.3 example, triangle revolved (seen)"},
		{"cylinder under a cone, m3: 6π", twoPieces([]Moments{
			made(NewCylinder(3, 2)).Moments(),
			made(NewCone(3, 0, 2)).Moments()}), 1, 18.8, 0.05,
			hibbeler + "F9-13 (answer seen; dimensions from memory)"},
		{"ring of rectangle and triangle, m3: 7.21π", twoPieces([]Moments{
			made(NewTube(4.8, 0.9, 1.5)).Moments(),
			made(NewCone(4.8, 3, 1.2)).Moments().Posed(at(0, 0, 1.5))},
			made(NewCylinder(3, 1.2)).Moments().Posed(at(0, 0, 1.5))), 1 / math.Pi, 7.21, 0.005,
			hibbeler + "F9-14 (answer seen; dimensions from memory)"},
		{"pulley rim of steel, kg", twoPieces([]Moments{made(NewTube(0.8, 0.05, 0.1)).Moments()},
			made(NewTube(0.76, 0.03, 0.06)).Moments().Posed(at(0, 0, 0.02))), 7850, 60.0, 0.1, beer},
		{"block, ft3", made(NewBox(6, 4, 9)).Moments(), 1, 216, 0, openStatics},
		{"hole, ft3", made(NewCylinder(4, 4)).Moments(), 1, 50.27, 0.005, openStatics},
		{"wedge, ft3", made(NewPrism(2, 0, 3, 4)).Moments(), 1, 12, 0, openStatics},
		{"pipe NPS 2 sch 40, lb/ft", made(NewTube(2.375, 0.154, 12)).Moments(), 0.2833, 3.65, 0.005, pipes},
		{"pipe NPS 6 sch 40, lb/ft", made(NewTube(6.625, 0.280, 12)).Moments(), 0.2833, 18.97, 0.005, pipes},
		{"pipe NPS 12 STD, lb/ft", made(NewTube(12.75, 0.375, 12)).Moments(), 0.2833, 49.56, 0.005, pipes},
		{"pipe NPS 24 XS, lb/ft", made(NewTube(24, 0.5, 12)).Moments(), 0.2833, 125.49, 0.005, pipes},
		{"round bar 1 in, lb/ft", made(NewCylinder(1, 1)).Moments(), lbPerFootPerSquareInch, 2.673, 0.0006, bars},
		{"square bar 1 in, lb/ft", made(NewBox(1, 1, 1)).Moments(), lbPerFootPerSquareInch, 3.403, 0.0005, bars},
		// The tables print 2.945 and 2.817; exact at 490 lb/ft3 are 2.9469, 2.8190.
		{"hexagon bar 1 in, lb/ft", bar(regular(6, 1)), lbPerFootPerSquareInch, 2.945, 0.0025, bars},
		{"octagon bar 1 in, lb/ft", bar(regular(8, 1)), lbPerFootPerSquareInch, 2.817, 0.0025, bars},
		{"fillet weld 1/4 in, lb/ft", weld(0.25), 1.5 * lbPerFootPerSquareInch, 0.16, 0.005, fillets},
		{"fillet weld 1/2 in, lb/ft", weld(0.5), 1.5 * lbPerFootPerSquareInch, 0.64, 0.005, fillets},
		{"fillet weld 3/4 in, lb/ft", weld(0.75), 1.5 * lbPerFootPerSquareInch, 1.44, 0.005, fillets},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.InDelta(t, tt.want, tt.got.Volume*tt.factor, tt.tol, tt.source)
		})
	}
}

// TestTabledCentroids holds volume and centroid to the check values of a
// centroid table.
func TestTabledCentroids(t *testing.T) {
	l := []mgl64.Vec2{{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 3}, {0, 3}}
	tests := []struct {
		name     string
		got      Moments
		volume   float64
		centroid Vec
	}{
		// Prisms: the table measures from the right angle, geom from the middle.
		{"right triangle 3 x 2, long 4", made(NewPrism(3, 0, 2, 4)).Moments().Posed(at(1.5, 1, 0)), 12, Vec{1, 0.666667, 2}},
		{"trapezoid 3 and 1, 2 high", made(NewPrism(3, 1, 2, 1)).Moments().Posed(at(1.5, 1, 0)), 4, Vec{1.083333, 0.833333, 0.5}},
		{"cone", made(NewCone(6, 0, 10)).Moments(), 94.247780, Vec{0, 0, 2.5}},
		{"cone frustum", made(NewCone(2, 1, 2)).Moments(), 3.665191, Vec{0, 0, 0.785714}},
		{"cone frustum, wide end up", made(NewCone(1, 2, 2)).Moments(), 3.665191, Vec{0, 0, 1.214286}},
		{"L of area 6", made(NewPolygon(l, nil, 1)).Moments(), 6, Vec{1.5, 1, 0.5}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			const tol = 1e-6 // the table has six decimals
			assert.InDelta(t, tt.volume, tt.got.Volume, tol, standard)
			nearVec(t, tt.centroid, tt.got.Centroid(), tol, standard)
		})
	}
}

// TestBlockWithHoleAndWedge is the worked example of a textbook, placed with
// poses. The text prints volumes, centroids and densities; sizes that give
// just those volumes and centroids were chosen here. Its words have the hole
// in the middle, its table at z = 6: the table gives the printed answer.
func TestBlockWithHoleAndWedge(t *testing.T) {
	along := Pose{TurnAbout(0, -math.Pi/2), Vec{-3, 0, 6}} // own z becomes y
	hole := made(NewCylinder(4, 4)).Moments().Posed(along)
	nearVec(t, Vec{-3, 2, 6}, hole.Centroid(), 1e-12, openStatics)

	// The wedge is 2 along y, 3 up and 4 along x, its right angle at y = 4, z = 0:
	// own x becomes y, own y becomes z, own z becomes x.
	turn := mgl64.Mat3FromCols(Vec{0, 1, 0}, Vec{0, 0, 1}, Vec{1, 0, 0})
	wedge := made(NewPrism(2, 0, 3, 4)).Moments().Posed(Pose{turn, Vec{-6, 5, 1.5}})
	nearVec(t, Vec{-4, 4.67, 1}, wedge.Centroid(), 0.005, openStatics)

	block := made(NewBox(6, 4, 9)).Moments().Posed(at(-3, 2, 0))
	all := block.Minus(hole).Times(125).Plus(wedge.Times(493)) // lb/ft3
	assert.InDelta(t, 26633, all.Volume, 0.5, openStatics)
	nearVec(t, Vec{-3.22, 2.59, 3.37}, all.Centroid(), 0.009, openStatics) // 0.005 on each axis
}

// TestTabledInertia holds the second moments to the mass moments of inertia
// that tables of homogeneous solids give, about axes through the centroid.
// Typed for density 1.
func TestTabledInertia(t *testing.T) {
	const source = "table of mass moments of inertia of homogeneous solids (formula from memory)"
	tests := []struct {
		name             string
		got              Moments
		across, alongown float64 // about x (or y) and about z
		formula          string
	}{
		{"cube of 2", made(NewBox(2, 2, 2)).Moments(), 5.3333333, 5.3333333, "m (b² + c²)/12 = 8·8/12"},
		{"cylinder r 1, h 2", made(NewCylinder(2, 2)).Moments(), 3.6651914, 3.1415927, "m (3r² + h²)/12, m r²/2; m = 2π"},
		{"tube 2 and 1, h 3", made(NewTube(4, 1, 3)).Moments(), 56.5486678, 70.6858347, "m (3(R² + r²) + h²)/12, m (R² + r²)/2; m = 9π"},
		{"cone r 3, h 10", made(NewCone(6, 0, 10)).Moments(), 480.6636760, 254.4690049, "3m (4r² + h²)/80, 3m r²/10; m = 30π"},
		{"ball r 1", made(NewSphere(2, 0)).Moments(), 1.6755161, 1.6755161, "2m r²/5; m = 4π/3"},
		{"hollow ball 2 and 1", made(NewSphere(4, 1)).Moments(), 51.9409990, 51.9409990, "2m/5·(R⁵ − r⁵)/(R³ − r³) = 8π/15·31"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := Inertia(tt.got.Central())
			want := mgl64.Diag3(Vec{tt.across, tt.across, tt.alongown})
			for i := range want {
				assert.InDelta(t, want[i], got[i], 1e-6, "%s: %s", source, tt.formula)
			}
		})
	}
}
