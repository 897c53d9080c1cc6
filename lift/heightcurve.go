package lift

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"plumbhook/rig"
	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// HeightCurve is the trade between height and tension: the load hung again with
// the hook at heights from the flattest legs allowed up, legs cut for level (or
// the attitude wanted), each height over all that is in doubt.
type HeightCurve struct {
	Family   string      `json:"family"` // whose sizes are shown: the first that may be used
	Material string      `json:"material"`
	Top      string      `json:"top"` // what ends the heights
	Rows     []HeightRow `json:"rows"`
	Text     string      `json:"text"` // where a step is saved
}

// HeightRow is one height of the hook.
type HeightRow struct {
	HookM            float64  `json:"hook_over_picks_m"` // over the highest pick
	LongestM         float64  `json:"longest_leg_m"`
	FlattestDeg      float64  `json:"flattest_from_horizontal_deg"` // at the best CG
	WorstFlattestDeg float64  `json:"worst_flattest_from_horizontal_deg"`
	WorstTensionKN   float64  `json:"worst_tension_kn"` // greatest of all legs
	RequiredKg       float64  `json:"required_kg"`      // rating of one leg, this family's own factors in; 0: no size is large enough
	Size             string   `json:"size"`             // empty: none large enough
	Saves            bool     `json:"saves_a_step"`     // against the height before
	Acceptable       bool     `json:"acceptable"`
	Reasons          []string `json:"reasons"`
}

// heights is how many heights are looked at; steepest in degrees from horizontal
// is where they end if nothing else ends them: beyond it a leg carries less than
// 4 % more than a plumb one (1/sin 75° = 1.035).
const (
	heights  = 9
	steepest = 75.0
)

// heightCurve hangs the load again at each height; nil where there is nothing to
// trade: no pose, no size, or a single leg, which is plumb.
func (w line) heightCurve(l *takeoff.Load, s Sizing, o Options) (*HeightCurve, error) {
	first := firstChoice(s.Families)
	if !w.legs.Solved || w.legs.Posed == nil || l.Rigging.Bar != nil || w.plan.stance != nil {
		return nil, nil // on two hooks, under bars, in an attitude of its own: not worked out
	}
	if first == nil || spread(places(w.plan.picks), w.plan.weight.CGM) < 1e-6 {
		return nil, nil
	}
	c := HeightCurve{Family: first.Family, Material: first.Material}
	lowest, err := w.lowest(l, first, o)
	if err != nil {
		return nil, err
	}
	low, high := lowest.HookM, w.highest(&c)
	if !(high > low*(1+1e-6)) {
		c.Rows, c.Text = []HeightRow{}, "no height keeps both the least angle and the headroom: move the picks in, or use a bar"
		return &c, nil
	}
	c.Rows = append(c.Rows, lowest)
	for i := 1; i < heights; i++ {
		row, err := w.atHeight(l, low+(high-low)*float64(i)/(heights-1), first, o)
		if err != nil {
			return nil, err
		}
		row.Saves = row.Size != "" && row.Size != c.Rows[i-1].Size
		c.Rows = append(c.Rows, row)
	}
	c.Text = c.steps()
	return &c, nil
}

// firstChoice is the first family with a size: of those that may be used before
// those that ask for care.
func firstChoice(families []Family) *Family {
	for _, use := range []string{sling.Yes, sling.Care} {
		if i := slices.IndexFunc(families, func(f Family) bool { return f.Use == use && f.Choice != nil }); i >= 0 {
			return &families[i]
		}
	}
	return nil
}

// overPicks is how far in m the hook is over the highest pick when the flattest
// leg of a level load stands so many degrees from horizontal.
func (p *plan) overPicks(deg float64) float64 {
	at := places(p.picks)
	return rig.HookAtAngle(p.weight.CGM, at, units.Radians(deg))[2] - p.topPick()
}

func (p *plan) topPick() float64 {
	top := math.Inf(-1)
	for _, pick := range p.picks {
		top = max(top, pick.AtM[2])
	}
	return top
}

