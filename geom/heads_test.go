package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/testdata/published/inprint"
)

const (
	spheroid = "area of the oblate spheroid and Steiner's formula for parallel bodies (standard geometry, from memory), figure computed"
)

// TestPublishedTableOfHeads holds the inside of each head, and its metal when the wall
// is next to nothing, to a table on inside diameter 1. It has six decimals; the wall moves
// the metal by half of 1e-7, doubled at the DIN heads.
func TestPublishedTableOfHeads(t *testing.T) {
	const wall = 1e-7
	page := inprint.Of(t, "geom")
	for name, form := range map[string]HeadForm{
		"ASME F&D": ASMEFlangedAndDished(), "100-10": DIN28011(), "80-15.4": DIN28013(), "80-10": Torispherical(0.8, 0.1),
		"ellipsoidal 2:1": Ellipsoidal(2), "hemisphere": Hemispherical(),
	} {
		h := made(NewHead(HeadSize{Form: form, Inside: 1, Wall: wall}))
		inside, ok := h.Inside()
		require.True(t, ok)
		page.Is(name, "depth", h.Depth())
		page.Is(name, "volume inside", inside.Moments().Volume)
		page.Is(name, "height of the centroid of the contents", inside.Moments().Centroid()[2])
		page.Is(name, "area", h.Moments().Volume/wall)
		page.Is(name, "height of the centroid of the metal", h.Moments().Centroid()[2])
	}
}

// TestPublishedDINDepths: the rule of the standards for the depth of the inside, of a
// head with outside diameter 2000 and wall 10. It is exact to 0.2 %.
func TestPublishedDINDepths(t *testing.T) {
	page := inprint.Of(t, "geom")
	klopper := made(NewHead(HeadSize{Form: DIN28011(), Outside: 2, Wall: 0.01}))
	assert.InDelta(t, 0.38263, klopper.Depth(), 5e-6, "derived here")
	page.Is("DIN 28011, 2000 x 10", "depth", klopper.Depth())
	korbbogen := made(NewHead(HeadSize{Form: DIN28013(), Outside: 2, Wall: 0.01}))
	assert.InDelta(t, 0.50267, korbbogen.Depth(), 5e-6, "derived here")
	page.Is("DIN 28013, 2000 x 10", "depth", korbbogen.Depth())
}

// TestTorisphericalVolume holds the sum along the arcs to the closed form.
func TestTorisphericalVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawSize(t, "radius")
		R, a := r*rapid.Float64Range(1.001, 20).Draw(t, "crown"), r*rapid.Float64Range(0.001, 0.999).Draw(t, "knuckle")
		d := torisphere{r, R, a}
		c := r - a
		h := R - math.Sqrt((R-a)*(R-a)-c*c)
		want := math.Pi / 3 * (2*h*R*R - (2*a*a+c*c+2*a*R)*(R-h) + 3*a*a*c*math.Asin((R-h)/(R-a)))
		// The closed form is a difference of terms as large as R³.
		assert.InDelta(t, want, d.moments().Volume, 1e-14*R*R*R)
		assert.InDelta(t, h, d.depth(), 1e-14*R)
	})
}

// TestEllipsoidalWall: a 2:1 head of inside diameter 1 and wall 0.012 has
// S·t + M·t² + 2π/3·t³ of metal, S = 1.083985 its inside and M = 2.684804 the
// integral of its mean curvature. An ellipsoid with half axes greater by the
// wall would leave 0.012947: 3.4 % less.
func TestEllipsoidalWall(t *testing.T) {
	h := made(NewHead(HeadSize{Form: Ellipsoidal(2), Inside: 1, Wall: 0.012}))
	assert.InEpsilon(t, 0.01339805500565642, h.Moments().Volume, 1e-13, spheroid)
	assert.Less(t, 1.03*0.012947, h.Moments().Volume)
	// The wall is 12 mm thick square to the inside, wherever it is measured.
	inner := ellipse{a: 0.5, b: 0.25}
	for up := 0.0; up < math.Pi/2; up += 0.1 {
		p, _ := inner.point(up)
		sin, cos := math.Sincos(up)
		for _, off := range []float64{1e-6, 0.006, 0.012 - 1e-6} {
			assert.True(t, h.Contains(Vec{0, p[0] + off*cos, p[1] + off*sin}), "%g", up)
		}
		for _, off := range []float64{-1e-6, 0.012 + 1e-6} {
			assert.False(t, h.Contains(Vec{0, p[0] + off*cos, p[1] + off*sin}), "%g", up)
		}
	}
}

