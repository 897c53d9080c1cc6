package rig

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// boxMesh is a box with its base on the origin, moved, in metres.
func boxMesh(t require.TestingT, x, y, z float64, move geom.Vec) geom.Mesh {
	box, err := geom.NewBox(x, y, z)
	require.NoError(t, err)
	return box.Mesh(0).Posed(geom.Still().Shifted(move))
}

// bodyOf is the body of one part.
func bodyOf(t require.TestingT, m geom.Mesh, chord float64) Obstacles {
	body, err := NewObstacles([]Obstacle{{"body", m, chord}})
	require.NoError(t, err)
	return body
}

// A level leg 10 mm thick to each side over a box 2 × 2 × 2 m, by hand: 1 mm
// clear, touching, 1 mm in; and its line 0.3 m in.
func TestClashOverABox(t *testing.T) {
	body := bodyOf(t, boxMesh(t, 2, 2, 2, geom.Vec{}), 0)
	for _, tt := range []struct {
		name    string
		line    float64 // m, z of the leg's line
		gap     float64 // m
		clashes bool
	}{
		{"1 mm clear", 2.011, 0.001, false},
		{"touching", 2.010, 0, true},
		{"1 mm in", 2.009, -0.001, true},
		{"the line 1 mm in", 1.999, -0.011, true},
		{"the line 0.3 m in", 1.7, -0.31, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			picks, hook := []geom.Vec{{-3, 0.1, tt.line}}, geom.Vec{4, 0.1, tt.line}
			legs := clearing{picks, []float64{0.01}, body, 0}
			// The line's depth may be short by a thousandth and 35 µm.
			assert.InDelta(t, tt.gap, leastGap(legs.gaps(0, hook)), 1e-12+depthShort(tt.gap+0.01))
			found, err := Clashes(hook, picks, legs.radius, body, 0)
			require.NoError(t, err)
			assert.Equal(t, tt.clashes, len(found) == 1)
			for _, c := range found {
				assert.Equal(t, "body", c.With)
				assert.InDelta(t, 0.1, c.At[1], 0.4)
				assert.InDelta(t, 2, c.At[2], 1e-9, "on the top")
				assert.True(t, c.Along > 2-1e-9 && c.Along < 4+1e-9, "over the box: %v m along", c.Along)
			}
		})
	}
}

// depthShort is by how many metres the depth of a line in the box above may be
// short: a thousandth, and a hundred-thousandth of √12 m; nothing outside.
func depthShort(distance float64) float64 {
	if distance >= -1e-12 {
		return 0
	}
	return 3.5e-5 - 0.001*distance
}

// A level leg that passes an upright cylinder of 2 m at the side, by hand. The
// chord of its facets is 0.5 mm: where it is not stated, the gap is up to that
// too wide; where it is, up to that too small, which is safe.
func TestClashBesideACylinder(t *testing.T) {
	const chord, radius = 0.0005, 0.02
	cylinder, err := geom.NewCylinder(2, 3)
	require.NoError(t, err)
	mesh := cylinder.Mesh(chord)
	for _, gap := range []float64{0.001, 0, -0.001} {
		for _, turn := range []float64{0, 0.3, 1.234} {
			s, c := math.Sincos(turn)
			out, along := geom.Vec{c, s, 0}.Mul(1+radius+gap), geom.Vec{-s, c, 0}
			picks := []geom.Vec{out.Add(along.Mul(-3)).Add(geom.Vec{0, 0, 1.5})}
			hook := out.Add(along.Mul(5)).Add(geom.Vec{0, 0, 1.5})
			for _, stated := range []float64{0, chord} {
				legs := clearing{picks, []float64{radius}, bodyOf(t, mesh, stated), 0}
				got := leastGap(legs.gaps(0, hook))
				assert.GreaterOrEqual(t, got, gap-stated-1e-12)
				assert.LessOrEqual(t, got, gap-stated+chord+1e-12)
				found, err := Clashes(hook, picks, legs.radius, legs.body, 0)
				require.NoError(t, err)
				assert.Len(t, found, map[bool]int{true: 1, false: 0}[gap < 0 || gap == 0 && got <= touching])
			}
		}
	}
}

