package lift

import (
	"math"

	"plumbhook/sling"
)

// BidRisk is how near the sling of a piece is to its next sizes, by weight. The
// pull in the legs is taken as in proportion to the weight, which is so for a CG
// that stays within its region.
//
// Chances take the weight as a triangular distribution: none below the low, most
// at the best, none above the high. The range of a take-off is the sum of the
// ranges of all its lines, so the true weight is more likely nearer to the best
// than this says; the chance is on the safe side of the ones worked by lines that
// do not go together.
type BidRisk struct {
	Size        string  `json:"size"`
	HoldsKg     float64 `json:"holds_to_weight_kg"` // weight up to which the size is enough
	Margin      float64 `json:"margin"`             // of that over the sizing weight, less 1
	ChanceOver  float64 `json:"chance_over"`        // that the weight is above it
	LargerSize  string  `json:"larger_size,omitempty"`
	SmallerSize string  `json:"smaller_size,omitempty"`
	SmallerKg   float64 `json:"smaller_holds_to_weight_kg,omitempty"`
	Chance      float64 `json:"chance_smaller_is_too_small"` // that the size priced is needed
	SizeAtBest  string  `json:"size_at_best_weight"`
	Near        bool    `json:"near"` // less than nearStep is left to the next size
}

// nearStep is the part of the weight below which a piece counts as near to the next
// size. Common practice, no source.
const nearStep = 0.05

func newRisk(rules string, r *BidRow) *BidRisk {
	if r.Sling == nil || r.Sling.RequiredKg <= 0 {
		return nil
	}
	steps, err := sling.Steps(sling.Rules(rules), r.Sling.Family, r.Sling.Material)
	if err != nil {
		return nil
	}
	perKg := r.Weight.SizingKg / r.Sling.RequiredKg // weight for each kg of rating
	out := &BidRisk{Size: r.Sling.Size, HoldsKg: r.Sling.RatedKg * perKg, SizeAtBest: r.Sling.Size}
	out.Margin = r.Sling.RatedKg/r.Sling.RequiredKg - 1
	out.ChanceOver, out.Near = chanceAbove(r.Weight, out.HoldsKg), out.Margin < nearStep
	for i := len(steps) - 1; i >= 0; i-- {
		rated := float64(steps[i].Rated)
		switch {
		case rated > r.Sling.RatedKg:
			out.LargerSize = steps[i].Size
		case rated < r.Sling.RatedKg:
			if out.SmallerSize == "" {
				out.SmallerSize, out.SmallerKg = steps[i].Size, rated*perKg
			}
			if rated*perKg >= r.Weight.BestKg {
				out.SizeAtBest = steps[i].Size
			}
		}
	}
	if out.Chance = 1; out.SmallerSize != "" {
		out.Chance = chanceAbove(r.Weight, out.SmallerKg)
	}
	return out
}

// chanceAbove is the chance that a weight is above a figure, by the triangular
// distribution of least, likeliest and greatest weight (the area of the triangle
// beyond it, derived here).
func chanceAbove(w WeightRange, kg float64) float64 {
	low, best, high := w.LowKg, w.BestKg, w.HighKg
	switch {
	case math.IsNaN(kg) || kg < low:
		return 1
	case kg >= high:
		return 0
	case kg < best:
		return 1 - (kg-low)*(kg-low)/((high-low)*(best-low))
	}
	return (high - kg) * (high - kg) / ((high - low) * (high - best))
}
