package takeoff

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
	"plumbhook/units"
)

// trial is a load as it is taken off and as it is, and its weighings.
type trial struct {
	items     []item
	masses    []float64
	places    []geom.Vec
	weighings []Weighing
}

// deviate is a random error of standard deviation 1, normal or even.
type deviate func(*rand.Rand) float64

func normal(r *rand.Rand) float64 { return r.NormFloat64() }
func even(r *rand.Rand) float64   { return math.Sqrt(3) * (2*r.Float64() - 1) }

// newTrial makes a load of some parts, off as the take-off allows.
func newTrial(r *rand.Rand, d deviate, tolerance float64) trial {
	var t trial
	for i := range 2 + r.IntN(6) {
		best := 100 + 1900*r.Float64()
		part := tolerance * (0.5 + r.Float64())
		one := item{name: fmt.Sprintf("part %d", i), best: best, low: best * (1 - part), high: best * (1 + part),
			cg: geom.Vec{1 + 2*r.Float64(), 0.5 + r.Float64(), 0.3 + 1.5*r.Float64()}}
		if i == 0 {
			one.half = geom.Vec{0.02, 0.01, 0.03}
		}
		t.items = append(t.items, one)
		t.masses = append(t.masses, best*(1+part/math.Sqrt(3)*d(r)))
		place := one.cg
		for k := range 3 {
			place[k] += one.half[k] / math.Sqrt(3) * d(r)
		}
		t.places = append(t.places, place)
	}
	return t
}

// cg is the weight and CG as they are.
func (t trial) cg() (weight float64, cg geom.Vec) {
	for j, m := range t.masses {
		weight += m
		cg = cg.Add(t.places[j].Mul(m))
	}
	return weight, cg.Mul(1 / weight)
}

// weigh puts the load on four cells at the corners of 4 x 2 m and reads them.
// The readings stand for the plumb line through the CG where it meets the plane
// of the cells, so at shares u and v of its sides: (1−u)(1−v) W and so on, and
// some kilograms more on one diagonal than the other, as on uneven ground.
func (t *trial) weigh(r *rand.Rand, d deviate, name string, tilt float64, w Weighing) {
	w.Name = name
	weight, cg := t.cg()
	up := geom.TurnAbout(1, -tilt).Mul3x1(geom.Vec{0, 0, 1})
	hit := cg.Sub(up.Mul(cg[2] / up[2]))
	u, v := hit[0]/4, hit[1]/2
	rock := 0.05 * weight * (2*r.Float64() - 1)
	for i, share := range []float64{(1 - u) * (1 - v), u * (1 - v), u * v, (1 - u) * v} {
		reads := share*weight + rock*[]float64{1, -1, 1, -1}[i]
		c := Reading{Name: string(rune('A' + i)), At: [4]geom.Vec{{0, 0, 0}, {4, 0, 0}, {4, 2, 0}, {0, 2, 0}}[i], Accuracy: units.Mass(0.005 * weight / 4)}
		for k := range 2 {
			c.At[k] += w.Places / math.Sqrt(3) * d(r)
		}
		c.Reads = units.Mass(reads + float64(c.Accuracy)/math.Sqrt(3)*d(r))
		w.Cells = append(w.Cells, c)
	}
	w.About = geom.Vec{0, 1, 0}
	w.Up = geom.TurnAbout(1, -tilt+w.TiltAccuracy/math.Sqrt(3)*d(r)).Mul3x1(geom.Vec{0, 0, 1})
	t.weighings = append(t.weighings, w)
}

// TestTheTruthLiesWhereTheSigmasSay weighs thousands of loads that are off as
// their tolerances allow, on cells that are off as their accuracy allows. Of
// normal errors 68.27 % keep within one sigma and 99.73 % within three
// (textbook); of even ones at least 99.7 % within three too.
func TestTheTruthLiesWhereTheSigmasSay(t *testing.T) {
	const loads = 2000
	for name, d := range map[string]deviate{"normal": normal, "even": even} {
		within := map[string][2]int{} // one sigma, three sigmas
		alarms := 0
		count := func(what string, err, sigma float64) {
			n := within[what]
			if math.Abs(err) <= sigma {
				n[0]++
			}
			if math.Abs(err) <= 3*sigma {
				n[1]++
			}
			within[what] = n
		}
		for seed := range uint64(loads) {
			r := rand.New(rand.NewPCG(seed, 1))
			tr := newTrial(r, d, 0.06)
			rest := Weighing{Places: 0.004, TiltAccuracy: units.Radians(0.2)}
			tr.weigh(r, d, "level", 0, rest)
			tr.weigh(r, d, "tilted", units.Radians(12), rest)
			out, err := FoldIn(tr.items, tr.weighings)
			require.NoError(t, err)
			weight, cg := tr.cg()
			count("weight", float64(out.Weight)-weight, float64(out.WeightSigma))
			count("part", float64(out.Parts[0].After)-tr.masses[0], float64(out.Parts[0].Sigma))
			shown := out.Shown[0]
			require.Equal(t, [3]bool{true, true, true}, shown.Known)
			count("read", float64(shown.Read)-weight, float64(shown.ReadSigma))
			for k, axis := range "xyz" {
				count("CG "+string(axis), out.CG[k]-cg[k], out.CGSigma[k])
				count("CG read "+string(axis), shown.ReadCG[k]-cg[k], shown.ReadCGSigma[k])
			}
			if out.Conflict {
				alarms++
			}
		}
		for what, n := range within {
			one, three := float64(n[0])/loads, float64(n[1])/loads
			t.Logf("%s, %s: %.4f within 1 sigma, %.4f within 3", name, what, one, three)
			if name == "normal" {
				// Four standard deviations of the count: √(0.6827·0.3173/2000) = 0.0104.
				assert.InDelta(t, 0.6827, one, 4*0.0104, what)
			}
			// As above for 0.9973: 0.00116.
			assert.GreaterOrEqual(t, three, 0.9973-4*0.00116, "%s, %s", name, what)
		}
		t.Logf("%s: %d false alarms of %d", name, alarms, loads)
		// Fourteen figures are looked at, each beyond three sigmas in 0.27 % of
		// normal cases: at most 3.8 % of loads, fewer as they hang together.
		assert.Less(t, alarms, loads*38/1000)
	}
}

