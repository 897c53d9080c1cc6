package takeoff

// abouts say in a sentence or two what each kind of solid is, for the reference
// page: what its sizes measure and how it stands before it is turned.
var abouts = map[string]string{
	"box":        "Sides along x, y and z, standing on the middle of its base.",
	"plate":      "A box whose thickness is written last; or an outline, from corners or from a DXF drawing, drawn out along z by its thickness. An outline's own origin is the drawing's 0,0.",
	"wedge":      "A base along x and a depth along y; straight above its middle, at its height, a level edge along x of the length `top`. With `top` as long as `base` it is a ridge roof; with `top: 0` it comes to a point.",
	"prism":      "A trapezoid, or with `top: 0` a right triangle, drawn out along z by its length. `base` and `top` are parallel, along x; the side at low x is square to them. Its origin is the middle of the section's box.",
	"polygon":    "An outline with holes, drawn out along z by its length. Its own origin is the outline's 0,0. Between two corners an arc is `{to: [x, y], bulge}` or `{to: [x, y], radius, side}`.",
	"revolve":    "An outline of points [r, z] turned about z, in full or by `angle` from +x toward +y.",
	"cylinder":   "A solid round bar, standing on its end.",
	"rod":        "The same as a cylinder.",
	"tube":       "A round tube, open at both ends; its bore is no part of it.",
	"cone":       "Outside diameters at the bottom and at the top; `wall` is the thickness of the plate, square to its face, and without it the cone is solid. `offset` moves the top along +x.",
	"pyramid":    "A rectangle at the bottom, another or a point straight above it, flat sides between.",
	"sphere":     "A ball by its outside diameter, hollow if it has a `wall`; it stands on its lowest point.",
	"hemisphere": "Half a ball on its flat face, hollow and open below if it has a `wall`.",
	"cap":        "What a level cut leaves of the top of a ball: `sphere` is the diameter of the ball, `height` that of the cap.",
	"ring":       "A round bar bent to a closed ring, lying flat: `mean` is the diameter of the circle through the middle of the bar, `thickness` the bar's own diameter.",
	"bend":       "A bent pipe, or a bar if it has no `wall`; `radius` is that of its centre line. It starts at its own origin along +z and turns toward +x. `pipe:` with a designation stands for `outside` and `wall`.",
	"head":       "A dished or flat end, open below: the rim of its straight `flange` stands around its own origin. Its wall is the same all over, square to the inside; forming thins a real one.",
	"vessel":     "A shell with a head on each end. `length` is from tangent line to tangent line; `from` and `to` are the places of the tangent lines on its axis. Placed by `at` it stands on the lowest point of its lower head.",
	"section":    "By `from` and `to` the line through its centroids; else it stands on its end, `at` being its centroid there. `up` is where its depth points to. Seen along the line with `up` up, own x is to the left: toes of a channel and the other leg of an angle point there.",
	"pipe":       "A pipe by its nominal size and schedule, laid as a section is.",
	"weld":       "A fillet by its leg, half again as heavy as the triangle drawn, or any weld by its area. `length` is the whole length of it. Along `from` and `to`; or `on` a part, at that part's centre of gravity; or `at` its own.",
	"bar":        "What is known by its mass: `per length` (rails, reinforcement) or `per area` (grating, checker plate).",
	"mesh":       "A closed surface from a file. `at` is where the file's own origin goes.",
	"surface":    "A plate along the facets of a file, open or closed: area times `thickness`, the facets being the middle of the plate.",
	"weight":     "A known weight of one piece. `at` is its centre of gravity; with a `box` for its extent that is taken as the middle of the box.",
	"load":       "Another load file as one part, by its own units and materials; its rigging is not read.",
}