// nearestOnTriangle is the point of a triangle nearest to p, by its regions: C.
// Ericson, "Real-Time Collision Detection", 2005, section 5.1.5 (from memory).
func nearestOnTriangle(p, a, b, c geom.Vec) geom.Vec {
	ab, ac, ap, bp, cp := b.Sub(a), c.Sub(a), p.Sub(a), p.Sub(b), p.Sub(c)
	d1, d2, d3, d4, d5, d6 := ab.Dot(ap), ac.Dot(ap), ab.Dot(bp), ac.Dot(bp), ab.Dot(cp), ac.Dot(cp)
	va, vb, vc := d3*d6-d5*d4, d5*d2-d1*d6, d1*d4-d3*d2
	switch {
	case d1 <= 0 && d2 <= 0:
		return a
	case d3 >= 0 && d4 <= d3:
		return b
	case vc <= 0 && d1 >= 0 && d3 <= 0:
		return a.Add(ab.Mul(d1 / (d1 - d3)))
	case d6 >= 0 && d5 <= d6:
		return c
	case vb <= 0 && d2 >= 0 && d6 <= 0:
		return a.Add(ac.Mul(d2 / (d2 - d6)))
	case va <= 0 && d4-d3 >= 0 && d5-d6 >= 0:
		return b.Add(c.Sub(b).Mul((d4 - d3) / (d4 - d3 + d5 - d6)))
	}
	return a.Add(ab.Mul(vb / (va + vb + vc))).Add(ac.Mul(vc / (va + vb + vc)))
}

// walked is the least distance of the mesh from a line, each face by itself: in
// thirds, since it is convex along the line.
func walked(m geom.Mesh, from, to geom.Vec) float64 {
	least := math.Inf(1)
	for i := range m.Faces {
		a, b, c := m.Triangle(i)
		distance := func(t float64) float64 {
			p := from.Add(to.Sub(from).Mul(t))
			return nearestOnTriangle(p, a, b, c).Sub(p).Len()
		}
		low, high := 0.0, 1.0
		for range 120 {
			third := (high - low) / 3
			if distance(low+third) < distance(high-third) {
				high -= third
			} else {
				low += third
			}
		}
		least = min(least, distance(low), distance(0), distance(1))
	}
	return least
}

// drawLump draws a closed mesh: a ball pressed and pulled out of round, turned.
func drawLump(t *rapid.T) geom.Mesh {
	ball, err := geom.NewSphere(2, 0)
	require.NoError(t, err)
	m := ball.Mesh(rapid.Float64Range(0.05, 0.3).Draw(t, "chord"))
	wave := rapid.Float64Range(0, 0.4).Draw(t, "wave")
	times := float64(rapid.IntRange(1, 4).Draw(t, "times"))
	lump := geom.Mesh{Faces: m.Faces}
	middle := m.Extent().Center()
	for _, v := range m.Vertices {
		p := v.Sub(middle)
		lump.Vertices = append(lump.Vertices, p.Mul(1+wave*math.Sin(times*(p[0]+2*p[1]-p[2]))))
	}
	return lump
}

func drawPoint(t *rapid.T, name string, most float64) geom.Vec {
	x := rapid.Float64Range(-most, most)
	return geom.Vec{x.Draw(t, name+" x"), x.Draw(t, name+" y"), x.Draw(t, name+" z")}
}

// On any closed body a leg that does not run through it has the gap that
// walking along it past every face gives; one that does is as deep as the
// deepest of many points, or deeper.
func TestGapsByWalking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mesh := drawLump(t)
		body, solid := bodyOf(t, mesh, 0), geom.NewBody(mesh)
		pick, hook := drawPoint(t, "pick", 2), drawPoint(t, "hook", 4)
		length := hook.Sub(pick).Len()
		free := rapid.Float64Range(0, 0.5).Draw(t, "free")
		radius := rapid.Float64Range(0, 0.1).Draw(t, "radius")
		got := leastGap(clearing{[]geom.Vec{pick}, []float64{radius}, body, free}.gaps(0, hook))
		if length <= free {
			require.True(t, math.IsInf(got, 1))
			return
		}
		from := pick.Add(hook.Sub(pick).Mul(free / length))
		if near := walked(mesh, from, hook); !solid.Contains(from) && near > 1e-7 {
			require.InDelta(t, near-radius, got, 1e-9)
			return
		}
		for i := range 51 {
			p := from.Add(hook.Sub(from).Mul(float64(i) / 50))
			if solid.Contains(p) {
				depth := walked(mesh, p, p)
				require.LessOrEqual(t, got, -radius-0.999*depth+6e-5, "%v m along", float64(i)/50*length)
			}
		}
	})
}