// TestAWrongCellIsFound makes one cell read a tenth too much or too little.
func TestAWrongCellIsFound(t *testing.T) {
	const loads = 500
	tried, caught, named := 0, 0, 0
	for seed := range uint64(loads) {
		r := rand.New(rand.NewPCG(seed, 2))
		tr := newTrial(r, normal, 0.02)
		tr.weigh(r, normal, "level", 0, Weighing{})
		tr.weigh(r, normal, "tilted", units.Radians(12), Weighing{})
		weight, _ := tr.cg()
		wrong := &tr.weighings[0].Cells[r.IntN(4)]
		if float64(wrong.Reads) < 0.1*weight { // a tenth of next to nothing is not to be found
			continue
		}
		tried++
		wrong.Reads *= units.Mass(1 + 0.1*float64(1-2*r.IntN(2)))
		out, err := FoldIn(tr.items, tr.weighings)
		require.NoError(t, err)
		worst := out.Cells[0]
		for _, c := range out.Cells {
			if math.Abs(c.Sigmas) > math.Abs(worst.Sigmas) {
				worst = c
			}
		}
		if out.Conflict {
			caught++
			require.Contains(t, out.Text, "CONFLICT")
			require.Empty(t, out.Lines)
		}
		if worst.Weighing == "level" && worst.Cell == wrong.Name {
			named++
		}
	}
	t.Logf("of %d wrong cells %d are caught, %d named first", tried, caught, named)
	require.Greater(t, tried, loads/2)
	assert.Equal(t, tried, caught)
	assert.Greater(t, named, tried*95/100)
}

// drawTrial is a trial that rapid draws.
func drawTrial(t *rapid.T) trial {
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 3))
	tr := newTrial(r, even, 0.1)
	tr.weigh(r, even, "level", 0, Weighing{Places: 0.005})
	if rapid.Bool().Draw(t, "tilted") {
		tr.weigh(r, even, "tilted", units.Radians(-8), Weighing{TiltAccuracy: 0.003})
	}
	if rapid.Bool().Draw(t, "piece") {
		w := level("piece", Reading{Reads: units.Mass(tr.masses[0]), Accuracy: 5})
		for _, one := range tr.items[1:] {
			w.Without = append(w.Without, one.name)
		}
		tr.weighings = append(tr.weighings, w)
	}
	return tr
}

// TestMovingTheDatumOfAWeighing moves everything, far: weight and sigmas stay,
// the CG goes with it.
func TestMovingTheDatumOfAWeighing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := drawTrial(t)
		a, err := FoldIn(tr.items, tr.weighings)
		require.NoError(t, err)
		by := geom.Vec{rapid.Float64Range(-5000, 5000).Draw(t, "x"), rapid.Float64Range(-5000, 5000).Draw(t, "y"), -700}
		for i := range tr.items {
			tr.items[i].cg = tr.items[i].cg.Add(by)
		}
		for _, w := range tr.weighings {
			for i := range w.Cells {
				w.Cells[i].At = w.Cells[i].At.Add(by)
			}
		}
		b, err := FoldIn(tr.items, tr.weighings)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(a.Weight), float64(b.Weight), 1e-9)
		assert.InEpsilon(t, float64(a.WeightSigma), float64(b.WeightSigma), 1e-6)
		assert.InDelta(t, a.Sigmas, b.Sigmas, 1e-6)
		assert.InDelta(t, 0, b.CG.Sub(a.CG.Add(by)).Len(), 1e-8, "CG")
		assert.InDelta(t, 0, b.CGSigma.Sub(a.CGSigma).Len(), 1e-8, "sigma of the CG")
		assert.InDelta(t, 0, b.Shown[0].ReadCGSigma.Sub(a.Shown[0].ReadCGSigma).Len(), 1e-7, "sigma as read")
	})
}

