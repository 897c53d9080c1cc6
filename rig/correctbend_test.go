package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// All from standard beam formulas in textbooks of the strength of materials
// (from memory). w in N/m, P in N, L and a in m.
func TestBeamFormulas(t *testing.T) {
	even := func(w, length float64) Beam { return Beam{Line: []LineWeight{{0, length, w}}} }
	tests := []struct {
		name             string
		beam             Beam
		x1, x2           float64
		sagging, hogging Moment
		source           string
	}{
		{"even beam held at its ends", even(100, 8), 0, 8, Moment{100 * 64 / 8.0, 4}, Moment{}, "wL²/8 in the middle"},
		{"one weight in the middle", Beam{Point: []PointWeight{{4, 600}}}, 0, 8, Moment{600 * 8 / 4.0, 4}, Moment{}, "PL/4"},
		{"one weight off the middle", Beam{Point: []PointWeight{{2, 600}}}, 0, 8, Moment{600 * 2 * 6 / 8.0, 2}, Moment{}, "Pab/L at the weight"},
		{"even beam, one end hanging over", even(100, 10), 0, 8,
			Moment{100 / (8.0 * 64) * math.Pow(8+2, 2) * math.Pow(8-2, 2), 8 / 2.0 * (1 - 2*2/64.0)}, Moment{100 * 2 * 2 / 2.0, 8},
			"w(L+a)²(L−a)²/8L² at L/2·(1 − a²/L²); wa²/2 at the pick"},
		{"weight on part of the span", Beam{Line: []LineWeight{{0, 3, 100}}}, 0, 8,
			Moment{math.Pow(100*3/16.0*(16-3), 2) / 200, 3 / 16.0 * (16 - 3)}, Moment{}, "R₁ = wa(2L − a)/2L, R₁²/2w at R₁/w"},
		{"both ends hanging over with a weight on each", Beam{Point: []PointWeight{{0, 50}, {10, 50}}}, 2, 8, Moment{}, Moment{100, 2},
			"Pa all the way between the picks"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b, err := tt.beam.Bending(tt.x1, tt.x2)
			require.NoError(t, err)
			assert.InDelta(t, tt.sagging.Moment, b.Sagging.Moment, 1e-9, tt.source)
			assert.InDelta(t, tt.sagging.At, b.Sagging.At, 1e-9, tt.source)
			assert.InDelta(t, tt.hogging.Moment, b.Hogging.Moment, 1e-9, tt.source)
			assert.InDelta(t, tt.hogging.At, b.Hogging.At, 1e-9, tt.source)
			assert.Equal(t, max(b.Sagging.Moment, b.Hogging.Moment), b.Greatest)
			turned, err := tt.beam.Bending(tt.x2, tt.x1)
			require.NoError(t, err)
			assert.InDelta(t, b.Reaction[0], turned.Reaction[1], 1e-9)
			assert.InDelta(t, b.Greatest, turned.Greatest, 1e-9)
		})
	}
}

// Picks at a from the ends: wa²/2 over them equals w(L − 2a)²/8 − wa²/2 in the
// middle where a = (√2 − 1)/2·L = 0.2071·L; the moment is
// then 0.0214·wL² (textbook statics, derived here). Anywhere else is worse.
func TestEvenBeamBendsLeastAtAFifth(t *testing.T) {
	const w, length = 250.0, 12.0
	beam := Beam{Line: []LineWeight{{0, length, w}}}
	a := (math.Sqrt2 - 1) / 2 * length
	assert.InDelta(t, 0.2071, a/length, 5e-5)
	best, err := beam.Bending(a, length-a)
	require.NoError(t, err)
	assert.InDelta(t, best.Hogging.Moment, best.Sagging.Moment, 1e-9)
	assert.InDelta(t, 0.0214466, best.Greatest/(w*length*length), 1e-7)
	for _, off := range []float64{-0.5, -0.01, 0.01, 0.5} {
		other, err := beam.Bending(a+off, length-a-off)
		require.NoError(t, err)
		assert.Greater(t, other.Greatest, best.Greatest, "%v m off", off)
	}
}

// Against integration: the shear summed up over 20 000 thin slices.
func TestBendingByIntegration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		const length, slices = 10.0, 20000
		beam := Beam{Line: []LineWeight{{0, length, draw("even", 10, 100)}}}
		from := draw("from", 0, 8)
		beam.Line = append(beam.Line, LineWeight{from, from + draw("long", 0.1, 2), draw("more", 0, 500)})
		beam.Point = []PointWeight{{draw("at", 0, length), draw("point", 0, 500)}}
		x1, x2 := draw("x1", 0, 4), draw("x2", 6, length)
		b, err := beam.Bending(x1, x2)
		if err != nil {
			t.Skip(err)
		}
		var shear, moment, most, least, weight float64
		const dx = length / slices
		for i := range slices {
			x := (float64(i) + 0.5) * dx
			load := 0.0
			for _, l := range beam.Line {
				load += l.Each * max(0, min(x+dx/2, l.To)-max(x-dx/2, l.From))
			}
			in := func(at float64) bool { return i == min(slices-1, int(at/dx)) }
			for _, p := range beam.Point {
				if in(p.At) {
					load += p.Weight
				}
			}
			weight += load
			for k, at := range []float64{x1, x2} {
				if in(at) {
					load -= b.Reaction[k]
					weight += b.Reaction[k]
				}
			}
			moment += (shear - load/2) * dx
			shear -= load
			most, least = max(most, moment), min(least, moment)
		}
		within := 2 * dx * weight // a weight or a reaction may sit anywhere in its slice
		if math.Abs(shear) > 1e-6*weight || math.Abs(moment) > within {
			t.Fatalf("at the far end %v N and %v N·m are left", shear, moment)
		}
		if math.Abs(most-b.Sagging.Moment) > within || math.Abs(-least-b.Hogging.Moment) > within {
			t.Fatalf("sagging %v, hogging %v N·m; integrated %v and %v", b.Sagging, b.Hogging, most, -least)
		}
	})
}

func TestBendingRefused(t *testing.T) {
	even := []LineWeight{{0, 10, 100}}
	tests := []struct {
		name   string
		beam   Beam
		x1, x2 float64
		want   string
	}{
		{"CG outside the picks", Beam{Line: even}, 6, 8, "would have to push"},
		{"one pick", Beam{Line: even}, 6, 6, "picks at 6 m and 6 m"},
		{"no place", Beam{Line: even}, math.NaN(), 6, "picks at NaN"},
		{"no weight", Beam{}, 0, 6, "weighs 0 N"},
		{"backward", Beam{Line: []LineWeight{{5, 1, 100}}}, 0, 6, "from 5 m to 1 m"},
		{"lifts", Beam{Line: even, Point: []PointWeight{{5, -1}}}, 0, 6, "-1 N"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := tt.beam.Bending(tt.x1, tt.x2)
			var input *InputError
			require.ErrorAs(t, err, &input)
			assert.Contains(t, input.Msg, tt.want)
		})
	}
}
