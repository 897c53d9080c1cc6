package lift

import (
	"fmt"
	"slices"
	"strings"

	"plumbhook/rig"
	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Stretched is what the stretch of the legs does, at the planning weight and the
// best CG.
type Stretched struct {
	Text     string       `json:"text"`       // how the stretch was come by
	StiffKN  float64      `json:"ea_kn"`      // EA of a leg; of a family the middle of its range
	LeastKN  float64      `json:"ea_low_kn"`  // the ends of the range, both solved for the worst
	MostKN   float64      `json:"ea_high_kn"` //
	Legs     []StretchLeg `json:"legs"`
	RigidDeg *float64     `json:"tilt_without_stretch_deg"` // on legs of the same lengths that don't stretch; null: they don't hang
	TravelM  *float64     `json:"hook_travel_m"`            // of the hook, from the first leg coming taut until the load hangs clear; null: not known
}

// StretchLeg is one leg, without load and under it.
type StretchLeg struct {
	Pick      string  `json:"pick"`
	UnloadedM float64 `json:"unloaded_m"`
	LoadedM   float64 `json:"loaded_m"`
	LongerM   float64 `json:"elongation_m"`
}

// elastic is the stiffness of the legs in N: EA in the middle of what it may be,
// and its ends.
type elastic struct {
	ea, low, high float64
	rated         units.Mass // of a leg, at which the stretch is known; 0: at any load
	text          string
}

// stretchOf returns the stiffness that the load file states; nil for none, and
// for a family, which has to be sized first.
func stretchOf(l *takeoff.Load) *elastic {
	switch s := l.Rigging.Legs.Stretch; {
	case s.EA > 0:
		return &elastic{ea: s.EA, low: s.EA, high: s.EA, text: fmt.Sprintf("EA of %s in each leg, as the load file states", units.Force(s.EA).Format(units.Both))}
	case s.Part > 0:
		ea := float64(s.At.Weight()) / s.Part
		return &elastic{ea: ea, low: ea, high: ea, rated: s.At, text: fmt.Sprintf("%.4g %% at a rated load of %s, as the load file states: EA of %s",
			100*s.Part, s.At.Format(units.Both), units.Force(ea).Format(units.Both))}
	}
	return nil
}

// elasticOf is the stiffness of a family's legs of so much rated load.
func elasticOf(f sling.Stretch, rated units.Mass) *elastic {
	newton := float64(rated.Weight())
	return &elastic{
		ea: newton / ((f.Low + f.High) / 2), low: newton / f.High, high: newton / f.Low, rated: rated,
		text: fmt.Sprintf("%s, %.4g to %.4g %% at a rated load of %s (%s): hung with the middle, the worst solved with both ends",
			f.Name(), 100*f.Low, 100*f.High, rated.Format(units.Both), f.Cite()),
	}
}

// stiffness is EA/L of each leg in N/m; nil for legs that do not stretch.
func (p *plan) stiffness(ea float64, lengths []float64) []float64 {
	if p.elastic == nil {
		return nil
	}
	var k []float64
	for _, l := range lengths {
		k = append(k, ea/l)
	}
	return k
}

// cutForStretch takes off legs that are cut for an attitude what they stretch.
func (p *plan) cutForStretch(h *Header) {
	if p.elastic == nil || p.lengths == nil {
		return
	}
	h.assume("legs stretch in proportion to their tension, over their whole length from bearing to bearing; that new slings bed in and fibre creeps is not counted")
	if m := p.load.Rigging.Legs.Mode; m == "equal" || m == "given" || m == "stock" {
		p.how += "; these are lengths without load"
		return
	}
	if cut, ok := p.unloaded(p.lengths); ok {
		p.lengths = cut
		p.how += "; cut shorter by what they stretch"
	}
}

// unloaded returns the lengths without load of legs that have others under it.
func (p *plan) unloaded(lengths []float64) ([]float64, bool) {
	if p.elastic == nil {
		return lengths, true
	}
	r := rig.Rig{Weight: float64(p.weight.planning()), CG: p.grip.seen(p.cg), Picks: places(p.picks), Lengths: lengths}
	h, err := r.Hang()
	if err != nil {
		return lengths, false
	}
	return r.Unloaded(h.Hook, p.elastic.ea)
}

// leastWeight ends the name of a case that is not at the sizing weight.
const leastWeight = ", at the least weight"

// worstOf is the worst over all that is in doubt. With legs that stretch that is at
// each end of what the stretch may be, and at the least weight too: legs cut for
// what they stretch under the load are then too short by the difference, each by
// its own.
func (p *plan) worstOf(r rig.Rig, d rig.Doubt) (rig.Worst, error) {
	if p.elastic == nil {
		return r.Worst(d)
	}
	all, err := p.worstAt(r, d, r.Weight, "")
	if low := float64(units.Mass(p.weight.Weight.LowKg).Weight()); err == nil && low > 0 && low < r.Weight*(1-1e-9) {
		var light rig.Worst
		if light, err = p.worstAt(r, d, low, leastWeight); err == nil {
			all = worseOf(all, light)
		}
	}
	return all, err
}

// worstAt is the worst at a weight in N, with each end of what the stretch may be.
func (p *plan) worstAt(r rig.Rig, d rig.Doubt, weight float64, name string) (rig.Worst, error) {
	r.Weight = weight
	r.Stiffness = p.stiffness(p.elastic.high, p.lengths)
	stiff, err := r.Worst(d)
	if err != nil || p.elastic.low == p.elastic.high {
		called(&stiff, name)
		return stiff, err
	}
	r.Stiffness = p.stiffness(p.elastic.low, p.lengths)
	soft, err := r.Worst(d)
	if err != nil {
		return soft, err
	}
	called(&stiff, ", stretch at its least"+name)
	called(&soft, ", stretch at its most"+name)
	return worseOf(stiff, soft), nil
}

// called adds to the names of the cases of w.
func called(w *rig.Worst, name string) {
	w.Case += name
	for i := range w.Of {
		w.Of[i].Case += name
	}
	if w.Unstable != "" {
		w.Unstable += name
	}
}

// worseOf is the worse of two in each figure.
func worseOf(a, b rig.Worst) rig.Worst {
	if b.Tension[b.Leg] > a.Tension[a.Leg]*(1+1e-9) {
		a.Leg, a.Case, a.Loose = b.Leg, b.Case, b.Loose
	}
	for i := range a.Tension {
		if b.Tension[i] > a.Tension[i]*(1+1e-9) {
			a.Of[i] = b.Of[i]
		}
		a.Tension[i] = max(a.Tension[i], b.Tension[i])
		a.Elastic[i] = max(a.Elastic[i], b.Elastic[i])
		a.FromHorizontal[i] = min(a.FromHorizontal[i], b.FromHorizontal[i])
	}
	a.Tilt = max(a.Tilt, b.Tilt)
	a.MostHeadroom, a.LeastHeadroom = max(a.MostHeadroom, b.MostHeadroom), min(a.LeastHeadroom, b.LeastHeadroom)
	if a.Stable && !b.Stable {
		a.Stable, a.Unstable = false, b.Unstable
	}
	a.Solved += b.Solved
	return a
}

// stretched fills in what the stretch does.
func (p *plan) stretched(f *Hanging, r rig.Rig, best rig.Hang, h *Header) {
	e := p.elastic
	if e == nil {
		return
	}
	s := Stretched{Text: e.text, StiffKN: e.ea / 1000, LeastKN: e.low / 1000, MostKN: e.high / 1000, Legs: []StretchLeg{}}
	for i, longer := range r.Elongation(best.Pose) {
		s.Legs = append(s.Legs, StretchLeg{p.picks[i].Name, p.lengths[i], p.lengths[i] + longer, longer})
	}
	rigid := r
	rigid.Stiffness = nil
	if hung, err := rigid.Hang(); err == nil && hung.Stable && !hung.RollsOver {
		tilt := degrees(hung.Tilt())
		s.RigidDeg = &tilt
	}
	corners := p.weight.extent().Corners()
	if travel, ok := r.Travel(best.Pose, corners[:]); ok && p.stance == nil { // else it does not stand so on the ground
		s.TravelM = &travel
	}
	f.Stretch = &s
	p.warnOfStretch(f, h)
}

// farTooLong is the part of its length beyond which no leg is taken to stretch:
// twice what nylon does at its rated load. A convention of this program.
const farTooLong = 0.2

// warnOfStretch warns of legs that pull more than the load their stretch is
// known at, and refuses those that no sling would follow: legs of a small EA
// come together at a hook however short they are.
func (p *plan) warnOfStretch(f *Hanging, h *Header) {
	var over []string
	for _, leg := range f.Stretch.Legs {
		if leg.LongerM > farTooLong*leg.UnloadedM {
			h.refuse("leg %s would have to stretch by %.0f %% of its length: no sling does; it is too short to reach, or its EA is too small", leg.Pick, 100*leg.LongerM/leg.UnloadedM)
		}
	}
	for _, leg := range f.Legs {
		if p.elastic.rated > 0 && leg.WorstTensionKN*1000 > float64(p.elastic.rated.Weight())*(1+1e-9) {
			over = append(over, leg.Pick)
		}
	}
	if len(over) > 0 {
		h.warn("stretch-over-rated", fmt.Sprintf("at worst leg %s carries more than the rated load of %s that the stretch is stated at",
			strings.Join(over, ", "), p.elastic.rated.Format(units.Both)), "state the rated load of the slings that will be used: no sling may carry more than its own")
	}
}

// sizings is how often legs of a family are sized and hung again at most.
const sizings = 6

// hangFamily hangs the load on legs of a family of slings whose size is open: the
// size gives the stretch, the stretch the pose, the pose the size. It begins with
// the stretch that the size for legs without stretch has and stops when the size
// stays; where it comes and goes the greater stiffness would be as good a guess as
// the lesser, and the load file has to say the rated load.
func hangFamily(l *takeoff.Load, w Weight, picks []Pick, o Options, h *Header) (plan, Hanging, error) {
	family, err := familyOf(l, o)
	if err != nil {
		return plan{}, unsolved(w), err
	}
	if at := l.Rigging.Legs.Stretch.At; at > 0 {
		return hangOn(l, w, picks, o, h, elasticOf(family, at))
	}
	var on *elastic
	var rated units.Mass
	for range sizings {
		fresh := h.fresh()
		p, f, err := hangOn(l, w, picks, o, &fresh, on)
		if err != nil || !f.Solved {
			*h = fresh
			return p, f, err
		}
		need := line{weight: w, plan: p, legs: f}.need(l, &Header{})
		size, ok, err := sling.SizeOf(need, family)
		if err != nil || !ok {
			return p, unsolved(w), bad(l, 0, fmt.Sprintf("no %s is large enough or may be used here, so its stretch is open", family.Name()), "choose another family, or state the rated load of one leg as `at:`")
		}
		if size == rated {
			*h = fresh
			return p, f, nil
		}
		rated, on = size, elasticOf(family, size)
	}
	return plan{}, unsolved(w), bad(l, 0, fmt.Sprintf("the size of %s and its stretch find no agreement in %d rounds", family.Name(), sizings), "state the rated load of one leg as `at:`")
}

// familyOf is the family of slings that the load file names; an error where nothing
// is known of its stretch, or nothing to size it by.
func familyOf(l *takeoff.Load, o Options) (sling.Stretch, error) {
	s := l.Rigging.Legs.Stretch
	found, known, err := sling.StretchOf(rules(l, o), s.Family, s.Material)
	switch {
	case err != nil:
		return sling.Stretch{}, fmt.Errorf("%w: %w", ErrProgram, err)
	case len(found) != 1:
		return sling.Stretch{}, bad(l, 0, fmt.Sprintf("no stretch is known here of %q", strings.TrimSpace(s.Family+" "+s.Material)), "state it by `EA` or `percent`; known are "+strings.Join(known, "; "))
	case s.At == 0 && rules(l, o) == "":
		return sling.Stretch{}, bad(l, 0, "a family of slings stretches by its size, and no rule set is chosen to size it by", "write `rules: US` or `rules: EN`, or the rated load of one leg as `at:`")
	}
	return found[0], nil
}

// fresh is a copy of the header that can be added to without touching it.
func (h *Header) fresh() Header {
	c := *h
	c.Verdict.Reasons = slices.Clone(h.Verdict.Reasons)
	c.Warnings, c.Assumptions = slices.Clone(h.Warnings), slices.Clone(h.Assumptions)
	return c
}

// assumeRigid says that legs are taken not to stretch, and what that leaves out.
func assumeRigid(l *takeoff.Load, h *Header) {
	text := "legs are taken not to stretch; at its rated load a wire rope sling grows by less than 1 %, one of HMPE rope by 1 to 2 %, of polyester webbing by 3 to 7 %, of nylon webbing by 8 to 10 % (from memory), other ropes as their makers say"
	if l.Rigging.TwoHooks == nil && l.Rigging.Bar == nil {
		text += ": for legs that stretch state `stretch`, and tilt, sharing and height are solved with it"
	}
	h.assume("%s", text)
}
