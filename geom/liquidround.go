package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// round is a convex inside turned about z, cut into slices across its axis.
// A level cuts a slice, a disc, in a circular segment, whose moments are known
// in closed form; they are summed along the axis by 24 points in each
// stretch of profile that the level runs through. The points are crowded
// towards the ends by a sine, where the width of a segment begins as a root,
// so that the sum is good to about 1e-8 of the full volume.
type round struct{ girths []girth } // from the lowest to the highest

// tilt is a level as seen across the axis, in the half-plane of axis and up:
// x along the level part of up, z along the axis.
type tilt struct {
	turn     mgl64.Mat3 // from x, across, z to the frame
	sin, cos float64    // up along x, ≥ 0, and along z
}

func newTilt(up Vec) tilt {
	sin := math.Hypot(up[0], up[1])
	x := Vec{1, 0, 0}
	if sin > 0 {
		x = Vec{up[0] / sin, up[1] / sin, 0}
	}
	return tilt{mgl64.Mat3FromCols(x, Vec{-x[1], x[0], 0}, Vec{0, 0, 1}), sin, up[2]}
}

// height is how high a point of the half-plane is along up.
func (t tilt) height(x, z float64) float64 { return x*t.sin + z*t.cos }

// ends returns the lowest and the highest point of the cut along the axis.
func (b round) ends(t tilt) (low, high mgl64.Vec2) {
	low, high = b.girths[0].farthest(t.sin, -t.cos), b.girths[0].farthest(t.sin, t.cos)
	for _, g := range b.girths[1:] {
		if p := g.farthest(t.sin, -t.cos); t.sin*p[0]-t.cos*p[1] > t.sin*low[0]-t.cos*low[1] {
			low = p
		}
		if p := g.farthest(t.sin, t.cos); t.height(p[0], p[1]) > t.height(high[0], high[1]) {
			high = p
		}
	}
	low[0] = -low[0]
	return low, high
}

func (b round) span(up Vec) (low, high float64) {
	t := newTilt(up)
	first, last := b.ends(t)
	return t.height(first[0], first[1]), t.height(last[0], last[1])
}

// holds tells whether a point of the half-plane is inside.
func (b round) holds(x, z float64) bool {
	for _, g := range b.girths {
		if z >= g.low && z <= g.high {
			return math.Abs(x) <= g.radius(z)
		}
	}
	return false
}

// line returns where the level runs: a point inside and how far it goes from
// there along (cos, −sin), one way and the other. A level between the lowest
// and the highest point crosses the line that joins them, which is inside as
// the body is convex; from there the wall is found by halves.
func (b round) line(level float64, t tilt) (on mgl64.Vec2, from, to float64) {
	low, high := b.ends(t)
	bottom, top := t.height(low[0], low[1]), t.height(high[0], high[1])
	on = low.Add(high.Sub(low).Mul((level - bottom) / (top - bottom)))
	reach := 0.0
	for _, g := range b.girths {
		reach = max(reach, g.widest())
	}
	reach = 2*reach + b.girths[len(b.girths)-1].high - b.girths[0].low
	wall := func(way float64) float64 {
		inside, outside := 0.0, reach
		for range 54 {
			middle := (inside + outside) / 2
			if b.holds(on[0]+way*middle*t.cos, on[1]-way*middle*t.sin) {
				inside = middle
			} else {
				outside = middle
			}
		}
		return way * inside
	}
	return on, wall(-1), wall(1)
}

func (b round) at(level float64, up Vec) (Moments, Surface) {
	t := newTilt(up)
	on, from, to := b.line(level, t)
	var sum wetted
	var top flat // of the surface: x along the line
	one, other := on[1]-from*t.sin, on[1]-to*t.sin
	first, last := min(one, other), max(one, other)
	// Beyond the level's reach along the axis, slices are all wet or all dry, as
	// their middles are.
	below := b.girths[0].low*t.cos <= level
	above := b.girths[len(b.girths)-1].high*t.cos <= level
	for _, g := range b.girths {
		if below {
			sum.discs(g, g.low, min(g.high, first))
		}
		if above {
			sum.discs(g, max(g.low, last), g.high)
		}
		start, end := from, to
		if t.sin > 0 {
			start = max(start, (on[1]-g.high)/t.sin)
			end = min(end, (on[1]-g.low)/t.sin)
		} else if on[1] < g.low || on[1] >= g.high {
			continue
		}
		crowded(start, end, func(s, weight float64) {
			x, z := on[0]+s*t.cos, on[1]-s*t.sin
			r := g.radius(z)
			sum.add(segment(r, x), z, weight*t.sin)
			top.strip(s, math.Sqrt(max(0, (r-x)*(r+x))), weight)
		})
	}
	return sum.moments().Posed(Pose{Turn: t.turn}), top.surface(on, t)
}

