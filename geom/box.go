package geom

// Box is a rectangular block or plate: x and y from −half to +half of its
// size, z from 0 to its height.
type Box struct{ x, y, z float64 }

// NewBox returns a box with the given sizes along x, y and z in metres.
func NewBox(x, y, z float64) (Box, error) {
	if err := checkSizes(size{"size along x", x}, size{"size along y", y}, size{"size along z", z}); err != nil {
		return Box{}, err
	}
	return Box{x, y, z}, nil
}

// Moments returns, for sizes a, b, c along x, y, z:
//
//	V = a·b·c
//	centroid (0, 0, c/2)
//	∫x² dV = V·a²/12    ∫y² dV = V·b²/12    ∫z² dV = V·c²/3
//
// Source: standard geometry, from memory.
func (s Box) Moments() Moments {
	v := s.x * s.y * s.z
	return Moments{
		Volume: v,
		First:  Vec{0, 0, v * s.z / 2},
		Second: symmetric(v*s.x*s.x/12, v*s.y*s.y/12, v*s.z*s.z/3, 0, 0, 0),
	}
}

// Reach returns the greatest r·dir over the box, which is at a corner.
func (s Box) Reach(dir Vec) float64 {
	return max(s.x/2*dir[0], -s.x/2*dir[0]) + max(s.y/2*dir[1], -s.y/2*dir[1]) + max(s.z*dir[2], 0)
}

// Contains tells whether p is in the box or on it.
func (s Box) Contains(p Vec) bool {
	tol := surfaceTolerance * Vec{s.x, s.y, s.z}.Len()
	return within(p[0], -s.x/2, s.x/2, tol) && within(p[1], -s.y/2, s.y/2, tol) && within(p[2], 0, s.z, tol)
}

// Mesh returns the box as 12 triangles; chord does not matter.
func (s Box) Mesh(float64) Mesh {
	corners := Extent{Vec{-s.x / 2, -s.y / 2, 0}, Vec{s.x / 2, s.y / 2, s.z}}.Corners()
	faces := boxFaces
	return Mesh{Vertices: corners[:], Faces: faces[:]}
}

// boxFaces are the faces of a block by its corners, numbered as in
// [Extent.Corners].
var boxFaces = [12][3]int{
	{0, 2, 3}, {0, 3, 1}, // bottom
	{4, 5, 7}, {4, 7, 6}, // top
	{0, 1, 5}, {0, 5, 4}, // y least
	{2, 6, 7}, {2, 7, 3}, // y greatest
	{0, 4, 6}, {0, 6, 2}, // x least
	{1, 3, 7}, {1, 7, 5}, // x greatest
}