// A leg that begins on the body at its pick, 60° up, 20 mm thick: its side is
// clear from 10 mm/sin 60° = 11.5 mm along.
func TestLegEndsOnTheBody(t *testing.T) {
	body := bodyOf(t, boxMesh(t, 2, 2, 2, geom.Vec{}), 0)
	pick := geom.Vec{0.9, 0, 2}
	hook := pick.Add(geom.Vec{-0.5, 0, math.Sqrt(0.75)}.Mul(4))
	for free, want := range map[float64]int{0: 1, 0.0115: 1, 0.0116: 0, 0.15: 0, 5: 0} {
		found, err := Clashes(hook, []geom.Vec{pick}, []float64{0.01}, body, free)
		require.NoError(t, err)
		assert.Len(t, found, want, "%g m free", free)
	}
}

// Clashes come by leg and part; turned and mirrored frames see the same.
func TestClashesOfSeveralParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := []Obstacle{
			{"post", boxMesh(t, 0.2, 0.2, 3, geom.Vec{1, 0, 0}), 0},
			{"deck", boxMesh(t, 4, 4, 0.2, geom.Vec{0, 0, -0.2}), 0},
			{"rail", boxMesh(t, 0.1, 4, 0.1, geom.Vec{-1.5, 0, 1}), 0},
		}
		picks, hook := []geom.Vec{{1.9, 0.05, 0.2}, {0, 1.9, 0.2}, {-1.9, 0, 0.2}}, geom.Vec{0, 0, 4}
		radius := []float64{0.01, 0.01, 0.02}
		pose := geom.Pose{Turn: geom.TurnAbout(rapid.IntRange(0, 2).Draw(t, "axis"), rapid.Float64Range(-3, 3).Draw(t, "turn")), Move: drawPoint(t, "move", 30)}
		if rapid.Bool().Draw(t, "mirrored") {
			pose.Turn.SetRow(0, pose.Turn.Row(0).Mul(-1))
		}
		for i := range parts {
			parts[i].Mesh = parts[i].Mesh.Posed(pose)
		}
		for i := range picks {
			picks[i] = pose.Point(picks[i])
		}
		body, err := NewObstacles(parts)
		require.NoError(t, err)
		found, err := Clashes(pose.Point(hook), picks, radius, body, 0.1)
		require.NoError(t, err)
		require.Len(t, found, 2)
		require.Equal(t, []any{0, "post"}, []any{found[0].Leg, found[0].With})
		require.Equal(t, []any{2, "rail"}, []any{found[1].Leg, found[1].With})
		// In x and z the third leg is (−1.9, 0.2) + s·(1.9, 3.8), the rail's near
		// corner at (−1.55, 1) or (−1.45, 1.1): the line runs through between.
		require.Less(t, found[1].Gap, -0.02)
		require.InDelta(t, 0, pose.Back(found[1].At)[1], 0.2)
	})
}

