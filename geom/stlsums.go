package geom

import (
	"encoding/binary"
	"math"
	"math/bits"
)

// stlSums are the sums over a part of an STL file.
type stlSums struct {
	sum, lost tally // sums over blocks, and what rounding took from them
	low, high Vec
	edges     uint64
}

func newSTLSums() stlSums {
	inf := math.Inf(1)
	return stlSums{low: Vec{inf, inf, inf}, high: Vec{-inf, -inf, -inf}}
}

// block adds facets, as plain sums from the origin.
func (s *stlSums) block(facets [][3]Vec, origin Vec) {
	var t tally
	low, high := facets[0][0], facets[0][0]
	for i := range facets {
		f := &facets[i]
		for axis := range low {
			low[axis] = min(low[axis], min(f[0][axis], f[1][axis], f[2][axis]))
			high[axis] = max(high[axis], max(f[0][axis], f[1][axis], f[2][axis]))
		}
		t.add(f[0].Sub(origin), f[1].Sub(origin), f[2].Sub(origin))
	}
	s.hold(low, high)
	s.plus(t)
}

// rawPlainly adds triangles as they stand in a binary file, as plain sums from the origin: see [Mesh.MomentsAbout]
// for the formula. A float32 less another is exact in float64 unless their
// exponents are more than 29 apart, so the local origin costs no digit.
// Written out axis by axis, since a loop over the axes takes twice as long.
func (s *stlSums) rawPlainly(part []byte, origin Vec) {
	if len(part) == 0 {
		return
	}
	var v, mx, my, mz, xx, yy, zz, xy, yz, zx float64
	ox, oy, oz := origin[0], origin[1], origin[2]
	lx, ly, lz, hx, hy, hz := int32(math.MaxInt32), int32(math.MaxInt32), int32(math.MaxInt32), int32(math.MinInt32), int32(math.MinInt32), int32(math.MinInt32)
	for ; len(part) >= binaryTriangle; part = part[binaryTriangle:] {
		p := (*[binaryTriangle]byte)(part)
		fax, fay, faz := single(p[12:]), single(p[16:]), single(p[20:])
		fbx, fby, fbz := single(p[24:]), single(p[28:]), single(p[32:])
		fcx, fcy, fcz := single(p[36:]), single(p[40:]), single(p[44:])
		// As whole numbers, whose least and greatest cost less than those of floats.
		iax, iay, iaz := ordered(p[12:]), ordered(p[16:]), ordered(p[20:])
		ibx, iby, ibz := ordered(p[24:]), ordered(p[28:]), ordered(p[32:])
		icx, icy, icz := ordered(p[36:]), ordered(p[40:]), ordered(p[44:])
		lx, ly, lz = min(iax, ibx, icx, lx), min(iay, iby, icy, ly), min(iaz, ibz, icz, lz)
		hx, hy, hz = max(iax, ibx, icx, hx), max(iay, iby, icy, hy), max(iaz, ibz, icz, hz)
		ax, ay, az := float64(fax)-ox, float64(fay)-oy, float64(faz)-oz
		bx, by, bz := float64(fbx)-ox, float64(fby)-oy, float64(fbz)-oz
		cx, cy, cz := float64(fcx)-ox, float64(fcy)-oy, float64(fcz)-oz
		d := ax*(by*cz-bz*cy) + ay*(bz*cx-bx*cz) + az*(bx*cy-by*cx)
		sx, sy, sz := ax+bx+cx, ay+by+cy, az+bz+cz
		v += d
		mx, my, mz = mx+d*sx, my+d*sy, mz+d*sz
		xx += d * (sx*sx + ax*ax + bx*bx + cx*cx)
		yy += d * (sy*sy + ay*ay + by*by + cy*cy)
		zz += d * (sz*sz + az*az + bz*bz + cz*cz)
		xy += d * (sx*sy + ax*ay + bx*by + cx*cy)
		yz += d * (sy*sz + ay*az + by*bz + cy*cz)
		zx += d * (sz*sx + az*ax + bz*bx + cz*cx)
	}
	s.hold(Vec{unordered(lx), unordered(ly), unordered(lz)}, Vec{unordered(hx), unordered(hy), unordered(hz)})
	s.plus(tally{v, mx, my, mz, xx, yy, zz, xy, yz, zx})
}

// plus adds with compensation: what a sum loses is kept beside it.
//
// Source: A. Neumaier, "Rundungsfehleranalyse einiger Verfahren zur Summation
// endlicher Summen", ZAMM 54, 1974 (from memory).
func (s *stlSums) plus(t tally) {
	for i, x := range t {
		sum := s.sum[i] + x
		if math.Abs(s.sum[i]) >= math.Abs(x) {
			s.lost[i] += (s.sum[i] - sum) + x
		} else {
			s.lost[i] += (x - sum) + s.sum[i]
		}
		s.sum[i] = sum
	}
}

