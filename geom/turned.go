package geom

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
)

// Revolve is a solid of revolution, all the way round or part of it: an
// [Outline] of points (r, z) that is turned about the z axis, from the x-z
// plane where r lies along +x, towards +y. Its z is that of the outline.
type Revolve struct {
	section region
	angle   float64
}

// NewRevolve returns the solid that the outline (r, z), in metres, sweeps when
// it is turned by angle (rad, above 0 to 2π). No point of it may have r below
// zero; a side may lie on the axis. Otherwise the outline is as for
// [NewExtrusion].
func NewRevolve(outline Outline, angle float64) (Revolve, error) {
	angle, err := checkAngle(angle)
	if err != nil {
		return Revolve{}, err
	}
	section, err := newRegion(outline, nil)
	if err != nil {
		return Revolve{}, err
	}
	if section.low[0] < -surfaceTolerance*section.size {
		return Revolve{}, &ShapeError{
			"the outline reaches to r = " + millimetres(section.low[0]) + ", across the axis",
			"write r, the distance from the axis, of zero or more",
		}
	}
	return Revolve{section, angle}, nil
}

// Moments returns, with the area moments of the outline and angle α:
//
//	V = α·∫r dA
//	∫x dV = sin α·∫r² dA    ∫y dV = (1 − cos α)·∫r² dA    ∫z dV = α·∫r·z dA
//	∫x² dV = (α + sin α·cos α)/2·∫r³ dA    ∫y² dV = (α − sin α·cos α)/2·∫r³ dA
//	∫xy dV = sin²α/2·∫r³ dA    ∫z² dV = α·∫r·z² dA
//	∫xz dV = sin α·∫r²·z dA    ∫yz dV = (1 − cos α)·∫r²·z dA
//
// For f of n factors r and z, ∫f dA = 1/(n + 2)·∮f·(r dz − z dr): exact along
// straight sides, to rounding along arcs, as for [Extrusion.Moments]. It is
// measured from the middle of the outline and then shifted.
//
// Source: V is the theorem of Pappus; the rest derived here, see
// [cubic.turned].
func (s Revolve) Moments() Moments {
	middle := s.section.middle()
	return s.section.own.shifted(middle[0]).turned(s.angle).Posed(Still().Shifted(Vec{0, 0, middle[1]}))
}

// Reach returns the greatest r·dir over the solid: that of the outline where
// it is turned nearest to dir.
func (s Revolve) Reach(dir Vec) float64 {
	across := math.Hypot(dir[0], dir[1]) * greatestCosine(dir, s.angle)
	return s.section.reach(mgl64.Vec2{across, dir[2]})
}

// Contains tells whether p is in the solid or on it.
func (s Revolve) Contains(p Vec) bool {
	tol := surfaceTolerance * math.Hypot(2*s.section.high[0], s.section.high[1]-s.section.low[1])
	return inSector(p, s.angle, tol) && s.section.contains(mgl64.Vec2{math.Hypot(p[0], p[1]), p[2]}, tol)
}

// turnedFacets is about the most facets that a turned outline is cut into.
const turnedFacets = 1 << 20

// Mesh returns the solid with arcs and turn cut into chords, each to half of
// the chord that was asked for; see [Segments] and [Extrusion.Mesh]. It has no
// more than about a million facets, or 24 for each point of the outline.
func (s Revolve) Mesh(chord float64) Mesh {
	rings, ends := s.section.chords(chord / 2)
	line, ends := ontoAxis(rings[0], ends, surfaceTolerance*s.section.size)
	most := max(leastSegments, turnedFacets/2/len(line)/4*4)
	steps := min(sectorSteps(s.section.high[0], chord/2, s.angle), most)
	return sectorMesh([][]mgl64.Vec2{line}, ends, s.angle, steps)
}

// ontoAxis returns the outline with what is within tol (m) of the axis put onto it,
// and its triangles. A point that this puts between two others on the axis is left
// out: a triangle of three such points would have no area, and its sides no facet.
func ontoAxis(ring []mgl64.Vec2, ends [][3]int, tol float64) ([]mgl64.Vec2, [][3]int) {
	line, moved := slices.Clone(ring), false
	for i, p := range line {
		if p[0] < tol {
			moved = moved || p[0] != 0
			line[i][0] = 0
		}
	}
	if !moved {
		return line, ends
	}
	var apart []mgl64.Vec2
	for i, p := range line {
		n := len(line)
		if p[0] != 0 || line[(i+n-1)%n][0] != 0 || line[(i+1)%n][0] != 0 {
			apart = append(apart, p)
		}
	}
	if again, err := triangulate([][]mgl64.Vec2{apart}); err == nil {
		return apart, again
	}
	return line, ends
}
