package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The slices of round insides and the cut of a mesh are two methods: they
// agree as far as the mesh can, at any level and tilt.
func TestRoundInsidesAgreeWithTheirMesh(t *testing.T) {
	type both struct{ exact, mesh Inside }
	var pairs []both
	for _, s := range []Solid{
		made(NewCylinder(1, 2)), made(NewCylinder(2, 0.1)), made(NewSphere(1, 0)), made(NewCone(1, 0, 1)), made(NewCone(0.2, 1, 1)),
		made(NewHemisphere(1, 0)), made(NewCap(1, 0.3)), made(NewCap(1, 0.8)),
		first(made(NewVessel(VesselSize{Inside: 1, Wall: 0.01, Length: 2, Heads: Ellipsoidal(2)})).Inside()),
		first(made(NewVessel(VesselSize{Inside: 1, Wall: 0.01, Length: 0.5, Heads: DIN28011()})).Inside()),
		first(made(NewHead(HeadSize{Form: DIN28013(), Outside: 1, Wall: 0.05, Flange: 0.1})).Inside()),
	} {
		pairs = append(pairs, both{filledUp(NewInside(s, 0)), byMesh(s, 5e-4)})
	}
	rapid.Check(t, func(t *rapid.T) {
		pair := rapid.SampledFrom(pairs).Draw(t, "inside")
		up := drawUp(t)
		volume := rapid.Float64Range(0, 1).Draw(t, "part") * pair.exact.Volume()
		want, err := pair.exact.AtVolume(volume, up)
		require.NoError(t, err)
		got, err := pair.mesh.AtVolume(volume, up)
		require.NoError(t, err)
		size := pair.exact.Volume()
		nearVec(t, want.Moments.First, got.Moments.First, 1e-3*size)
		assert.InDelta(t, volume, pair.mesh.AtLevel(want.Level, up).Moments.Volume, 1e-3*size)
		for i := range want.Moments.Second {
			assert.InDelta(t, want.Moments.Second[i], got.Moments.Second[i], 4e-3*size, "second moments [%d]", i)
		}
	})
}

func first(s Solid, _ bool) Solid { return s }

// Volume is kept under any tilt, the centroid is below the level and inside
// the box around, and what lies above is the rest.
func TestVolumeIsKeptUnderTilt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, up := drawInside(t), drawUp(t)
		part := rapid.Float64Range(0, 1).Draw(t, "part")
		volume := part * in.Volume()
		got, err := in.AtVolume(volume, up)
		require.NoError(t, err)
		assert.InDelta(t, volume, got.Moments.Volume, 2e-7*in.Volume())
		over := in.AtLevel(-got.Level, up.Mul(-1))
		both := got.Moments.Plus(over.Moments)
		assert.InDelta(t, in.Volume(), both.Volume, 1e-6*in.Volume())
		nearVec(t, in.whole.First, both.First, 1e-6*in.Volume())
		if part > 1e-6 {
			assert.LessOrEqual(t, got.Moments.Centroid().Dot(up.Normalize()), got.Level+1e-9)
		}
		if got.Surface.Area > 0 && over.Surface.Area > 0 {
			assert.InDelta(t, got.Level, got.Surface.Centroid.Dot(up.Normalize()), 1e-9)
			assert.InDelta(t, 0, got.Surface.Second.Mul3x1(up.Normalize()).Len(), 1e-9)
		}
		if part > 1e-6 && part < 1-1e-6 && !atAStep(in, got.Level, up) { // next to a flat bottom the last digit of the level shows
			assert.InDelta(t, over.Surface.Area, got.Surface.Area, 1e-6)
		}
	})
}

// atAStep tells whether the surface is another a micrometre up or down, as at the
// bottom of a pocket.
func atAStep(in Inside, level float64, up Vec) bool {
	low, high := in.AtLevel(level-1e-6, up).Surface.Area, in.AtLevel(level+1e-6, up).Surface.Area
	return math.Abs(high-low) > 1e-3
}

// A higher level holds more, and dV/dlevel is the area of the surface.
func TestVolumeGrowsWithTheLevelByTheSurface(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, up := drawInside(t), drawTurn(t).Col(2)
		low, high := in.form.span(up)
		level := low + (high-low)*rapid.Float64Range(0.02, 0.98).Draw(t, "level")
		step := 1e-4 * (high - low)
		less, here, more := in.AtLevel(level-step, up), in.AtLevel(level, up), in.AtLevel(level+step, up)
		assert.Less(t, less.Moments.Volume, here.Moments.Volume)
		assert.Less(t, here.Moments.Volume, more.Moments.Volume)
		rise := (more.Moments.Volume - less.Moments.Volume) / (2 * step)
		assert.InDelta(t, here.Surface.Area, rise, 0.02*here.Surface.Area+0.003*in.Volume()/(high-low))
	})
}

// BM = I/V: turned by a small w at constant volume, the centroid moves by
// −Second·w/V. Standard hydrostatics; here by differences from either side.
func TestMetacentre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, up := drawInside(t), drawTurn(t).Col(2)
		volume := rapid.Float64Range(0.05, 0.95).Draw(t, "part") * in.Volume()
		way := up.Cross(drawTurn(t).Col(0))
		const small = 1e-3
		turned := func(by float64) Vec {
			l, err := in.AtVolume(volume, up.Add(way.Mul(by)))
			require.NoError(t, err)
			return l.Moments.First
		}
		here, err := in.AtVolume(volume, up)
		require.NoError(t, err)
		want := here.Surface.Second.Mul3x1(way).Mul(-1)
		got := turned(small).Sub(turned(-small)).Mul(1 / (2 * small))
		nearVec(t, want, got, 0.01*here.Surface.Second.Trace(), up, way)
	})
}

// Independent integration: slices of any solid across up by counting the
// points of a lattice that it says it contains.
func TestLiquidAgreesWithCountedPoints(t *testing.T) {
	for name, s := range map[string]Solid{
		"tube": made(NewTube(1, 0.2, 0.8)), "elbow": made(NewBend(0.4, 0, 0.4, 2)), "two pockets": uShape(),
		"vessel": first(made(NewVessel(VesselSize{Inside: 1, Wall: 0.01, Length: 1, Heads: DIN28011()})).Inside()),
	} {
		in := filledUp(NewInside(s, 0))
		box := ExtentOf(s, Still())
		up := Vec{0.3, -0.5, 0.8}.Normalize()
		level := box.Center().Dot(up) + 0.1*box.Diagonal()/4
		const n = 60
		cell := box.Size().Mul(1.0 / n)
		var volume float64
		var sum Vec
		for i := range n * n * n {
			p := Vec{float64(i%n) + 0.5, float64(i/n%n) + 0.5, float64(i/n/n) + 0.5}
			for k := range p {
				p[k] = box.Min[k] + p[k]*cell[k]
			}
			if p.Dot(up) <= level && s.Contains(p) {
				volume += cell[0] * cell[1] * cell[2]
				sum = sum.Add(p.Mul(cell[0] * cell[1] * cell[2]))
			}
		}
		got := in.AtLevel(level, up)
		assert.InEpsilon(t, volume, got.Moments.Volume, 5e-3, name)
		nearVec(t, sum.Mul(1/volume), got.Moments.Centroid(), 5e-3*box.Diagonal(), name)
	}
}
