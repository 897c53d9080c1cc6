package rig

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
)

// fitting is a search for legs from stock, in the frame in which the attitude
// wanted is the one drawn.
type fitting struct {
	rig     Rig
	back    mgl64.Quat // into the load's own frame
	stock   Stock
	limits  FitLimits
	want    []float64
	choices [][]Made // for each leg
	best    []Fit    // best first

	// The nearest of those that were solved and refused, and why.
	nearest float64
	why     string
}

// candidate is one choice for each leg; misfit in metres is how far the legs
// are from agreeing on the height of the hook.
type candidate struct {
	choice [Most]int32
	misfit float64
}

// candidates returns the sets to solve: all if there are no more than most,
// else those of the least misfit.
func (f *fitting) candidates(most int) []candidate {
	all := 1
	for _, c := range f.choices {
		if all *= len(c); all > most {
			break
		}
	}
	w := walk{fitting: f, within: math.Inf(1), most: all, used: make([]int, len(f.stock.Slings))}
	w.heights = make([][]float64, len(f.choices))
	for i, choices := range f.choices {
		w.heights[i] = make([]float64, len(choices))
		for j, m := range choices {
			w.heights[i][j] = f.rig.height(i, m.Length)
		}
	}
	if all <= most {
		w.leg(0, candidate{}, 0, 0)
		return w.found
	}
	w.keepTo(f.rig.heightRange(f.limits))
	return w.nearest(most)
}

// heightRange returns how high over the CG in metres the hook may be by the
// limits, as drawn, with a margin for what a slight tilt makes of it: a
// twentieth of the height of the hook.
func (r Rig) heightRange(l FitLimits) (low, high float64) {
	top := math.Inf(-1)
	for _, p := range r.Picks {
		arm := p.Sub(r.CG)
		top = max(top, arm[2])
		low = max(low, arm[2]+math.Hypot(arm[0], arm[1])*math.Tan(l.LeastAngle))
	}
	low, high = 0.95*low, math.Inf(1)
	if l.MostHeadroom > 0 {
		for _, p := range l.Body {
			top = max(top, p.Sub(r.CG)[2])
		}
		high = 1.05 * max(0, top+l.MostHeadroom)
	}
	return low, high
}

// keepTo leaves out the choices by which the hook is lower or higher.
func (w *walk) keepTo(low, high float64) {
	choices := make([][]Made, len(w.choices))
	for i, heights := range w.heights {
		first, _ := slices.BinarySearch(heights, low)
		past, _ := slices.BinarySearch(heights, high)
		past = max(first, past)
		choices[i], w.heights[i] = w.choices[i][first:past], heights[first:past]
	}
	w.fitting.choices = choices
}

// height is that of the hook in metres over the CG at which leg i, by itself,
// would be as long as given in the attitude wanted. All legs agree on it if the
// load hangs so. A leg too short to reach the plumb line gets the height of its
// pick less what it is short by, so that it is the last to be chosen.
func (r Rig) height(i int, length float64) float64 {
	arm := r.Picks[i].Sub(r.CG)
	run := math.Hypot(arm[0], arm[1])
	if length <= run {
		return arm[2] - (run - length)
	}
	return arm[2] + math.Sqrt((length-run)*(length+run))
}

// walk goes through the choices leg by leg and leaves off where the legs are
// too far from agreeing.
type walk struct {
	*fitting
	heights [][]float64 // ascending for each leg
	within  float64     // m
	most    int
	used    []int // of each sling
	found   []candidate
}

// leg adds the choices for leg i and those after it to a set whose heights so
// far lie from low to high. It returns false once there are too many.
func (w *walk) leg(i int, c candidate, low, high float64) bool {
	if i == len(w.choices) {
		c.misfit = high - low
		w.found = append(w.found, c)
		return len(w.found) <= w.most
	}
	heights := w.heights[i]
	first := 0
	if i > 0 {
		first, _ = slices.BinarySearch(heights, high-w.within)
	}
	for j := first; j < len(heights); j++ {
		least, most := heights[j], heights[j]
		if i > 0 {
			if heights[j] > low+w.within {
				break
			}
			least, most = min(low, least), max(high, most)
		}
		sling := w.choices[i][j].Sling
		if w.stock.Count != nil && w.used[sling] >= w.stock.Count[sling] {
			continue
		}
		c.choice[i] = int32(j)
		w.used[sling]++
		ok := w.leg(i+1, c, least, most)
		w.used[sling]--
		if !ok {
			return false
		}
	}
	return true
}

