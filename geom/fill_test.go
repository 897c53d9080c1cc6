package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Horizontal vessel, inside diameter 2 m, 6 m from tangent line to tangent
// line, filled to a depth: volume, and centroid of the liquid below the axis.
// Circular segment and ellipsoidal heads in closed form, dished heads by an
// integral of segment areas (all worked outside the program; the segment as in
// tables of mensuration, the 2:1 heads V_full (h/D)² (3 − 2h/D)).
func TestPartlyFilledVessels(t *testing.T) {
	type level struct{ depth, volume, below float64 }
	forms := []struct {
		name   string
		heads  HeadForm
		levels []level // of both heads together
	}{
		{"2:1 ellipsoidal", Ellipsoidal(2), []level{{0.5, 0.327249, 0.675000}, {1.0, 1.047198, 0.375000}, {1.5, 1.767146, 0.125000}}},
		{"crown 2, knuckle 0.12", Torispherical(2, 0.12), []level{{0.5, 2 * 0.097148, 0.67410}, {1.0, 2 * 0.323996, 0.36790}, {1.5, 2 * 0.550844, 0.11889}}},
		{"crown 2, knuckle 0.2", Torispherical(2, 0.2), []level{{0.5, 2 * 0.123950, 0.67808}, {1.0, 2 * 0.395864, 0.37575}, {1.5, 2 * 0.667778, 0.12586}}},
		{"crown 1.6, knuckle 0.308", Torispherical(1.6, 0.308), []level{{0.5, 2 * 0.163787, 0.67728}, {1.0, 2 * 0.523087, 0.37561}, {1.5, 2 * 0.882387, 0.12571}}},
	}
	shell := []level{{0.5, 3.685109, 0.705020}, {1.0, 9.424778, 0.424413}, {1.5, 15.164447, 0.171327}}
	for _, f := range forms {
		vessel, err := NewVessel(VesselSize{Inside: 2, Wall: 0.01, Length: 6, Heads: f.heads})
		require.NoError(t, err)
		inside, ok := vessel.Inside()
		require.True(t, ok)
		lying := inside.Mesh(2e-5).Posed(Pose{Turn: TurnAbout(1, math.Pi/2)})
		for i, heads := range f.levels {
			got := lying.Below(Vec{0, 0, heads.depth - 1}, Vec{0, 0, 3})
			volume := shell[i].volume + heads.volume
			assert.InEpsilon(t, volume, got.Volume, 2e-4, "%s, %g deep", f.name, heads.depth)
			below := (shell[i].volume*shell[i].below + heads.volume*heads.below) / volume
			assert.InDelta(t, -below, got.Centroid()[2], 2e-4, "%s, %g deep", f.name, heads.depth)
		}
	}
}

// Cylindrical hoof: a plane through a diameter of the base, r = 1, rising to
// h = 2: V = 2r²h/3, centroid 3πr/16 from the diameter and 3πh/32 up (tables of
// mensuration, checked by integration).
func TestTiltedLevelLeavesAHoof(t *testing.T) {
	cylinder, err := NewCylinder(2, 5)
	require.NoError(t, err)
	got := cylinder.Mesh(1e-6).Below(Vec{}, Vec{-2, 0, 1}) // under z = 2x
	assert.InDelta(t, 1.333333, got.Volume, 2e-5)
	c := got.Centroid()
	assert.InDelta(t, 0.589049, c[0], 2e-5)
	assert.InDelta(t, 0, c[1], 1e-9)
	assert.InDelta(t, 0.589049, c[2], 2e-5)
}

// Both sides of a level make the whole, second moments too, wherever it stands.
func TestBelowAndAboveMakeTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mesh := drawSolid(t).Mesh(0.05).Posed(drawPose(t))
		whole := mesh.Moments()
		box := mesh.Extent()
		point, up := box.Center(), drawTurn(t).Col(2)
		for i := range point {
			point[i] += rapid.Float64Range(-0.6, 0.6).Draw(t, "off") * box.Size()[i]
		}
		below, above := mesh.Below(point, up), mesh.Below(point, up.Mul(-1))
		sum, size := below.Plus(above), box.Diagonal()
		far := point.Len() + size
		if math.Abs(sum.Volume-whole.Volume) > 1e-10*size*size*size ||
			sum.First.Sub(whole.First).Len() > 1e-10*size*size*size*far ||
			math.Abs(sum.Second.Trace()-whole.Second.Trace()) > 1e-10*size*size*size*far*far {
			t.Fatalf("%v and %v do not make %v", below, above, whole)
		}
		if below.Volume < -1e-10*size*size*size {
			t.Fatalf("below is %v", below.Volume)
		}
	})
}

func TestBelowNothingIsNothing(t *testing.T) {
	box, err := NewBox(1, 1, 1)
	require.NoError(t, err)
	assert.Zero(t, box.Mesh(0).Below(Vec{}, Vec{}).Volume)
	assert.InDelta(t, 0, box.Mesh(0).Below(Vec{0, 0, -1}, Vec{0, 0, 1}).Volume, 1e-15)
	assert.InDelta(t, 1, box.Mesh(0).Below(Vec{0, 0, 9}, Vec{0, 0, 1}).Volume, 1e-12)
}
