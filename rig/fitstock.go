package rig

import (
	"fmt"
	"math"
	"slices"
)

// Stock is what there is to make legs of.
type Stock struct {
	Slings []float64 // m, lengths in the rack, bearing to bearing
	Count  []int     // how many there are of each; nil: as many as wanted

	// Extra are lengths in m that can be added to a leg in series, such as
	// shackles and links; as many of each as wanted, MostExtra in one leg.
	Extra     []float64
	MostExtra int

	// A shortener takes Step metres × 0 to MostSteps off a leg.
	Step      float64
	MostSteps int
}

// Made is a leg made from stock.
type Made struct {
	Sling  int       // which of Stock.Slings
	Extra  []float64 // m, each of those added
	Steps  int       // of the shortener
	Length float64   // m, of it all
}

// pieces counts what the leg is made of; a shortener in use counts as one.
func (m Made) pieces() int { return 1 + len(m.Extra) + min(m.Steps, 1) }

// mostMade is the greatest number of combinations for one leg.
const mostMade = 200_000

// tried is how many lengths are tried for each leg.
const tried = 200

// alike in metres is how near two lengths are to count as one.
const alike = 1e-6

// lengths returns every leg that stock can make, shortest first. Of those alike
// in length, on the same sling where slings are counted, there is only that of
// the fewest pieces.
func (s Stock) lengths() ([]Made, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	extras := [][]float64{nil}
	for from, n := 0, 0; n < s.MostExtra; n++ {
		// Those with one more, in the order of Extra so that none comes twice.
		upTo := len(extras)
		for _, have := range extras[from:upTo] {
			for _, e := range s.Extra {
				if len(have) == 0 || e >= have[len(have)-1] {
					extras = append(extras, append(slices.Clone(have), e))
				}
			}
		}
		from = upTo
		if len(extras)*len(s.Slings)*(s.MostSteps+1) > mostMade {
			return nil, &InputError{fmt.Sprintf("more than %d ways to make one leg", mostMade), "allow fewer extras in one leg"}
		}
	}
	var made []Made
	for sling, length := range s.Slings {
		if s.Count != nil && s.Count[sling] == 0 {
			continue
		}
		made = append(made, s.on(sling, length, extras)...)
	}
	if len(made) == 0 {
		return nil, &InputError{"nothing in stock makes a leg", "give slings longer than their shortener takes off"}
	}
	slices.SortStableFunc(made, byLength)
	if s.Count == nil {
		made = fewest(made) // as many as wanted: which sling it is does not matter
	}
	return made, nil
}

// on returns the legs that one sling makes.
func (s Stock) on(sling int, length float64, extras [][]float64) []Made {
	var made []Made
	for _, extra := range extras {
		sum := length
		for _, e := range extra {
			sum += e
		}
		for steps := range s.MostSteps + 1 {
			if l := sum - float64(steps)*s.Step; l > alike {
				made = append(made, Made{sling, extra, steps, l})
			}
		}
	}
	slices.SortStableFunc(made, byLength)
	return fewest(made)
}

// fewest keeps, of legs alike in length, that of the fewest pieces.
func fewest(made []Made) []Made {
	one := made[:0]
	for _, m := range made {
		last := len(one) - 1
		switch {
		case last < 0 || m.Length > one[last].Length+alike:
			one = append(one, m)
		case m.pieces() < one[last].pieces():
			one[last] = m
		}
	}
	return one
}

func byLength(a, b Made) int {
	switch {
	case a.Length < b.Length:
		return -1
	case a.Length > b.Length:
		return 1
	}
	return 0
}

func (s Stock) check() error {
	switch {
	case len(s.Slings) == 0:
		return &InputError{"no slings in stock", "give the lengths in the rack, m"}
	case s.Count != nil && len(s.Count) != len(s.Slings):
		return &InputError{fmt.Sprintf("%d slings but %d counts", len(s.Slings), len(s.Count)), "give one count for each length, or none at all"}
	case s.MostExtra < 0 || s.MostSteps < 0:
		return &InputError{fmt.Sprintf("%d extras and %d steps at most", s.MostExtra, s.MostSteps), "give 0 or more of each"}
	case s.MostSteps > 0 && !positive(s.Step):
		return &InputError{fmt.Sprintf("a step of %g m", s.Step), "give what one step of the shortener takes off, m"}
	case len(s.Slings)*(s.MostSteps+1) > mostMade:
		return &InputError{fmt.Sprintf("more than %d ways to make one leg", mostMade), "allow fewer steps"}
	}
	for i, l := range s.Slings {
		if !positive(l) {
			return &InputError{fmt.Sprintf("sling %d is %g m long", i+1, l), "a sling's length must be more than 0"}
		}
		if s.Count != nil && s.Count[i] < 0 {
			return &InputError{fmt.Sprintf("%d slings of %g m", s.Count[i], l), "give 0 or more"}
		}
	}
	for i, e := range s.Extra {
		if !positive(e) {
			return &InputError{fmt.Sprintf("extra %d adds %g m", i+1, e), "what is added to a leg must be longer than 0"}
		}
	}
	return nil
}

// nearest returns those made whose lengths are the nearest to want, at most
// tried of them, shortest first.
func nearest(made []Made, want float64) []Made {
	if len(made) <= tried {
		return made
	}
	low, high := 0, len(made)
	for high-low > tried {
		if math.Abs(made[low].Length-want) > math.Abs(made[high-1].Length-want) {
			low++
		} else {
			high--
		}
	}
	return made[low:high]
}
