package takeoff

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"plumbhook/units"
)

// loadOf is a load of weights of 100 kg, each ± the part given, of one material
// or each on its own.
func loadOf(n int, off float64, material string) Weighed {
	var w Weighed
	for range n {
		w.Parts = append(w.Parts, PartWeight{Best: 100, Low: units.Mass(100 * (1 - off)), High: units.Mass(100 * (1 + off)), Material: material})
		w.Best, w.Low, w.High = w.Best+100, w.Low+units.Mass(100*(1-off)), w.High+units.Mass(100*(1+off))
	}
	return w
}

// Parts of one material: RSS is the straight sum, and the samples are those of
// one symmetric triangle of half width a, whose 5 % point is at −a + a√0.1, the
// 95 % point as far above. Standard probability, from memory. A quantile of
// 100 000 samples is within 0.007 a at three standard deviations.
func TestOneMaterialIsOneTriangle(t *testing.T) {
	w := loadOf(7, 0.1, "carbon steel")
	const a = 70.0
	s := w.Statistics()
	assert.InDelta(t, 630, float64(s.RSSLow), 1e-9)
	assert.InDelta(t, 770, float64(s.RSSHigh), 1e-9)
	assert.InDelta(t, 700-a+a*math.Sqrt(0.1), float64(s.MonteCarlo.P5), 0.007*a)
	assert.InDelta(t, 700, float64(s.MonteCarlo.P50), 0.007*a)
	assert.InDelta(t, 700+a-a*math.Sqrt(0.1), float64(s.MonteCarlo.P95), 0.007*a)
	assert.Equal(t, 100_000, s.MonteCarlo.Samples)
	assert.Equal(t, s, w.Statistics(), "the same load, the same figures")
}

// A one-sided triangle, from best to high: its median is at high − w/√2.
func TestOneSidedTriangle(t *testing.T) {
	w := Weighed{Best: 100, Low: 100, High: 120, Parts: []PartWeight{{Best: 100, Low: 100, High: 120}}}
	s := w.Statistics()
	assert.InDelta(t, 100, float64(s.RSSLow), 1e-12, "one-sided stays one-sided")
	assert.InDelta(t, 120, float64(s.RSSHigh), 1e-12)
	assert.InDelta(t, 120-20/math.Sqrt2, float64(s.MonteCarlo.P50), 0.15)
}

// Many weights on their own: a symmetric triangle of half width a has the
// variance a²/6, the sum of n tends to the normal, whose 95 % point is 1.6449
// standard deviations above the middle (standard tables, from memory); RSS is
// a√n. So the 95 % point lies at 1.6449/√6 = 0.6715 of RSS.
func TestManyWeightsTendToTheNormal(t *testing.T) {
	s := loadOf(30, 0.2, "").Statistics()
	rss := 20 * math.Sqrt(30)
	assert.InDelta(t, 3000+rss, float64(s.RSSHigh), 1e-9)
	assert.InDelta(t, 3000-rss, float64(s.RSSLow), 1e-9)
	assert.InDelta(t, 0.6715, float64(s.MonteCarlo.P95-3000)/rss, 0.01)
	assert.InDelta(t, 0.6715, float64(3000-s.MonteCarlo.P5)/rss, 0.01)
}

// Two materials and an allowance, by hand: deviations 20 + 10 together, 40 and
// 5 alone: √(30² + 40² + 5²) = √2525.
func TestRSSByHand(t *testing.T) {
	w := Weighed{Best: 1005, Parts: []PartWeight{
		{Best: 200, Low: 180, High: 220, Material: "carbon steel"},
		{Best: 600, Low: 560, High: 640, Material: "plain concrete"},
		{Best: 200, Low: 190, High: 210, Material: "carbon steel"},
	}, Allowances: []AllowanceWeight{{Best: 5, Low: 0, High: 10}}}
	s := w.Statistics()
	assert.InDelta(t, 1005+math.Sqrt(2525), float64(s.RSSHigh), 1e-9)
	assert.InDelta(t, 1005-math.Sqrt(2525), float64(s.RSSLow), 1e-9)
}

// All of it lies within the straight sums, in order.
func TestStatisticsLieWithinTheStraightSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var w Weighed
		part := rapid.Float64Range(0, 0.5)
		for range rapid.IntRange(1, 6).Draw(t, "parts") {
			best := rapid.Float64Range(1, 1000).Draw(t, "kg")
			p := PartWeight{Best: units.Mass(best), Low: units.Mass(best * (1 - part.Draw(t, "below"))), High: units.Mass(best * (1 + part.Draw(t, "above"))),
				Material: fmt.Sprint(rapid.IntRange(0, 2).Draw(t, "material"))}
			w.Parts = append(w.Parts, p)
			w.Best, w.Low, w.High = w.Best+p.Best, w.Low+p.Low, w.High+p.High
		}
		s := w.Statistics()
		const round = 1e-9
		low, high := float64(w.Low)-round, float64(w.High)+round
		for _, x := range []units.Mass{s.RSSLow, s.RSSHigh, s.MonteCarlo.P5, s.MonteCarlo.P50, s.MonteCarlo.P95} {
			assert.True(t, float64(x) >= low && float64(x) <= high, "%g kg not within %g to %g kg", float64(x), low, high)
		}
		assert.True(t, s.RSSLow <= w.Best+round && w.Best <= s.RSSHigh+round)
		assert.True(t, s.MonteCarlo.P5 <= s.MonteCarlo.P50 && s.MonteCarlo.P50 <= s.MonteCarlo.P95)
	})
}
