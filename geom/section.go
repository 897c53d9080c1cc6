package geom

// flat holds the area moments of a plane figure about the origin of its plane.
type flat struct {
	area       float64 // ∫dA
	x, y       float64 // ∫x dA, ∫y dA
	xx, yy, xy float64 // ∫x² dA, ∫y² dA, ∫xy dA
}

// extruded returns the moments of the figure drawn out along z from 0 to h:
//
//	V = A·h    ∫x dV = h·∫x dA    ∫z dV = A·h²/2
//	∫x² dV = h·∫x² dA    ∫xy dV = h·∫xy dA    ∫xz dV = h²/2·∫x dA    ∫z² dV = A·h³/3
//
// Source: derived here by integrating along z.
func (f flat) extruded(h float64) Moments {
	return Moments{
		Volume: f.area * h,
		First:  Vec{f.x * h, f.y * h, f.area * h * h / 2},
		Second: symmetric(f.xx*h, f.yy*h, f.area*h*h*h/3, f.xy*h, f.y*h*h/2, f.x*h*h/2),
	}
}
