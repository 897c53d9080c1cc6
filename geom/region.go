package geom

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
)

// region is a plane figure with straight and curved sides: an outline and its
// holes.
type region struct {
	rings     [][]span // the outline anticlockwise, the holes clockwise
	corners   [][]mgl64.Vec2
	low, high mgl64.Vec2     // corners of its bounding box
	size      float64        // diagonal of that, m
	chord     float64        // how far the finest chords may be from their arcs, m
	fine      [][]mgl64.Vec2 // the rings cut into the finest chords
	ends      [][3]int       // the fine rings cut into triangles, numbered through
	own       cubic          // moments about the middle
}

// newRegion returns the figure with the given outline and holes, which may
// run either way round; what [NewPolygon] refuses is refused here. Whether
// sides cross or touch is judged on chords that are no further than 1e-5 of
// the figure's size from their arcs: what comes nearer than that may pass as
// apart or be refused. With very many arcs the chords are made longer.
func newRegion(outline Outline, holes []Outline) (region, error) {
	var r region
	for i, o := range append([]Outline{outline}, holes...) {
		ring, err := o.spans(ringName(i))
		if err != nil {
			return region{}, err
		}
		r.rings = append(r.rings, ring)
	}
	r.low = mgl64.Vec2{-r.reach(mgl64.Vec2{-1, 0}), -r.reach(mgl64.Vec2{0, -1})}
	r.high = mgl64.Vec2{r.reach(mgl64.Vec2{1, 0}), r.reach(mgl64.Vec2{0, 1})}
	wide := r.high.Sub(r.low)
	if err := checkSizes(size{"size of the outline along x", wide[0]}, size{"size of the outline along y", wide[1]}); err != nil {
		return region{}, err
	}
	r.size = wide.Len()
	r.chord = r.fineChord()
	if err := checkPlaces(r.cut(r.chord), r.number); err != nil {
		return region{}, err
	}
	r.turnRings()
	if r.own = r.moments(r.middle()); r.own.area <= 1e-12*wide[0]*wide[1] {
		return region{}, &ShapeError{"the outline is so narrow that it has no area to speak of", "check its points"}
	}
	r.fine = r.cut(r.chord)
	var err error
	r.ends, err = triangulate(r.fine)
	return r, err
}

// turnRings makes the outline run anticlockwise and the holes clockwise.
func (r *region) turnRings() {
	for i, chords := range r.cut(r.chord) {
		ring := r.rings[i]
		if anticlockwise(chords) != (i == 0) {
			slices.Reverse(ring)
			for k, s := range ring {
				ring[k] = s.reversed()
			}
		}
		corners := make([]mgl64.Vec2, len(ring))
		for k, s := range ring {
			corners[k] = s.p
		}
		r.corners = append(r.corners, corners)
	}
}

func (r region) middle() mgl64.Vec2 { return r.low.Add(r.high).Mul(0.5) }

// finePoints is how many points the finest chords should keep to.
const finePoints = 4000

// fineChord returns what chord should be.
func (r region) fineChord() float64 {
	chord := 1e-5 * r.size
	for chord < r.size {
		points := 0
		for _, ring := range r.rings {
			for _, s := range ring {
				points += s.facets(chord)
			}
		}
		if points <= finePoints {
			break
		}
		chord *= 4
	}
	return chord
}

// cut returns the rings with their arcs cut into chords.
func (r region) cut(chord float64) [][]mgl64.Vec2 {
	rings := make([][]mgl64.Vec2, len(r.rings))
	for i, ring := range r.rings {
		for _, s := range ring {
			rings[i] = s.appendPoints(rings[i], s.facets(chord))
		}
	}
	return rings
}

// number returns which side a point of the finely cut ring lies on.
func (r region) number(ring, point int) int {
	for i, s := range r.rings[ring] {
		if point -= s.facets(r.chord); point < 0 {
			return i
		}
	}
	return 0
}

// chords returns the rings cut into chords no further than chord (m) from
// their arcs, and the triangles between them. Where coarse chords would cross
// each other, at a thin wall, and where finer ones are asked for than there
// are, it returns the finest.
func (r region) chords(chord float64) (rings [][]mgl64.Vec2, ends [][3]int) {
	if !(chord > r.chord) {
		return r.fine, r.ends
	}
	rings = r.cut(chord)
	if len(slices.Concat(rings...)) == len(slices.Concat(r.fine...)) || checkRings(rings) != nil {
		return r.fine, r.ends
	}
	ends, err := triangulate(rings)
	if err != nil {
		return r.fine, r.ends
	}
	return rings, ends
}

// moments returns the area moments about the given point, summed along the
// sides: exact for straight ones, to rounding for arcs (see [gauss12]).
func (r region) moments(about mgl64.Vec2) cubic {
	var c cubic
	for _, ring := range r.rings {
		for _, s := range ring {
			s.addTo(&c, about)
		}
	}
	return c
}

// reach returns the greatest r·dir over the figure.
func (r region) reach(dir mgl64.Vec2) float64 {
	reach := math.Inf(-1)
	for _, s := range r.rings[0] {
		reach = max(reach, s.reach(dir))
	}
	return reach
}

// contains tells whether v is in the figure or no further than tol (m) from
// its sides: it is in an odd number of rings, and in a ring where it is in its
// chords or else between an arc and its chord.
func (r region) contains(v mgl64.Vec2, tol float64) bool {
	in := false
	for i, ring := range r.rings {
		for _, s := range ring {
			if s.distance(v) <= tol {
				return true
			}
			in = in != s.cuts(v)
		}
		in = in != inside(r.corners[i], v)
	}
	return in
}
