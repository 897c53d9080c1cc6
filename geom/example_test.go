package geom_test

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// A base plate 2400 x 1200 x 20 mm with its lowest corner at the origin and a
// hole of 300 mm diameter at x = y = 600 mm.
func Example() {
	plate, err := geom.NewBox(2.4, 1.2, 0.02)
	if err != nil {
		fmt.Println(err)
		return
	}
	hole, err := geom.NewCylinder(0.3, 0.02)
	if err != nil {
		fmt.Println(err)
		return
	}
	left := plate.Moments().Posed(geom.Still().Shifted(geom.Vec{1.2, 0.6, 0})).
		Minus(hole.Moments().Posed(geom.Still().Shifted(geom.Vec{0.6, 0.6, 0})))
	c := left.Centroid()
	fmt.Printf("%.6f m³ at %.4f, %.4f, %.4f m\n", left.Volume, c[0], c[1], c[2])
	// Output: 0.056186 m³ at 1.2151, 0.6000, 0.0100 m
}

// A bar laid along x: turned a quarter about y, then moved.
func ExampleExtentOf() {
	bar, err := geom.NewCylinder(0.1, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	along := geom.Pose{Turn: geom.TurnAbout(1, math.Pi/2), Move: geom.Vec{1, 0, 0.5}}
	e := geom.ExtentOf(bar, along)
	fmt.Printf("from %.2f to %.2f m\n", e.Min, e.Max)
	// Output: from [1.00 -0.05 0.45] to [4.00 0.05 0.55] m
}

func ExampleNewTube() {
	_, err := geom.NewTube(0.020, 0.012, 1)
	fmt.Println(err)
	// Output: wall 12 mm does not fit inside outside 20 mm: write a wall below half of it, 10 mm, or use a cylinder if it is solid
}

// A vessel of 2000 mm inside and 5000 mm between its tangent lines, wall 12 mm, with
// 2:1 ellipsoidal heads: its metal and what it holds.
func ExampleNewVessel() {
	vessel, err := geom.NewVessel(geom.VesselSize{Inside: 2, Wall: 0.012, Length: 5, Heads: geom.Ellipsoidal(2)})
	if err != nil {
		fmt.Println(err)
		return
	}
	inside, _ := vessel.Inside()
	fmt.Printf("metal %.5f m³, inside %.4f m³\n", vessel.Moments().Volume, inside.Moments().Volume)
	// Output: metal 0.48487 m³, inside 17.8024 m³
}

// A plate 300 x 200 with corners of 40 mm radius and a hole of 100 mm, 20 mm thick.
func ExampleNewExtrusion() {
	corner, err := geom.Bulge(mgl64.Vec2{0.26, 0}, mgl64.Vec2{0.3, 0.04}, 0.04, false)
	if err != nil {
		fmt.Println(err)
		return
	}
	plate, err := geom.NewExtrusion(geom.Outline{
		{At: mgl64.Vec2{0.04, 0}}, {At: mgl64.Vec2{0.26, 0}, Bulge: corner},
		{At: mgl64.Vec2{0.3, 0.04}}, {At: mgl64.Vec2{0.3, 0.16}, Bulge: corner},
		{At: mgl64.Vec2{0.26, 0.2}}, {At: mgl64.Vec2{0.04, 0.2}, Bulge: corner},
		{At: mgl64.Vec2{0, 0.16}}, {At: mgl64.Vec2{0, 0.04}, Bulge: corner},
	}, []geom.Outline{geom.Circle(mgl64.Vec2{0.15, 0.1}, 0.1)}, 0.02)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f cm²\n", plate.Moments().Volume/0.02*1e4)
	// Output: 507.7 cm²
}
