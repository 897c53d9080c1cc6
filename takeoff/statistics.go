package takeoff

import (
	"math"
	"math/rand/v2"
	"slices"

	"plumbhook/units"
)

// Statistics are the weight's range by other means than the straight sum. They
// inform: nothing is sized by them.
type Statistics struct {
	RSSLow, RSSHigh units.Mass // root of the sum of squares; see [Weighed.Statistics]
	MonteCarlo      MonteCarlo
}

// MonteCarlo is the weight's spread over random samples.
type MonteCarlo struct {
	Seed         uint64
	Samples      int
	P5, P50, P95 units.Mass // 5, 50 and 95 % of the samples are no heavier
}

// The draws: so many that a twentieth is known to a part in seventy of its
// own number, 1/√(0.05·n); a fixed seed, so that the same load always gives the
// same figures. A load of very many parts that are off each on its own gets fewer,
// down to those that tell a twentieth to a part in ten: their weights together are
// all but certain anyway.
const (
	mostDraws  = 100_000
	leastDraws = 2_000
	drawWork   = 4_000_000 // figures of pieces, over all draws
	drawSeed   = 1
)

// triangle is the weight of one piece as a random figure: between low and high,
// most likely best, in kg.
type triangle struct{ low, best, high float64 }

// at returns the weight that a part q of all are below: the inverse of the
// triangular distribution,
//
//	low + √(q (high − low)(best − low))            for q ≤ (best − low)/(high − low)
//	high − √((1 − q)(high − low)(high − best))     above
//
// Source: standard probability, from memory.
func (t triangle) at(q float64) float64 {
	wide := t.high - t.low
	if q*wide <= t.best-t.low {
		return t.low + math.Sqrt(q*wide*(t.best-t.low))
	}
	return t.high - math.Sqrt((1-q)*wide*(t.high-t.best))
}

// like tells whether two pieces have the same shape of spread, so that, off
// together, they are one piece of their common weight.
func (t triangle) like(u triangle) bool {
	const same = 1e-9
	return math.Abs((t.best-t.low)*(u.high-u.low)-(u.best-u.low)*(t.high-t.low)) <= same*(t.high-t.low)*(u.high-u.low)
}

// pool is the weight that is off together.
type pool []triangle

// add puts a piece to the pool.
func (p pool) add(t triangle) pool {
	for i, one := range p {
		if one.like(t) {
			p[i] = triangle{one.low + t.low, one.best + t.best, one.high + t.high}
			return p
		}
	}
	return append(p, t)
}

// pools sorts the load into what is off together: parts of one material come
// from the same mill, mix or table. Each known weight, and each allowance, is
// off on its own.
func (w Weighed) pools() []pool {
	var all []pool
	place := map[string]int{}
	for _, p := range w.Parts {
		t := triangle{float64(p.Low), float64(p.Best), float64(p.High)}
		i, known := place[p.Material]
		if !known || p.Material == "" {
			i, all = len(all), append(all, nil)
			place[p.Material] = i
		}
		all[i] = all[i].add(t)
	}
	for _, a := range w.Allowances {
		all = append(all, pool{{float64(a.Low), float64(a.Best), float64(a.High)}})
	}
	return all
}

// Statistics returns how the weight is spread if what is off is not all off the
// same way. Parts of one material are off together (common heats and drawings),
// everything else on its own; how is a convention, common practice, no source.
//
// RSS: the deviations to one side are added within a material, and the root is
// taken of the sum of their squares between them:
//
//	RSSHigh = best + √Σ(Σ(high − best))²      RSSLow = best − √Σ(Σ(best − low))²
//
// Monte Carlo: each material draws one quantile, at which each of its parts has
// its triangular figure, low to high and most likely best. Low and high of the
// parts are limits and not standard deviations, so that neither is a bound.
func (w Weighed) Statistics() Statistics {
	all := w.pools()
	var down, up float64
	for _, p := range all {
		var below, above float64
		for _, t := range p {
			below, above = below+t.best-t.low, above+t.high-t.best
		}
		down, up = down+below*below, up+above*above
	}
	return Statistics{
		RSSLow:     w.Best - units.Mass(math.Sqrt(down)),
		RSSHigh:    w.Best + units.Mass(math.Sqrt(up)),
		MonteCarlo: sample(all),
	}
}

// sample draws the samples.
func sample(all []pool) MonteCarlo {
	pieces := 0
	for _, p := range all {
		pieces += len(p)
	}
	draws := min(max(drawWork/max(pieces, 1), leastDraws), mostDraws)
	random := rand.New(rand.NewPCG(drawSeed, 0))
	sums := make([]float64, draws)
	for i := range sums {
		for _, p := range all {
			q := random.Float64()
			for _, t := range p {
				sums[i] += t.at(q)
			}
		}
	}
	slices.Sort(sums)
	below := func(part float64) units.Mass { return units.Mass(sums[int(math.Ceil(part*float64(draws)))-1]) }
	return MonteCarlo{Seed: drawSeed, Samples: draws, P5: below(0.05), P50: below(0.5), P95: below(0.95)}
}
