package geom

import "math"

// obelisk is a block between two level rectangles, one straight above the
// other: a x b at z = 0, c x d at z = height, a and c along x. Its four sides
// are flat; carried on, they need not meet in a point.
type obelisk struct{ a, b, c, d, height float64 }

// Moments returns the integrals over z of the rectangle with sides
// x = a + (c − a)·z/h and y = b + (d − b)·z/h:
//
//	V = h/6·(2·a·b + a·d + b·c + 2·c·d)
//	∫z dV = h²/12·(a·b + a·d + b·c + 3·c·d)
//	∫z² dV = h³/60·(2·a·b + 3·a·d + 3·b·c + 12·c·d)
//	∫x² dV = h/240·(b·(4a³ + 3a²c + 2ac² + c³) + d·(a³ + 2a²c + 3ac² + 4c³))
//	∫y² dV the same with a and b, c and d in each other's place
//
// Source: volume and centroid standard geometry, from memory; the second
// moments derived here by adding up rectangles, with area x·y and second
// moments of area x³·y/12 and x·y³/12.
func (s obelisk) Moments() Moments {
	a, b, c, d, h := s.a, s.b, s.c, s.d, s.height
	across := func(a, b, c, d float64) float64 {
		return h / 240 * (b*(4*a*a*a+3*a*a*c+2*a*c*c+c*c*c) + d*(a*a*a+2*a*a*c+3*a*c*c+4*c*c*c))
	}
	return Moments{
		Volume: h / 6 * (2*a*b + a*d + b*c + 2*c*d),
		First:  Vec{0, 0, h * h / 12 * (a*b + a*d + b*c + 3*c*d)},
		Second: symmetric(across(a, b, c, d), across(b, a, d, c),
			h*h*h/60*(2*a*b+3*a*d+3*b*c+12*c*d), 0, 0, 0),
	}
}

// Reach returns the greatest r·dir over the solid, which is at a corner.
func (s obelisk) Reach(dir Vec) float64 {
	x, y := math.Abs(dir[0])/2, math.Abs(dir[1])/2
	return max(s.a*x+s.b*y, s.c*x+s.d*y+s.height*dir[2])
}

// Contains tells whether p is in the solid or on it.
func (s obelisk) Contains(p Vec) bool {
	tol := surfaceTolerance * Vec{max(s.a, s.c), max(s.b, s.d), s.height}.Len()
	return within(p[2], 0, s.height, tol) &&
		s.past(p[0], p[2], s.a, s.c) <= tol && s.past(p[1], p[2], s.b, s.d) <= tol
}

// past returns how far a point at x, z is outside the two sides that are a
// apart at the bottom and c at the top, square to the nearer: negative inside.
func (s obelisk) past(x, z, a, c float64) float64 {
	grow := (c - a) / 2
	return ((math.Abs(x)-a/2)*s.height - grow*z) / math.Hypot(s.height, grow)
}

// Mesh returns the solid in up to 12 triangles; chord does not matter. Where
// an edge has no length its triangles fall away.
func (s obelisk) Mesh(float64) Mesh {
	var corners [8]Vec
	for i, c := range (Extent{Vec{-0.5, -0.5, 0}, Vec{0.5, 0.5, 1}}).Corners() {
		corners[i] = Vec{c[0] * s.a, c[1] * s.b, 0}
		if c[2] > 0 {
			corners[i] = Vec{c[0] * s.c, c[1] * s.d, s.height}
		}
	}
	b := newMeshBuilder()
	for _, f := range boxFaces {
		p, q, r := corners[f[0]], corners[f[1]], corners[f[2]]
		if p != q && q != r && r != p {
			b.add([3]Vec{p, q, r})
		}
	}
	return b.mesh()
}
