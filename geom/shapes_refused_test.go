package geom

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
)

func TestShapesThatMakeNoSense(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	right := math.Pi / 2
	head := func(s HeadSize) func() (Solid, error) { return func() (Solid, error) { return NewHead(s) } }
	vessel := func(s VesselSize) func() (Solid, error) { return func() (Solid, error) { return NewVessel(s) } }
	tests := []struct {
		want string
		make func() (Solid, error)
	}{
		{"base 0 mm is not above zero", func() (Solid, error) { return NewWedge(0, 1, 1, 1) }},
		{"depth is not a finite number", func() (Solid, error) { return NewWedge(1, nan, 1, 1) }},
		{"top -1 mm is not above zero", func() (Solid, error) { return NewWedge(1, 1, 1, -0.001) }},
		{"bottom along y -1000 mm is not above zero", func() (Solid, error) { return NewPyramid(1, -1, 0, 0, 1) }},
		{"top along y is not a finite number", func() (Solid, error) { return NewPyramid(1, 1, 0, inf, 1) }},
		{"height 0 mm is not above zero", func() (Solid, error) { return NewPyramid(1, 1, 0, 0, 0) }},
		{"bottom and top diameter are both zero", func() (Solid, error) { return NewConeShell(0, 0, 1, 0, 0) }},
		{"wall 500 mm leaves no bore in a cone of bottom 1000 mm and top 600 mm", func() (Solid, error) { return NewConeShell(1, 0.6, 1, 0.5, 0) }},
		{"wall -1 mm is not above zero", func() (Solid, error) { return NewConeShell(1, 0.6, 1, -0.001, 0) }},
		{"offset is not a number within 1000 km", func() (Solid, error) { return NewConeShell(1, 0.6, 1, 0, nan) }},
		{"offset is not a number within 1000 km", func() (Solid, error) { return NewConeShell(1, 0.6, 1, 0, -inf) }},
		{"diameter 0 mm is not above zero", func() (Solid, error) { return NewHemisphere(0, 0) }},
		{"wall 500 mm does not fit inside diameter 1000 mm", func() (Solid, error) { return NewHemisphere(1, 0.5) }},
		{"height 1000 mm is not less than the sphere's diameter 1000 mm", func() (Solid, error) { return NewCap(1, 1) }},
		{"sphere diameter 0 mm is not above zero", func() (Solid, error) { return NewCap(0, 1) }},
		{"thickness 1000 mm leaves no hole in a ring of mean diameter 1000 mm", func() (Solid, error) { return NewRing(1, 1) }},
		{"mean diameter is not a finite number", func() (Solid, error) { return NewRing(nan, 1) }},
		{"wall 100 mm does not fit inside outside 200 mm", func() (Solid, error) { return NewBend(0.2, 0.1, 0.3, right) }},
		{"radius 100 mm is too tight for outside 200 mm", func() (Solid, error) { return NewBend(0.2, 0.01, 0.1, right) }},
		{"angle 0° is not above 0° and at most 360°", func() (Solid, error) { return NewBend(0.2, 0.01, 0.3, 0) }},
		{"angle 400° is not above 0° and at most 360°", func() (Solid, error) { return NewBend(0.2, 0.01, 0.3, degrees(400)) }},
		{"angle -90° is not above 0° and at most 360°", func() (Solid, error) { return NewBend(0.2, 0.01, 0.3, -right) }},
		{"angle NaN° is not above 0° and at most 360°", func() (Solid, error) { return NewRevolve(Straight(rectangle(0, 0, 1, 1)), nan) }},
		{"the outline reaches to r = -100 mm, across the axis", func() (Solid, error) { return NewRevolve(Straight(rectangle(-0.1, 0, 1, 1)), 1) }},
		{"the outline reaches to r = -500 mm, across the axis", func() (Solid, error) { return NewRevolve(Circle(mgl64.Vec2{0.5, 0}, 2), 1) }},
		{"the outline has 2 different points", func() (Solid, error) { return NewRevolve(Outline{{}, {At: mgl64.Vec2{1, 1}}}, 1) }},
		{"it needs either an inside or an outside diameter", head(HeadSize{Form: FlatHead(), Wall: 0.01})},
		{"it needs either an inside or an outside diameter", head(HeadSize{Form: FlatHead(), Inside: 1, Outside: 2, Wall: 0.01})},
		{"it needs either an inside or an outside diameter", head(HeadSize{Form: FlatHead(), Inside: nan, Wall: 0.01})},
		{"inside diameter -1000 mm is not above zero", head(HeadSize{Form: FlatHead(), Inside: -1, Wall: 0.01})},
		{"wall 0 mm is not above zero", head(HeadSize{Form: FlatHead(), Inside: 1})},
		{"wall 500 mm does not fit inside outside 1000 mm", head(HeadSize{Form: FlatHead(), Outside: 1, Wall: 0.5})},
		{"flange -1 mm is not above zero", head(HeadSize{Form: FlatHead(), Outside: 1, Wall: 0.1, Flange: -0.001})},
		{"a head without a form", head(HeadSize{Inside: 1, Wall: 0.01})},
		{"an ellipsoidal head of 0.5:1", head(HeadSize{Form: Ellipsoidal(0.5), Inside: 1, Wall: 0.01})},
		{"an ellipsoidal head of NaN:1", head(HeadSize{Form: Ellipsoidal(nan), Inside: 1, Wall: 0.01})},
		{"crown radius 500 mm is not above half of the inside diameter 1000 mm", head(HeadSize{Form: Torispherical(0.5, 0.1), Inside: 1, Wall: 0.01})},
		{"knuckle radius 500 mm is not below half of the inside diameter 1000 mm", head(HeadSize{Form: Torispherical(1, 0.5), Inside: 1, Wall: 0.01})},
		{"knuckle radius 0 mm is not above zero", head(HeadSize{Form: Torispherical(1, 0), Inside: 1, Wall: 0.01})},
		{"crown radius is not a finite number", head(HeadSize{Form: Torispherical(nan, 0.1), Inside: 1, Wall: 0.01})},
		{"length 0 mm is not above zero", vessel(VesselSize{Heads: FlatHead(), Inside: 1, Wall: 0.01})},
		{"head wall -1 mm is not above zero", vessel(VesselSize{Heads: FlatHead(), Inside: 1, Wall: 0.01, Length: 1, HeadWall: -0.001})},
		{"a head without a form", vessel(VesselSize{Inside: 1, Wall: 0.01, Length: 1})},
		{"it needs either an inside or an outside diameter", vessel(VesselSize{Wall: 0.01, Length: 1})},
	}
	for _, tt := range tests {
		t.Run(tt.want, func(t *testing.T) {
			s, err := tt.make()
			refused(t, tt.want, s, err)
		})
	}
}

