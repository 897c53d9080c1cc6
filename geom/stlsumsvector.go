//go:build amd64 && goexperiment.simd

package geom

import (
	"math"
	"simd/archsimd"
)

// Only with GOEXPERIMENT=simd, which Go keeps the right to change: the sums of four
// triangles at a time. rawPlainly is the reference, and does the rest.
var hasVectors = archsimd.X86.AVX2() && archsimd.X86.FMA()

type (
	singles = archsimd.Float32x4 // a coordinate of four triangles
	doubles = archsimd.Float64x4
)

// raw adds triangles as they stand in a binary file: [stlSums.rawPlainly] for four
// at a time. Sums of products are rounded once where that rounds twice.
func (s *stlSums) raw(part []byte, origin Vec) {
	const four = 4 * binaryTriangle
	if !hasVectors || len(part) < four {
		s.rawPlainly(part, origin)
		return
	}
	var v, mx, my, mz, xx, yy, zz, xy, yz, zx doubles
	ox, oy, oz := archsimd.BroadcastFloat64x4(origin[0]), archsimd.BroadcastFloat64x4(origin[1]), archsimd.BroadcastFloat64x4(origin[2])
	inf := float32(math.Inf(1))
	lx, hx := archsimd.BroadcastFloat32x4(inf), archsimd.BroadcastFloat32x4(-inf)
	ly, lz, hy, hz := lx, lx, hx, hx
	for ; len(part) >= four; part = part[four:] {
		p, q, r, t := part[:binaryTriangle], part[binaryTriangle:][:binaryTriangle], part[2*binaryTriangle:][:binaryTriangle], part[3*binaryTriangle:][:binaryTriangle]
		a, b, c, e := row(p[12:]), row(q[12:]), row(r[12:]), row(t[12:])
		ab, ce := a.InterleaveLo(b).AsInt64x2(), c.InterleaveLo(e).AsInt64x2()
		fax, fay := ab.InterleaveLo(ce).AsFloat32x4(), ab.InterleaveHi(ce).AsFloat32x4()
		ab, ce = a.InterleaveHi(b).AsInt64x2(), c.InterleaveHi(e).AsInt64x2()
		faz, fbx := ab.InterleaveLo(ce).AsFloat32x4(), ab.InterleaveHi(ce).AsFloat32x4()
		a, b, c, e = row(p[28:]), row(q[28:]), row(r[28:]), row(t[28:])
		ab, ce = a.InterleaveLo(b).AsInt64x2(), c.InterleaveLo(e).AsInt64x2()
		fby, fbz := ab.InterleaveLo(ce).AsFloat32x4(), ab.InterleaveHi(ce).AsFloat32x4()
		ab, ce = a.InterleaveHi(b).AsInt64x2(), c.InterleaveHi(e).AsInt64x2()
		fcx, fcy := ab.InterleaveLo(ce).AsFloat32x4(), ab.InterleaveHi(ce).AsFloat32x4()
		ab, ce = row(p[32:]).InterleaveHi(row(q[32:])).AsInt64x2(), row(r[32:]).InterleaveHi(row(t[32:])).AsInt64x2()
		fcz := ab.InterleaveHi(ce).AsFloat32x4()
		lx, hx = lx.Min(fax).Min(fbx.Min(fcx)), hx.Max(fax).Max(fbx.Max(fcx))
		ly, hy = ly.Min(fay).Min(fby.Min(fcy)), hy.Max(fay).Max(fby.Max(fcy))
		lz, hz = lz.Min(faz).Min(fbz.Min(fcz)), hz.Max(faz).Max(fbz.Max(fcz))
		ax, ay, az := fax.ConvertToFloat64().Sub(ox), fay.ConvertToFloat64().Sub(oy), faz.ConvertToFloat64().Sub(oz)
		bx, by, bz := fbx.ConvertToFloat64().Sub(ox), fby.ConvertToFloat64().Sub(oy), fbz.ConvertToFloat64().Sub(oz)
		cx, cy, cz := fcx.ConvertToFloat64().Sub(ox), fcy.ConvertToFloat64().Sub(oy), fcz.ConvertToFloat64().Sub(oz)
		d := ax.Mul(by.Mul(cz).Sub(bz.Mul(cy)))
		d = ay.MulAdd(bz.Mul(cx).Sub(bx.Mul(cz)), d)
		d = az.MulAdd(bx.Mul(cy).Sub(by.Mul(cx)), d)
		sx, sy, sz := ax.Add(bx).Add(cx), ay.Add(by).Add(cy), az.Add(bz).Add(cz)
		v = v.Add(d)
		mx, my, mz = d.MulAdd(sx, mx), d.MulAdd(sy, my), d.MulAdd(sz, mz)
		xx = d.MulAdd(cx.MulAdd(cx, bx.MulAdd(bx, ax.MulAdd(ax, sx.Mul(sx)))), xx)
		yy = d.MulAdd(cy.MulAdd(cy, by.MulAdd(by, ay.MulAdd(ay, sy.Mul(sy)))), yy)
		zz = d.MulAdd(cz.MulAdd(cz, bz.MulAdd(bz, az.MulAdd(az, sz.Mul(sz)))), zz)
		xy = d.MulAdd(cx.MulAdd(cy, bx.MulAdd(by, ax.MulAdd(ay, sx.Mul(sy)))), xy)
		yz = d.MulAdd(cy.MulAdd(cz, by.MulAdd(bz, ay.MulAdd(az, sy.Mul(sz)))), yz)
		zx = d.MulAdd(cz.MulAdd(cx, bz.MulAdd(bx, az.MulAdd(ax, sz.Mul(sx)))), zx)
	}
	low, high := Vec{least(lx), least(ly), least(lz)}, Vec{most(hx), most(hy), most(hz)}
	sums := tally{across4(v), across4(mx), across4(my), across4(mz), across4(xx), across4(yy), across4(zz), across4(xy), across4(yz), across4(zx)}
	if !(math.Abs(sums[0]) < math.Inf(1)) { // a NaN may be lost from the box, never from the sums
		low[0] = math.NaN()
	}
	s.hold(low, high)
	s.plus(sums)
	s.rawPlainly(part, origin)
}

func row(p []byte) archsimd.Int32x4 { return archsimd.LoadUint8x16((*[16]byte)(p)).AsInt32x4() }

func across4(x doubles) float64 {
	var lanes [4]float64
	x.Store(&lanes)
	return lanes[0] + lanes[1] + lanes[2] + lanes[3]
}

func least(x singles) float64 {
	var lanes [4]float32
	x.Store(&lanes)
	return float64(min(lanes[0], lanes[1], lanes[2], lanes[3]))
}

func most(x singles) float64 {
	var lanes [4]float32
	x.Store(&lanes)
	return float64(max(lanes[0], lanes[1], lanes[2], lanes[3]))
}