func TestClashesRefused(t *testing.T) {
	box := boxMesh(t, 1, 1, 1, geom.Vec{})
	body := bodyOf(t, box, 0)
	nan := math.NaN()
	picks, radius, hook := []geom.Vec{{2, 0, 0}}, []float64{0.01}, geom.Vec{0, 0, 3}
	clashes := func(hook geom.Vec, picks []geom.Vec, radius []float64, free float64) error {
		_, err := Clashes(hook, picks, radius, body, free)
		return err
	}
	obstacles := func(m geom.Mesh, chord float64) error {
		_, err := NewObstacles([]Obstacle{{"part", m, chord}})
		return err
	}
	height := func(cg geom.Vec, radius []float64, most float64) error {
		_, _, err := LeastHeight(picks, cg, body, radius, 0, most)
		return err
	}
	bar := func(a, b geom.Vec, radius, most float64) error {
		_, _, err := LeastBar([2]geom.Vec{a, b}, body, radius, 0, most)
		return err
	}
	for _, tt := range []struct {
		name string
		err  error
		want string
	}{
		{"no legs", clashes(hook, nil, nil, 0), "no legs"},
		{"radii", clashes(hook, picks, nil, 0), "1 picks but 0 radii"},
		{"thin", clashes(hook, picks, []float64{-1}, 0), "leg 1 is -1 m thick"},
		{"thick", clashes(hook, picks, []float64{nan}, 0), "leg 1 is NaN m thick"},
		{"free", clashes(hook, picks, radius, -1), "-1 m of the legs"},
		{"pick", clashes(hook, []geom.Vec{{nan, 0, 0}}, radius, 0), "pick 1 is no place"},
		{"hook", clashes(geom.Vec{0, 0, 1e9}, picks, radius, 0), "the hook is at no place"},
		{"no faces", obstacles(geom.Mesh{}, 0), `"part" has no faces`},
		{"chord", obstacles(box, -1), `the facets of "part" are off by -1 m`},
		{"vertex", obstacles(geom.Mesh{Vertices: []geom.Vec{{0, nan, 0}}, Faces: [][3]int{{0, 0, 0}}}, 0), `vertex 1 of "part"`},
		{"face", obstacles(geom.Mesh{Vertices: box.Vertices, Faces: [][3]int{{0, 1, 8}}}, 0), `face 1 of "part" names a vertex`},
		{"CG", height(geom.Vec{0, 0, nan}, radius, 5), "the centre of gravity is at no place"},
		{"legs of the least height", height(geom.Vec{}, nil, 5), "1 picks but 0 radii"},
		{"no height", height(geom.Vec{}, radius, 0), "a hook up to 0 m"},
		{"upright bar", bar(geom.Vec{1, 0, 0}, geom.Vec{1, 0, 3}, 0, 9), "plumb over each other"},
		{"no bar", bar(geom.Vec{1, 0, 0}, geom.Vec{-1, 0, 0}, 0, nan), "a bar up to NaN m"},
		{"thin drops", bar(geom.Vec{1, 0, 0}, geom.Vec{-1, 0, 0}, -1, 9), "leg 1 is -1 m thick"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var input *InputError
			require.ErrorAs(t, tt.err, &input)
			assert.Contains(t, input.Msg, tt.want)
			assert.NotEmpty(t, input.Fix)
		})
	}
}

// globe is a ball of 2 m about the origin in a net of n steps round and n/2 up.
func globe(n int) geom.Mesh {
	var m geom.Mesh
	for i := range n/2 + 1 {
		r, z := math.Sincos(math.Pi * float64(i) / float64(n/2))
		for j := range n {
			s, c := math.Sincos(2 * math.Pi * float64(j) / float64(n))
			m.Vertices = append(m.Vertices, geom.Vec{r * c, r * s, z})
		}
	}
	for i := range n / 2 {
		for j := range n {
			a, b := i*n+j, i*n+(j+1)%n
			m.Faces = append(m.Faces, [3]int{a, a + n, b}, [3]int{b, a + n, b + n})
		}
	}
	return m
}

// BenchmarkClashes asks eight legs over a ball of many triangles, all past it
// or all through it, and the least height at which they pass.
func BenchmarkClashes(b *testing.B) {
	for _, n := range []int{100, 1000} {
		mesh := globe(n)
		body := bodyOf(b, mesh, 0)
		var picks []geom.Vec
		var radius []float64
		for i := range 8 {
			s, c := math.Sincos(math.Pi / 4 * (float64(i) + 0.1))
			picks, radius = append(picks, geom.Vec{1.3 * c, 1.3 * s, 0}), append(radius, 0.02)
		}
		size := strconv.Itoa(len(mesh.Faces)) + " triangles, "
		for name, height := range map[string]float64{"clear": 5, "through": 1.2} {
			b.Run(size+name, func(b *testing.B) {
				for b.Loop() {
					if _, err := Clashes(geom.Vec{0, 0, height}, picks, radius, body, 0.1); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
		b.Run(size+"least height", func(b *testing.B) {
			for b.Loop() {
				if _, ok, err := LeastHeight(picks, geom.Vec{}, body, radius, 0.1, 20); err != nil || !ok {
					b.Fatal(ok, err)
				}
			}
		})
		b.Run(size+"prepared", func(b *testing.B) {
			for b.Loop() {
				bodyOf(b, mesh, 0)
			}
		})
	}
}