// TestOutlinesOfArcsThatMakeNoSense names the points as the planner gave them,
// however finely their arcs were cut.
func TestOutlinesOfArcsThatMakeNoSense(t *testing.T) {
	plate := Straight(rectangle(0, 0, 1, 1))
	tests := []struct {
		name    string
		outline Outline
		holes   []Outline
		want    string
	}{
		{"nothing", nil, nil, "the outline has 0 different points"},
		{"one point", Outline{{Bulge: 1}}, nil, "the outline has 1 different points"},
		{"two points and no arc", Outline{{}, {At: mgl64.Vec2{1, 0}}}, nil, "the outline has 2 different points"},
		{"no number", Outline{{}, {At: mgl64.Vec2{1, math.NaN()}, Bulge: 1}}, nil, "point 2 of the outline is not within 1000 km of its origin"},
		{"bulge is no number", Outline{{Bulge: math.NaN()}, {At: mgl64.Vec2{1, 0}}}, nil, "the bulge NaN after point 1 of the outline is not between -10000 and 10000"},
		{"point twice", Outline{{Bulge: 1}, {Bulge: 1}, {At: mgl64.Vec2{1, 1}}}, nil, "points 1 and 2 of the outline are the same, (0 mm, 0 mm)"},
		{"there and back on one arc", Outline{{Bulge: 1}, {At: mgl64.Vec2{1, 0}, Bulge: -1}}, nil, ""},
		{"arc through the opposite side", Outline{{mgl64.Vec2{0, 0}, -1}, {mgl64.Vec2{1, 0}, 0}, {mgl64.Vec2{1, 0.4}, 0}, {mgl64.Vec2{0, 0.4}, 0}}, nil,
			"the outline crosses or touches itself near (200.017 mm, 400 mm): the sides that start at its points 1 and 3 meet there"},
		{"two arcs", Outline{{mgl64.Vec2{0, 0}, 0}, {mgl64.Vec2{2, 0}, 0}, {mgl64.Vec2{2, 2}, -1}, {mgl64.Vec2{2, 0.6}, 0}, {mgl64.Vec2{0, 0.7}, 0}, {mgl64.Vec2{0, 2}, 1}}, nil, ""},
		{"hole over the edge", plate, []Outline{Circle(mgl64.Vec2{0.9, 0.5}, 0.25)},
			"hole 1 crosses or touches the outline near (1000 mm, 425.023 mm)"},
		{"hole outside", plate, []Outline{Circle(mgl64.Vec2{2, 0.5}, 0.25)}, "hole 1 lies outside the outline, at (1875 mm, 500 mm)"},
		{"hole in a hole", plate, []Outline{Circle(mgl64.Vec2{0.5, 0.5}, 0.25), Circle(mgl64.Vec2{0.5, 0.5}, 0.5)},
			"hole 1 lies inside hole 2, at (375 mm, 500 mm)"},
		{"narrow", Outline{{Bulge: 1e-7}, {At: mgl64.Vec2{1, 0}, Bulge: -1e-7 * (1 - 1e-13)}}, nil, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, err := NewExtrusion(tt.outline, tt.holes, 1)
			if tt.want == "" {
				assert.Error(t, err)
				return
			}
			refused(t, tt.want, s, err)
		})
	}
	s, err := NewExtrusion(plate, nil, 0)
	refused(t, "length 0 mm is not above zero", s, err)
}