func (s *stlSums) add(t *stlSums) {
	s.plus(t.sum)
	for i := range s.lost {
		s.lost[i] += t.lost[i]
	}
	s.hold(t.low, t.high)
	s.edges += t.edges
}

// hold widens the box; a NaN stays in it.
func (s *stlSums) hold(low, high Vec) {
	for axis := range s.low {
		s.low[axis], s.high[axis] = min(s.low[axis], low[axis]), max(s.high[axis], high[axis])
	}
}

// finite reports whether every coordinate so far is a number within bounds.
func (s *stlSums) finite() bool {
	for axis := range s.low {
		if !(s.low[axis] >= -mostCoordinate && s.high[axis] <= mostCoordinate) { // NaN fails too
			return false
		}
	}
	return true
}

func (s *stlSums) measured(triangles int, origin Vec, judged bool) Measured {
	for i := range s.sum {
		s.sum[i] += s.lost[i]
	}
	return Measured{Triangles: triangles, Origin: origin, About: s.sum.moments(), Closed: judged && s.edges == 0, Box: Extent{s.low, s.high}}
}

// singleSpacing is how far neighbouring float32 numbers are apart at the
// greatest coordinate of a box: what a binary STL file in it can't tell apart.
func singleSpacing(box Extent) float64 {
	largest := 0.0
	for axis := range box.Min {
		largest = max(largest, math.Abs(box.Min[axis]), math.Abs(box.Max[axis]))
	}
	next := math.Nextafter32(float32(largest), float32(math.Inf(1)))
	return float64(next) - float64(float32(largest))
}

// fingerprint adds a number for each directed edge, so chosen that an edge and
// the same edge run backwards cancel. Over a closed surface, each edge as often
// one way as the other, the total modulo 2⁶⁴ is zero in any order of facets:
// never a false alarm. Over another it is zero with a chance of about 2⁻⁶⁴, if
// the numbers are as good as random: an estimate, not proved, and not proof
// against a file made to deceive.
//
// It needs no memory and no welding. It does not see facets that are there twice
// as a matched pair, surfaces that pass through each other, or shells inside
// out. The idea, a hash of a multiset that is a sum, is published (from memory).
func fingerprint(facets [][3]Vec) uint64 {
	total := uint64(0)
	for i := range facets {
		f := &facets[i]
		a, b, c := cornerHash(&f[0]), cornerHash(&f[1]), cornerHash(&f[2])
		total += edgeHash(a, b) + edgeHash(b, c) + edgeHash(c, a)
	}
	return total
}

func cornerHash(v *Vec) uint64 {
	x, y, z := math.Float64bits(v[0]+0), math.Float64bits(v[1]+0), math.Float64bits(v[2]+0) // −0 + 0 is +0
	return mixed(mixed(x^mixEdge, y^mixCorner)^z, mixZ)
}

// rawFingerprint is that of triangles as they stand in a binary file.
func rawFingerprint(part []byte) uint64 {
	total := uint64(0)
	for ; len(part) >= binaryTriangle; part = part[binaryTriangle:] {
		p := (*[binaryTriangle]byte)(part)
		a, b, c := rawCornerHash(p[12:24]), rawCornerHash(p[24:36]), rawCornerHash(p[36:48])
		total += edgeHash(a, b) + edgeHash(b, c) + edgeHash(c, a)
	}
	return total
}

// Odd numbers without a pattern: the golden ratio and square roots of primes
// in binary, as fractions of 2⁶⁴.
const (
	mixCorner = 0x9e3779b97f4a7c15
	mixZ      = 0xbb67ae8584caa73b
	mixEdge   = 0x3c6ef372fe94f82b
)

func rawCornerHash(p []byte) uint64 {
	x, y, z := bitsOf(p[0:]), bitsOf(p[4:]), bitsOf(p[8:])
	return mixed(x|y<<32^mixCorner, z^mixZ)
}

// bitsOf makes −0 and +0 alike, since they are the same place.
func bitsOf(b []byte) uint64 {
	u := binary.LittleEndian.Uint32(b)
	if u == 1<<31 {
		u = 0
	}
	return uint64(u)
}

// edgeHash changes its sign, and nothing else, when a and b change places, and is
// zero where they are equal. The sign is put on without a branch, which the
// processor would guess wrong every second time.
func edgeHash(a, b uint64) uint64 {
	_, back := bits.Sub64(a, b, 0)
	return (mixed(a+b+mixEdge, a^b) ^ -back) + back
}

// ordered gives the bits of a float32 an order as whole numbers that is that of the
// numbers; a NaN comes beyond all others, so a box tells of it.
func ordered(b []byte) int32 {
	k := int32(binary.LittleEndian.Uint32(b))
	return k ^ k>>31&math.MaxInt32
}

// unordered is the number that ordered was made of.
func unordered(k int32) float64 {
	return float64(math.Float32frombits(uint32(k ^ k>>31&math.MaxInt32)))
}