// nearest returns about the given number of sets of the least misfit: the
// misfit allowed is halved between too few and too many.
func (w *walk) nearest(most int) []candidate {
	low, high := 0.0, 0.0 // too few found within low, too many or all within high
	for i := range w.heights {
		if len(w.heights[i]) == 0 {
			return nil
		}
		high = max(high, w.heights[i][len(w.heights[i])-1]-w.heights[i][0])
		for k := range i {
			high = max(high, math.Abs(w.heights[i][0]-w.heights[k][len(w.heights[k])-1]), math.Abs(w.heights[k][0]-w.heights[i][len(w.heights[i])-1]))
		}
	}
	w.most = 4 * most
	var few []candidate
	for range 40 {
		w.within, w.found = (low+high)/2, w.found[:0]
		if !w.leg(0, candidate{}, 0, 0) {
			high = w.within
			continue
		}
		few, low = slices.Clone(w.found), w.within
		if len(few) >= most {
			break
		}
	}
	if len(few) == 0 { // more than that agree all alike
		few = w.found
	}
	slices.SortStableFunc(few, func(a, b candidate) int { return cmp.Compare(a.misfit, b.misfit) })
	return few[:min(most, len(few))]
}

// try solves one set and keeps it if it is among the best.
func (f *fitting) try(c candidate) {
	r := f.rig
	n := len(f.choices)
	r.Lengths = make([]float64, n)
	legs := make([]Made, n)
	for i := range legs {
		legs[i] = f.choices[i][c.choice[i]]
		r.Lengths[i] = legs[i].Length
	}
	if f.rig.Stiffness != nil { // of the wanted length; a leg of another has the same EA
		r.Stiffness = make([]float64, n)
		for i, k := range f.rig.Stiffness {
			r.Stiffness[i] = k * f.want[i] / r.Lengths[i]
		}
	}
	h, err := r.Hang()
	if err != nil {
		f.refuse(math.Inf(1), err.Error())
		return
	}
	fit := f.describe(r, h.Pose, legs)
	if why := f.against(fit, h); why != "" {
		f.refuse(fit.Score, why)
		return
	}
	f.keep(fit)
}

func (f *fitting) describe(r Rig, p Pose, legs []Made) Fit {
	fit := Fit{Legs: legs, Pose: p, Tilt: p.Tilt()}
	for i, pick := range r.Picks {
		if loose := r.Lengths[i] - p.Hook.Sub(pick).Len(); loose > sameLength*r.size() {
			fit.Loose = max(fit.Loose, loose)
		}
	}
	fit.Headroom = p.Headroom(f.limits.Body)
	fit.Score = fit.Tilt + fit.Loose/p.Hook.Sub(r.CG).Len()
	return fit
}

// against says why a fit will not do, or nothing.
func (f *fitting) against(fit Fit, h Hang) string {
	const degree = 180 / math.Pi
	p := fit.Pose
	least := math.Pi / 2
	for i, pick := range f.rig.Picks {
		if p.Hook.Sub(pick).Dot(Up) <= 0 {
			return fmt.Sprintf("the hook comes below pick %d", i+1)
		}
		if !p.Slack(i) {
			least = min(least, p.FromHorizontal(i))
		}
	}
	switch l := f.limits; {
	case !h.Stable:
		return "the load does not stay so by itself"
	case h.RollsOver:
		return "the load rolls over"
	case least < l.LeastAngle:
		return fmt.Sprintf("a leg stands at %.1f° from the horizontal, and must at %.1f°", least*degree, l.LeastAngle*degree)
	case l.MostHeadroom > 0 && fit.Headroom > l.MostHeadroom:
		return fmt.Sprintf("the hook is %.3f m up, and may be %.3f m", fit.Headroom, l.MostHeadroom)
	case l.MostTilt > 0 && fit.Tilt > l.MostTilt:
		return fmt.Sprintf("the load hangs %.2f° out, and may hang %.2f°", fit.Tilt*degree, l.MostTilt*degree)
	}
	return ""
}

func (f *fitting) refuse(score float64, why string) {
	if f.why == "" || score < f.nearest {
		f.nearest, f.why = score, why
	}
}

func (f *fitting) refused() string {
	if f.why == "" {
		return "no legs that there are enough of agree on a height of the hook within the limits"
	}
	return "on the nearest, " + f.why
}

// keep puts a fit among the best, unless one of the same lengths is there.
func (f *fitting) keep(fit Fit) {
	same := func(o Fit) bool {
		return slices.EqualFunc(fit.Legs, o.Legs, func(a, b Made) bool { return math.Abs(a.Length-b.Length) <= alike })
	}
	if slices.ContainsFunc(f.best, same) {
		return
	}
	at, _ := slices.BinarySearchFunc(f.best, fit, f.compare)
	if at < Best {
		f.best = slices.Insert(f.best, at, fit)
		f.best = f.best[:min(Best, len(f.best))]
	}
}

// compare puts the lesser score first; of scores alike to a hundred-millionth
// of a radian the one nearer to the lengths wanted.
func (f *fitting) compare(a, b Fit) int {
	if c := cmp.Compare(math.Round(a.Score*1e8), math.Round(b.Score*1e8)); c != 0 {
		return c
	}
	return cmp.Compare(f.off(a), f.off(b))
}

// off is the sum of the squares in m² by which the legs are off those wanted.
func (f *fitting) off(fit Fit) float64 {
	sum := 0.0
	for i, m := range fit.Legs {
		sum += (m.Length - f.want[i]) * (m.Length - f.want[i])
	}
	return sum
}
