// Package geom holds the shapes that a load is made of and what they come to:
// volume, centroid, second moments and extent. Lengths are metres throughout,
// in float64; no density and no mass is known here.
//
// A [Solid] is a shape whose figures are exact, not those of a mesh:
//
//   - [Box], [Prism], [Wedge], [Pyramid], [Polygon]: flat sides
//   - [Cylinder], [Tube], [Cone], [ConeShell], [Sphere], [Hemisphere], [Cap], [Ring], [Bend]: round ones
//   - [Extrusion], [Revolve]: an [Outline] with arcs, drawn out or turned
//   - [Head], [Vessel]: the metal of a vessel, with an inside that can be filled
//
// The formula is written out above the Moments method of each. Every solid
// stands on the centre of its base with its axis along +z, and a [Pose] turns
// it and moves it to its place. A [Mesh] is a surface of triangles, and a
// [Body] is a mesh used as a solid.
//
// [Moments] add and subtract, so a plate with a hole is
//
//	plate.Moments().Posed(p).Minus(hole.Moments().Posed(q))
//
// A shape cannot be made with a size that makes no sense: the constructors
// give a [ShapeError] that says what is wrong and how to mend it.
package geom