// TestFlatEllipsoids: the sum along the profile holds to rounding up to the
// flattest head that is taken: with a very thick wall against Steiner's
// formula, M for half an oblate spheroid = π·(b + a²/√(a² − b²)·acos(b/a)).
func TestFlatEllipsoids(t *testing.T) {
	for _, ratio := range []float64{1.0001, 1.5, 1.9, 2, 3, 5, 9.99, 10} {
		for _, off := range []float64{1e-3, 0.1, 1} {
			a, b := 1.0, 1/ratio
			e := math.Sqrt((a - b) * (a + b))
			area := math.Pi * (a*a + b*b/e*a*math.Atanh(e/a))
			mean := math.Pi * (b + a*a/e*math.Acos(b/a))
			want := 2*math.Pi/3*(a*a*b+off*off*off) + area*off + mean*off*off
			assert.InEpsilon(t, want, ellipse{a, b, off}.moments().Volume, 1e-14, "%g:1, wall %g", ratio, off)
		}
	}
}

// TestDistanceFromEllipse steps off the ellipse along its normal.
func TestDistanceFromEllipse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawSize(t, "a")
		b := a / rapid.Float64Range(1, 10).Draw(t, "ratio")
		up := rapid.OneOf(rapid.Float64Range(0, math.Pi/2), rapid.SampledFrom([]float64{0, math.Pi / 2, 1e-9})).Draw(t, "up")
		off := a * math.Pow(10, rapid.Float64Range(-12, 1).Draw(t, "off"))
		p, _ := ellipse{a, b, off}.point(up)
		assert.InDelta(t, off, distanceFromEllipse(a, b, p[0], p[1]), 1e-14*(a+off)*10)
		p, _ = ellipse{a, b, -1e-7 * b * b / a}.point(up)
		assert.InEpsilon(t, -1e-7*b*b/a, distanceFromEllipse(a, b, p[0], p[1]), 1e-5)
	})
	assert.Equal(t, -0.5, distanceFromEllipse(1, 0.5, 0, 0))
}

// TestVesselIsItsParts: a tube and two heads.
func TestVesselIsItsParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawSize(t, "inside")
		form := drawForm(t, d)
		wall, length := d*rapid.Float64Range(0.01, 0.2).Draw(t, "wall"), d*rapid.Float64Range(0.1, 5).Draw(t, "length")
		v := made(NewVessel(VesselSize{Heads: form, Outside: d + 2*wall, Wall: wall, Length: length}))
		h := made(NewHead(HeadSize{Form: form, Inside: d, Wall: wall}))
		low, high := v.TangentLines()
		assert.InDelta(t, length, high-low, 1e-14*length)
		assert.InDelta(t, 2*(h.Depth()+wall)+length, ExtentOf(v, Still()).Size()[2], 1e-12*(d+length))
		sum := made(NewTube(d+2*wall, wall, length)).Moments().Posed(at(0, 0, low)).
			Plus(h.Moments().Posed(at(0, 0, high))).
			Plus(h.Moments().Posed(Pose{TurnAbout(0, math.Pi), Vec{0, 0, low}}))
		size := d + 2*wall + length
		nearMoments(t, sum, v.Moments(), 1e-13*size*size*size, size)

		contents, _ := v.Inside()
		held := made(NewCylinder(d, length)).Moments().Posed(at(0, 0, low))
		if within, ok := h.Inside(); ok {
			held = held.Plus(within.Moments().Posed(at(0, 0, high))).
				Plus(within.Moments().Posed(Pose{TurnAbout(0, math.Pi), Vec{0, 0, low}}))
		}
		nearMoments(t, held, contents.Moments(), 1e-13*size*size*size, size)
		middle := Vec{0, 0, (low + high) / 2}
		assert.True(t, contents.Contains(middle) && !v.Contains(middle))
	})
}