// TestAnotherWeighingNeverMakesItLessSure: a sigma of the weight or of a part
// never grows by a weighing more, whatever it reads.
func TestAnotherWeighingNeverMakesItLessSure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := drawTrial(t)
		before := 0.0
		for _, one := range tr.items {
			before += one.variance()
		}
		last, parts := math.Sqrt(before), make([]float64, len(tr.items))
		for j, one := range tr.items {
			parts[j] = math.Sqrt(one.variance())
		}
		for n := range tr.weighings {
			out, err := FoldIn(tr.items, tr.weighings[:n+1])
			require.NoError(t, err)
			assert.LessOrEqual(t, float64(out.WeightSigma), last*(1+1e-9))
			last = float64(out.WeightSigma)
			for j, p := range out.Parts {
				assert.LessOrEqual(t, float64(p.Sigma), parts[j]*(1+1e-9))
				parts[j] = float64(p.Sigma)
			}
		}
	})
}

// TestAgainstNormalEquations solves the same least squares another way: all
// masses and all displacements as unknowns, normal equations
// (P⁻¹ + HᵀN⁻¹H) x = HᵀN⁻¹d, by elimination with pivots (textbook).
func TestAgainstNormalEquations(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 4))
		tr := newTrial(r, even, 0.1)
		for i := range tr.items {
			tr.items[i].half = geom.Vec{0.01, 0.02, 0.03}
		}
		tr.weigh(r, even, "level", 0, Weighing{})
		out, err := FoldIn(tr.items, tr.weighings)
		require.NoError(t, err)

		// Unknowns: 4 a part, its mass and its moments mⱼδ, all as differences
		// from the take-off. Readings: sums over the four cells, as of one scale.
		n, cells := 4*len(tr.items), tr.weighings[0].Cells
		var weight float64
		var best geom.Vec
		normal, right := square(n), make([]float64, n)
		h := [3][]float64{make([]float64, n), make([]float64, n), make([]float64, n)}
		for j, one := range tr.items {
			weight += one.best
			best = best.Add(one.cg.Mul(one.best))
			normal[4*j][4*j] = 12 / math.Pow(one.high-one.low, 2)
			h[0][4*j], h[1][4*j], h[2][4*j] = 1, one.cg[0], one.cg[1]
			h[1][4*j+1], h[2][4*j+2] = 1, 1
			for k, half := range one.half {
				normal[4*j+1+k][4*j+1+k] = 3 / math.Pow(one.best*half, 2)
			}
		}
		noise, reads := square(3), [3]float64{-weight, -best[0], -best[1]}
		for _, c := range cells {
			row := [3]float64{1, c.At[0], c.At[1]}
			for a := range 3 {
				reads[a] += row[a] * float64(c.Reads)
				for b := range 3 {
					noise[a][b] += row[a] * row[b] * float64(c.Accuracy*c.Accuracy) / 3
				}
			}
		}
		for a := range 3 {
			unit := make([]float64, 3)
			unit[a] = 1
			inverse := eliminate(noise, unit) // column a of N⁻¹
			for b := range 3 {
				for i := range n {
					right[i] += h[b][i] * inverse[b] * reads[a]
					for k := range n {
						normal[i][k] += h[b][i] * inverse[b] * h[a][k]
					}
				}
			}
		}
		x := eliminate(normal, right)
		for j, p := range out.Parts {
			assert.InDelta(t, tr.items[j].best+x[4*j], float64(p.After), 1e-6)
			weight += x[4*j]
			best = best.Add(tr.items[j].cg.Mul(x[4*j])).Add(geom.Vec{x[4*j+1], x[4*j+2], x[4*j+3]})
		}
		assert.InEpsilon(t, weight, float64(out.Weight), 1e-9)
		assert.InDelta(t, 0, out.CG.Sub(best.Mul(1/weight)).Len(), 1e-8, "CG")
		total := make([]float64, n)
		for j := range tr.items {
			total[4*j] = 1
		}
		var variance float64
		for i, v := range eliminate(normal, total) {
			variance += total[i] * v
		}
		assert.InEpsilon(t, math.Sqrt(variance), float64(out.WeightSigma), 1e-6)
	})
}

// eliminate solves a x = b by elimination with pivots.
func eliminate(a [][]float64, b []float64) []float64 {
	n := len(b)
	m := square(n)
	x := append([]float64(nil), b...)
	for i := range a {
		copy(m[i], a[i])
	}
	for i := range n {
		pivot := i
		for k := i; k < n; k++ {
			if math.Abs(m[k][i]) > math.Abs(m[pivot][i]) {
				pivot = k
			}
		}
		m[i], m[pivot], x[i], x[pivot] = m[pivot], m[i], x[pivot], x[i]
		for k := i + 1; k < n; k++ {
			part := m[k][i] / m[i][i]
			for c := i; c < n; c++ {
				m[k][c] -= part * m[i][c]
			}
			x[k] -= part * x[i]
		}
	}
	for i := n - 1; i >= 0; i-- {
		for c := i + 1; c < n; c++ {
			x[i] -= m[i][c] * x[c]
		}
		x[i] /= m[i][i]
	}
	return x
}
