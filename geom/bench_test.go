package geom

import (
	"strconv"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
)

// ringMesh has about the given number of facets.
func ringMesh(facets int) Mesh {
	n := 16
	for 2*n*n < facets {
		n += 4
	}
	section := circle(n)
	for i := range section {
		section[i][0] += 3
	}
	return revolved(section, n)
}

func BenchmarkMeshMoments(b *testing.B) {
	for _, n := range []int{1e3, 1e5, 1e6} {
		m := ringMesh(n)
		b.Run("facets="+strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				m.Moments()
			}
			b.ReportMetric(float64(len(m.Faces))*float64(b.N)/b.Elapsed().Seconds(), "facets/s")
		})
	}
}

func BenchmarkBodyContains(b *testing.B) {
	for _, n := range []int{1e3, 1e5} {
		body := NewBody(ringMesh(n))
		b.Run("facets="+strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				body.Contains(Vec{3, 0.1, 0.2})
			}
		})
	}
}

func BenchmarkSolidMoments(b *testing.B) {
	pose := Pose{TurnAbout(0, 0.3), Vec{1, 2, 3}}
	for name, s := range map[string]Solid{
		"box": made(NewBox(1, 2, 3)), "tube": made(NewTube(1, 0.1, 3)), "cone": made(NewCone(1, 2, 3)),
		"sphere": made(NewSphere(2, 0.1)), "prism": made(NewPrism(2, 1, 1, 3)),
		"polygon of 100":  made(NewPolygon(regular(100, 1), nil, 3)),
		"beam with radii": made(NewExtrusion(beam(0.2, 0.2, 0.01, 0.02, 0.02), nil, 3)), "bend": made(NewBend(1, 0.1, 2, 1)),
		"vessel": made(NewVessel(VesselSize{Inside: 2, Wall: 0.01, Length: 5, Heads: Ellipsoidal(2)})),
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s.Moments().Posed(pose)
			}
		})
	}
}

func BenchmarkNewPolygon(b *testing.B) {
	for _, n := range []int{2, 10} {
		var holes [][]mgl64.Vec2
		for i := range n * n {
			hole := regular(64, 0.8)
			for k, p := range hole {
				hole[k] = p.Add(mgl64.Vec2{float64(i%n) + 0.5, float64(i/n) + 0.5})
			}
			holes = append(holes, hole)
		}
		b.Run("holes="+strconv.Itoa(n*n), func(b *testing.B) {
			for b.Loop() {
				made(NewPolygon(rectangle(0, 0, float64(n), float64(n)), holes, 1))
			}
		})
	}
}