// TestFlange: a straight flange is a tube below the dome.
func TestFlange(t *testing.T) {
	size := HeadSize{Form: DIN28011(), Outside: 2, Wall: 0.01}
	dome := made(NewHead(size)).Moments()
	size.Flange = 0.04
	got := made(NewHead(size))
	want := made(NewTube(2, 0.01, 0.04)).Moments().Plus(dome.Posed(at(0, 0, 0.04)))
	nearMoments(t, want, got.Moments(), 1e-14, 1)
	assert.InDelta(t, 0.04+0.01+0.38263, got.Reach(Vec{0, 0, 1}), 5e-6)
}

// TestNothingInside: a flat plate holds nothing; with a flange it does.
func TestNothingInside(t *testing.T) {
	plate := made(NewHead(HeadSize{Form: FlatHead(), Inside: 1, Wall: 0.02}))
	_, ok := plate.Inside()
	assert.False(t, ok)
	nearMoments(t, made(NewCylinder(1.04, 0.02)).Moments(), plate.Moments(), 1e-15, 1)
	assert.True(t, plate.Contains(Vec{}) && plate.Contains(Vec{0, 0, 0.01}) && !plate.Contains(Vec{0, 0, -1e-6}))
	pan, ok := made(NewHead(HeadSize{Form: FlatHead(), Inside: 1, Wall: 0.02, Flange: 0.1})).Inside()
	require.True(t, ok)
	nearMoments(t, made(NewCylinder(1, 0.1)).Moments(), pan.Moments(), 1e-15, 1)
}

// TestWhereTheMetalIs in a vessel whose walls differ, and where not.
func TestWhereTheMetalIs(t *testing.T) {
	v := made(NewVessel(VesselSize{Heads: Hemispherical(), Inside: 2, Wall: 0.1, Length: 3, HeadWall: 0.2}))
	for _, tt := range []struct {
		p    Vec
		want bool
		what string
	}{
		{Vec{0, 0, 0}, true, "lowest point"},
		{Vec{0, 0, 0.2}, true, "inside of the lower head"},
		{Vec{0, 0, 0.2001}, false, "just in the lower head"},
		{Vec{0, 0, 1.2}, false, "middle of the lower tangent line"},
		{Vec{1, 0, 1.2}, true, "shell's inside, on the tangent line"},
		{Vec{1.15, 0, 1.2}, true, "step of the head, on the tangent line"},
		{Vec{1.15, 0, 1.21}, false, "beside the shell, above the step"},
		{Vec{1.05, 0, 2}, true, "in the shell"},
		{Vec{0.99, 0, 2}, false, "beside it, inside"},
		{Vec{0, 0, 5.4}, true, "top"},
		{Vec{0, 0, 5.41}, false, "above it"},
	} {
		assert.Equal(t, tt.want, v.Contains(tt.p), tt.what)
	}
	nearVec(t, Vec{2.4, 2.4, 5.4}, ExtentOf(v, Still()).Size(), 1e-14)
	flat := made(NewVessel(VesselSize{Heads: FlatHead(), Inside: 2, Wall: 0.1, Length: 3, HeadWall: 0.2}))
	nearVec(t, Vec{2.2, 2.2, 3.4}, ExtentOf(flat, Still()).Size(), 1e-14)
	assert.True(t, flat.Contains(Vec{0.5, 0, 0.2}), "on the bottom, inside")
	assert.False(t, flat.Contains(Vec{0.5, 0, 0.2001}))
}