// lowest is the row with the flattest legs that are allowed, sought until the
// flattest at worst keeps the limit.
func (w line) lowest(l *takeoff.Load, first *Family, o Options) (row HeightRow, err error) {
	least := units.Degrees(w.plan.limit.Least)
	deg := least
	for range 4 {
		row, err = w.atHeight(l, max(0, w.plan.overPicks(min(deg, 89))), first, o)
		short := least - row.WorstFlattestDeg
		if err != nil || short <= 0 {
			break
		}
		deg += short + 0.02
	}
	return row, err
}

// highest is the greatest height in m of the hook over the highest pick; what
// doubt adds to the headroom now is kept off it.
func (w line) highest(c *HeightCurve) float64 {
	p := w.plan
	end := max(steepest, units.Degrees(p.limit.Least))
	high := p.overPicks(end)
	c.Top = fmt.Sprintf("the flattest leg at %g° from horizontal: steeper saves next to nothing", end)
	room, why := math.Inf(1), ""
	if stated := p.load.Rigging.Limits.Headroom; stated != nil {
		room, why = *stated, "the headroom stated"
	}
	if s := w.legs.Stack; s != nil && s.LegsM+s.LeftM < room {
		room, why = s.LegsM+s.LeftM, "the greatest height of the hook, with the load where it must pass or be set down"
	}
	doubt := w.legs.HeadroomWorstM - w.legs.HeadroomM
	if h := room - doubt - (p.topPick() - p.weight.extent().Max[2]); h < high {
		high, c.Top = h, why
	}
	return high
}

// atHeight hangs the load with the hook so high over the highest pick and sizes
// one family for it.
func (w line) atHeight(l *takeoff.Load, height float64, first *Family, o Options) (HeightRow, error) {
	at := *l
	at.Rigging.Hook = &takeoff.Hook{Above: "picks", Height: height}
	if at.Rigging.Legs.Mode = "level"; at.Rigging.Legs.Up != nil {
		at.Rigging.Legs.Mode = "attitude"
	}
	h := Header{Verdict: Verdict{Acceptable: true, Reasons: []string{}}}
	p, legs, err := hangOn(&at, w.weight, w.chosen.Picks, o, &h, w.plan.elastic)
	row := HeightRow{HookM: height, Reasons: []string{}}
	if err != nil {
		return row, err
	}
	row.FlattestDeg, row.WorstFlattestDeg = 90, 90
	for i, leg := range legs.Legs {
		row.LongestM = max(row.LongestM, leg.LengthM)
		row.FlattestDeg = min(row.FlattestDeg, leg.FromHorizontalDeg)
		if leg.WorstTensionKN > 0 {
			row.WorstFlattestDeg = min(row.WorstFlattestDeg, leg.WorstFromHorizontalDeg)
		}
		row.WorstTensionKN = max(row.WorstTensionKN, legs.atLiftOff(i))
	}
	row.Acceptable, row.Reasons = h.Verdict.Acceptable, h.Verdict.Reasons
	steep := !slices.ContainsFunc(legs.Legs, func(leg Leg) bool { return leg.WorstTensionKN > 0 && leg.WorstFromHorizontalDeg < 1 })
	if !legs.Solved || !steep {
		return row, nil
	}
	answer, err := sling.Choose(line{weight: w.weight, plan: p, legs: legs}.need(&at, &Header{}))
	if err != nil {
		return row, fmt.Errorf("%w: %w", ErrProgram, err)
	}
	for _, v := range answer.Families {
		if v.Family == first.Family && v.Material == first.Material && v.Choice != nil {
			row.RequiredKg, row.Size = float64(v.Choice.Required), v.Choice.Size
		}
	}
	return row, nil
}

// steps says between which heights a size is saved.
func (c HeightCurve) steps() string {
	var saved []string
	for i, row := range c.Rows {
		if row.Saves && c.Rows[i-1].Size != "" {
			saved = append(saved, fmt.Sprintf("between %s and %s over the picks, %s in place of %s", units.Length(c.Rows[i-1].HookM).Format(units.Both),
				units.Length(row.HookM).Format(units.Both), row.Size, c.Rows[i-1].Size))
		}
	}
	if len(saved) == 0 {
		return "no height among these saves a size of this family"
	}
	return "a size is saved " + strings.Join(saved, "; ")
}
