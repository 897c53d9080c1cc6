package geom

import (
	"maps"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// made takes the pair that a constructor returns, for sizes that are right.
func made[S Solid](s S, err error) S {
	if err != nil {
		panic(err)
	}
	return s
}

// at is the pose moved by the vector, unturned.
func at(x, y, z float64) Pose { return Still().Shifted(Vec{x, y, z}) }

// nearVec compares vectors with one absolute tolerance.
func nearVec(t assert.TestingT, want, got Vec, tol float64, what ...any) {
	assert.InDelta(t, 0, got.Sub(want).Len(), tol, "got %v, want %v: %v", got, want, what)
}

// nearMoments compares moments whose points lie within reach of the origin:
// surface is the volume in m³ by which the solids may differ.
func nearMoments(t assert.TestingT, want, got Moments, surface, reach float64, what ...any) {
	assert.InDelta(t, want.Volume, got.Volume, surface, "volume: %v", what)
	nearVec(t, want.First, got.First, surface*reach, "first moments", what)
	for i := range want.Second {
		assert.InDelta(t, want.Second[i], got.Second[i], surface*reach*reach, "second moments [%d]: %v", i, what)
	}
}

// requireClosed asks that every edge has two faces that run it in opposite
// directions, that faces have three different corners, and no vertex is idle.
func requireClosed(t require.TestingT, m Mesh) {
	edges := map[[2]int]int{}
	used := make([]bool, len(m.Vertices))
	for _, f := range m.Faces {
		for i := range f {
			require.NotEqual(t, f[i], f[(i+1)%3], "face with a repeated corner")
			edges[[2]int{f[i], f[(i+1)%3]}]++
			used[f[i]] = true
		}
	}
	for e, n := range edges {
		require.Equal(t, 1, n, "edge %v is run more than once", e)
		require.Equal(t, 1, edges[[2]int{e[1], e[0]}], "edge %v has no opposite", e)
	}
	require.NotContains(t, used, false, "vertex without a face")
}

// distance returns how far p is from the surface.
func (m Mesh) distance(p Vec) float64 {
	least := math.Inf(1)
	for i := range m.Faces {
		a, b, c := m.Triangle(i)
		least = min(least, distanceToTriangle(p, a, b, c))
	}
	return least
}

// drawSize draws a length in m, from 10 mm to 10 m.
func drawSize(t *rapid.T, name string) float64 {
	return math.Pow(10, rapid.Float64Range(-2, 1).Draw(t, name))
}

func drawVec(t *rapid.T, name string, most float64) Vec {
	x := rapid.Float64Range(-most, most)
	return Vec{x.Draw(t, name+" x"), x.Draw(t, name+" y"), x.Draw(t, name+" z")}
}

// drawTurn draws any rotation, as three turns about the axes.
func drawTurn(t *rapid.T) mgl64.Mat3 {
	angle := rapid.Float64Range(-math.Pi, math.Pi)
	return TurnAbout(2, angle.Draw(t, "turn z")).
		Mul3(TurnAbout(1, angle.Draw(t, "turn y"))).
		Mul3(TurnAbout(0, angle.Draw(t, "turn x")))
}

func drawPose(t *rapid.T) Pose {
	return Pose{drawTurn(t), drawVec(t, "move", 20)}
}

// drawStar draws a ring that cannot cross itself: as seen from its middle,
// which it holds, its points come one after the other.
func drawStar(t *rapid.T, middle mgl64.Vec2, least, most float64) []mgl64.Vec2 {
	n := rapid.IntRange(3, 12).Draw(t, "points")
	ring := make([]mgl64.Vec2, n)
	for i := range ring {
		turn := 2 * math.Pi * (float64(i) + rapid.Float64Range(0.1, 0.4).Draw(t, "turn")) / float64(n)
		r := rapid.Float64Range(least, most).Draw(t, "radius")
		sin, cos := math.Sincos(turn)
		ring[i] = middle.Add(mgl64.Vec2{r * cos, r * sin})
	}
	if rapid.Bool().Draw(t, "clockwise") {
		slices.Reverse(ring)
	}
	return ring
}

// drawPolygon draws a star with up to three holes around its middle.
func drawPolygon(t *rapid.T) Polygon {
	s := drawSize(t, "size")
	middle := mgl64.Vec2{rapid.Float64Range(-3, 3).Draw(t, "x"), rapid.Float64Range(-3, 3).Draw(t, "y")}
	var holes [][]mgl64.Vec2
	for i := range rapid.IntRange(0, 3).Draw(t, "holes") {
		sin, cos := math.Sincos(2 * math.Pi / 3 * float64(i))
		// The outline holds a disk of radius 0.2·s around its middle: neighbours
		// are no more than 1.3 thirds of a turn apart, and cos(156°/2) = 0.208.
		holes = append(holes, drawStar(t, middle.Add(mgl64.Vec2{0.1 * s * cos, 0.1 * s * sin}), 0.02*s, 0.08*s))
	}
	return made(NewPolygon(drawStar(t, middle, s, 2*s), holes, drawSize(t, "length")))
}

// drawSolid draws any of the solids with a closed form.
func drawSolid(t *rapid.T) Solid {
	a, b, h := drawSize(t, "a"), drawSize(t, "b"), drawSize(t, "h")
	part := rapid.Float64Range(0.001, 0.49).Draw(t, "part")
	kinds := append([]string{"box", "cylinder", "tube", "cone", "point up", "point down",
		"ball", "hollow ball", "prism", "triangle", "polygon"}, slices.Sorted(maps.Keys(shapes))...)
	kind := rapid.SampledFrom(kinds).Draw(t, "kind")
	if draw := shapes[kind]; draw != nil {
		return draw(t)
	}
	switch kind {
	case "box":
		return made(NewBox(a, b, h))
	case "cylinder":
		return made(NewCylinder(a, h))
	case "tube":
		return made(NewTube(a, a*part, h))
	case "cone":
		return made(NewCone(a, b, h))
	case "point up":
		return made(NewCone(a, 0, h))
	case "point down":
		return made(NewCone(0, b, h))
	case "ball":
		return made(NewSphere(a, 0))
	case "hollow ball":
		return made(NewSphere(a, a*part))
	case "prism":
		return made(NewPrism(a, b, h, drawSize(t, "length")))
	case "triangle":
		return made(NewPrism(a, 0, h, drawSize(t, "length")))
	}
	return drawPolygon(t)
}