func (b round) column(up Vec) func(level, low, high float64) (volume, area float64) {
	return func(level, _, _ float64) (float64, float64) {
		moments, surface := b.at(level, up)
		return moments.Volume, surface.Area
	}
}

// crowded calls f at 24 places from start to end, crowded towards both.
func crowded(start, end float64, f func(at, weight float64)) {
	if !(end > start) {
		return
	}
	middle, half := (start+end)/2, (end-start)/2
	for _, g := range gauss12 {
		sin, cos := math.Sincos(math.Pi / 4 * (1 + g.at))
		weight := half * math.Pi / 4 * cos * g.weight
		f(middle-half*sin, weight)
		f(middle+half*sin, weight)
	}
}

// wetted sums what is wet of the slices: ∫1, x, z, x², y², z², xz dV.
type wetted struct{ volume, x, z, xx, yy, zz, zx float64 }

func (s *wetted) add(f flat, z, thick float64) {
	s.volume += f.area * thick
	s.x += f.x * thick
	s.z += f.area * z * thick
	s.xx += f.xx * thick
	s.yy += f.yy * thick
	s.zz += f.area * z * z * thick
	s.zx += f.x * z * thick
}

// discs adds the whole slices from low to high.
func (s *wetted) discs(g girth, low, high float64) {
	crowded(low, high, func(z, weight float64) {
		r := g.radius(z)
		area := math.Pi * r * r
		s.add(flat{area: area, xx: area * r * r / 4, yy: area * r * r / 4}, z, weight)
	})
}

func (s *wetted) moments() Moments {
	return Moments{s.volume, Vec{s.x, 0, s.z}, symmetric(s.xx, s.yy, s.zz, 0, 0, s.zx)}
}

// segment returns the figures of the part of a disc of radius r that lies on
// the side of −x from the line at x. With the half angle φ, cos φ = −x/r:
//
//	A = r²·(φ − sin φ·cos φ)    ∫x dA = −2/3·r³·sin³φ
//	∫x² dA = r⁴·(φ/4 − sin 4φ/16)    ∫y² dA = r⁴·(φ/4 − sin 2φ/6 + sin 4φ/48)
//
// Source: circular segment, standard mensuration; the second moments derived here.
func segment(r, x float64) flat {
	cos := 1.0
	if r > 0 {
		cos = max(-1, min(1, -x/r))
	}
	sin, φ := math.Sqrt((1-cos)*(1+cos)), math.Acos(cos)
	sin2 := 2 * sin * cos
	sin4 := 2 * sin2 * (2*cos*cos - 1)
	rr := r * r
	return flat{
		area: rr * (φ - sin*cos),
		x:    -2.0 / 3 * rr * r * sin * sin * sin,
		xx:   rr * rr * (φ/4 - sin4/16),
		yy:   rr * rr * (φ/4 - sin2/6 + sin4/48),
	}
}

// strip adds a strip of half a width w across the line, at s along it.
func (f *flat) strip(s, w, thick float64) {
	f.area += 2 * w * thick
	f.x += 2 * w * s * thick
	f.xx += 2 * w * s * s * thick
	f.yy += 2.0 / 3 * w * w * w * thick
}

// surface returns the strips' figures in the frame, from where s is zero.
func (f flat) surface(on mgl64.Vec2, t tilt) Surface {
	if !(f.area > 0) {
		return Surface{}
	}
	middle := f.x / f.area
	along := t.turn.Mul3x1(Vec{t.cos, 0, -t.sin})
	across := t.turn.Col(1)
	second := along.OuterProd3(along).Mul(f.xx - middle*f.x).Add(across.OuterProd3(across).Mul(f.yy))
	return Surface{f.area, t.turn.Mul3x1(Vec{on[0], 0, on[1]}).Add(along.Mul(middle)), second}
}
