package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// shapes draws each solid that drawSolid does not draw itself.
var shapes = map[string]func(*rapid.T) Solid{
	"wedge": func(t *rapid.T) Solid {
		return made(NewWedge(drawSize(t, "base"), drawSize(t, "depth"), drawSize(t, "height"), drawMaybe(t, "top")))
	},
	"pyramid": func(t *rapid.T) Solid {
		return made(NewPyramid(drawSize(t, "a"), drawSize(t, "b"), drawMaybe(t, "c"), drawMaybe(t, "d"), drawSize(t, "height")))
	},
	"cone shell": drawConeShell,
	"hemisphere": func(t *rapid.T) Solid {
		d := drawSize(t, "diameter")
		return made(NewHemisphere(d, d*drawPart(t)))
	},
	"cap": func(t *rapid.T) Solid {
		d := drawSize(t, "sphere")
		return made(NewCap(d, d*rapid.Float64Range(0.02, 0.98).Draw(t, "height")))
	},
	"ring": func(t *rapid.T) Solid {
		mean := drawSize(t, "mean")
		return made(NewRing(mean, mean*rapid.Float64Range(0.02, 0.99).Draw(t, "thickness")))
	},
	"bend":      drawBend,
	"revolve":   drawRevolve,
	"extrusion": func(t *rapid.T) Solid { return drawExtrusion(t) },
	"head":      func(t *rapid.T) Solid { return drawHead(t) },
	"vessel":    func(t *rapid.T) Solid { return drawVessel(t) },
	"contents": func(t *rapid.T) Solid {
		inside, _ := drawVessel(t).Inside()
		return inside
	},
}

// drawMaybe draws a length that may be zero.
func drawMaybe(t *rapid.T, name string) float64 {
	if rapid.IntRange(0, 3).Draw(t, name+" is zero") == 0 {
		return 0
	}
	return drawSize(t, name)
}

// drawPart draws a wall as part of a diameter, or none.
func drawPart(t *rapid.T) float64 {
	if rapid.Bool().Draw(t, "solid") {
		return 0
	}
	return rapid.Float64Range(0.001, 0.49).Draw(t, "part")
}

func drawAngle(t *rapid.T) float64 {
	return rapid.OneOf(rapid.Just(fullTurn), rapid.Float64Range(0.3, fullTurn)).Draw(t, "angle")
}

func drawConeShell(t *rapid.T) Solid {
	a, b := drawSize(t, "a"), drawSize(t, "b")
	switch rapid.IntRange(0, 3).Draw(t, "point") {
	case 0:
		a = 0
	case 1:
		b = 0
	}
	wall := max(a, b) * drawPart(t)
	return made(NewConeShell(a, b, drawSize(t, "height"), wall, rapid.Float64Range(-1, 1).Draw(t, "offset")*(a+b)))
}

func drawBend(t *rapid.T) Solid {
	outside := drawSize(t, "outside")
	radius := outside * rapid.Float64Range(0.51, 5).Draw(t, "radius")
	return made(NewBend(outside, outside*drawPart(t), radius, drawAngle(t)))
}

// bowed gives the sides of a ring bulges, as long as they do not cross.
func bowed(t *rapid.T, points []mgl64.Vec2, most float64) Outline {
	outline := Straight(points)
	for i := range outline {
		if rapid.Bool().Draw(t, "arc") {
			outline[i].Bulge = rapid.Float64Range(-most, most).Draw(t, "bulge")
		}
	}
	if _, err := newRegion(outline, nil); err != nil {
		return Straight(points)
	}
	return outline
}

func drawExtrusion(t *rapid.T) Extrusion {
	s := drawSize(t, "size")
	middle := mgl64.Vec2{rapid.Float64Range(-3, 3).Draw(t, "x"), rapid.Float64Range(-3, 3).Draw(t, "y")}
	outline := bowed(t, drawStar(t, middle, s, 2*s), 1)
	holes := []Outline{
		Circle(middle.Sub(mgl64.Vec2{0.1 * s}), rapid.Float64Range(0.02, 0.15).Draw(t, "hole")*s),
		bowed(t, drawStar(t, middle.Add(mgl64.Vec2{0.1 * s}), 0.02*s, 0.04*s), 0.5),
	}
	if e, err := NewExtrusion(outline, holes, s); err == nil {
		return e
	}
	return made(NewExtrusion(outline, nil, s))
}

func drawRevolve(t *rapid.T) Solid {
	s := drawSize(t, "size")
	if rapid.Bool().Draw(t, "on the axis") { // half a figure, its foot and its top on the axis
		points := []mgl64.Vec2{{0, 0}, {s, 0}, {s * rapid.Float64Range(0.3, 2).Draw(t, "r"), s}, {0, 1.5 * s}}
		outline := Straight(points)
		outline[1].Bulge = rapid.Float64Range(-0.2, 1).Draw(t, "side")
		outline[2].Bulge = rapid.Float64Range(0, 0.2).Draw(t, "dome")
		return made(NewRevolve(outline, drawAngle(t)))
	}
	middle := mgl64.Vec2{s * rapid.Float64Range(2.5, 6).Draw(t, "r"), rapid.Float64Range(-3, 3).Draw(t, "z")}
	return made(NewRevolve(bowed(t, drawStar(t, middle, s, 2*s), 0.2), drawAngle(t)))
}

// drawForm draws the form of a head for the given inside diameter.
func drawForm(t *rapid.T, inside float64) HeadForm {
	return rapid.OneOf(
		rapid.Custom(func(t *rapid.T) HeadForm { return Ellipsoidal(rapid.Float64Range(1, 3).Draw(t, "ratio")) }),
		rapid.Custom(func(t *rapid.T) HeadForm {
			return Torispherical(inside*rapid.Float64Range(0.51, 1.2).Draw(t, "crown"), inside*rapid.Float64Range(0.02, 0.49).Draw(t, "knuckle"))
		}),
		rapid.SampledFrom([]HeadForm{Ellipsoidal(2), ASMEFlangedAndDished(), DIN28011(), DIN28013(), Hemispherical(), FlatHead()}),
	).Draw(t, "form")
}

func drawHead(t *rapid.T) Head {
	d := drawSize(t, "inside")
	return made(NewHead(HeadSize{Form: drawForm(t, d), Inside: d,
		Wall: d * rapid.Float64Range(0.001, 0.2).Draw(t, "wall"), Flange: d * rapid.SampledFrom([]float64{0, 0.05, 1}).Draw(t, "flange")}))
}

func drawVessel(t *rapid.T) Vessel {
	d := drawSize(t, "inside")
	wall := rapid.Float64Range(0.001, 0.2)
	s := VesselSize{Heads: drawForm(t, d), Inside: d, Wall: d * wall.Draw(t, "wall"), Length: d * rapid.Float64Range(0.1, 5).Draw(t, "length")}
	if rapid.Bool().Draw(t, "other head wall") {
		s.HeadWall = d * wall.Draw(t, "head wall")
	}
	return made(NewVessel(s))
}

// degrees is for sizes in tests.
func degrees(d float64) float64 { return d * math.Pi / 180 }

// sameInside holds two solids to the same answer about p, unless p is so near
// to the surface that their tolerances decide.
func sameInside(t assert.TestingT, want, got Solid, p Vec, what ...any) {
	near := 1e-7 * ExtentOf(want, Still()).Diagonal()
	for _, axis := range axes {
		for _, by := range []float64{-near, near} {
			if want.Contains(p.Add(axis.Mul(by))) != want.Contains(p) {
				return
			}
		}
	}
	assert.Equal(t, want.Contains(p), got.Contains(p), "%v: %v", p, what)
}
