package lift

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/takeoff"
	"plumbhook/units"
)

// Gross is what hangs on the crane's hook, and what the crane must lift.
type Gross struct {
	LowKg      float64  `json:"load_low_kg"` // of the load alone, allowances in
	BestKg     float64  `json:"load_best_kg"`
	HighKg     float64  `json:"load_high_kg"`
	PlanningKg float64  `json:"planning_kg"`
	ExtrasKg   float64  `json:"allowances_kg"` // at their middle, in all of the above
	SizingKg   float64  `json:"sizing_kg"`
	BarsKg     float64  `json:"bars_kg,omitempty"`
	RiggingKg  float64  `json:"rigging_kg"`  // heaviest set of the families that may be used
	HardwareKg float64  `json:"hardware_kg"` // shackles at the load; 0: not known
	BlockKg    float64  `json:"block_kg"`
	Ladder     []Rung   `json:"ladder"` // what the total is made of
	TotalKg    float64  `json:"total_kg"`
	LiftOffKg  float64  `json:"lift_off_kg,omitempty"` // with what holds the load down
	CapacityKg float64  `json:"capacity_kg"`           // 0: no crane stated, or its table ends before
	Used       *float64 `json:"used_of_capacity"`      // total (at lift-off, if that is more) over capacity; null: no capacity
	Trigger    float64  `json:"trigger,omitempty"`     // part of the capacity above which the lift counts as critical, as stated; 0: none
	Note       string   `json:"note"`

	Crane *CraneStand `json:"crane"` // null: none stated
}

// Rung is one line of what hangs on the crane.
type Rung struct {
	Name string  `json:"name"`
	Kg   float64 `json:"kg"`
	Open string  `json:"not_counted,omitempty"` // why it counts for nothing: not stated, not known
}

// add puts one thing on the crane. What weighs nothing is shown with the reason.
func (g *Gross) add(name string, kg float64, open string) {
	switch {
	case kg > 0 && open == notStated:
		name, open = name+", as stated", ""
	case kg > 0:
		open = ""
	}
	g.Ladder = append(g.Ladder, Rung{name, kg, open})
	g.TotalKg += kg
}

const notStated = "not stated"

const (
	// closeToCapacity is the part of a crane's capacity above which slings of
	// unknown weight matter: a set seldom weighs more than a twentieth of its load.
	// Common practice, no source.
	closeToCapacity = 0.95
	// nearCapacity is the part of a crane's capacity above which a lift is
	// warned of where no trigger is stated. Owners ask for a plan of its own above
	// 75, 80 or 90 %: common practice, no source.
	nearCapacity = 0.90
)

// gross adds up what hangs on the crane and holds it against its capacity.
func (w line) gross(l *takeoff.Load, s *Sizing, h *Header) {
	weight := w.weight.Weight
	s.Gross = Gross{LowKg: weight.LowKg, BestKg: weight.BestKg, HighKg: weight.HighKg, PlanningKg: weight.PlanningKg, SizingKg: weight.SizingKg}
	g := &s.Gross
	for _, a := range w.weight.Allowances {
		g.ExtrasKg += a.BestKg
	}
	unknown := false
	for _, families := range s.families() {
		heaviest := 0.0
		for _, f := range families {
			if f.Choice != nil {
				heaviest = max(heaviest, f.Choice.WeightKg)
				unknown = unknown || f.Choice.WeightKg == 0
			}
		}
		g.RiggingKg += heaviest
	}
	s.Stock.intoGross(g, &unknown)
	unknown = s.addShackles() || unknown
	g.add("Load, sizing weight", g.SizingKg, "")
	if g.BarsKg = barsKg(l); g.BarsKg > 0 {
		g.add("Bars", g.BarsKg, "")
	}
	g.Note = g.counted(s.Hardware, unknown)
	g.add("Slings, heaviest set that may be used", g.RiggingKg, "not known")
	if s.Hardware != nil {
		g.add("Shackles at the load, see HARDWARE", g.HardwareKg, "not known")
	}
	crane := l.Rigging.Limits.Crane
	g.hangCrane(crane)
	if crane == nil {
		return
	}
	g.Crane, g.Trigger = standing(crane, w.plan.swing), crane.Trigger
	g.CapacityKg = g.Crane.CapacityKg
	if g.CapacityKg == 0 {
		return
	}
	if unknown && g.TotalKg > closeToCapacity*g.CapacityKg {
		h.warn("sling-weight-unknown", "the own weight of some of the slings or shackles is not known and not in the gross load, which is near the crane's capacity",
			"ask for it, or leave more below the crane's capacity")
	}
	if g.TotalKg > g.CapacityKg && g.SizingKg+g.BarsKg+float64(crane.Beside()) <= g.CapacityKg {
		h.refuse("over capacity: %s on the hook, the crane lifts %s there",
			units.Mass(g.TotalKg).FormatUp(units.Both), units.Mass(g.CapacityKg).FormatDown(units.Both))
	}
}

// counted says in words what is in the total and what is not.
func (g *Gross) counted(hardware *Hardware, unknown bool) string {
	in, out := []string{"load"}, "shackles and links"
	if g.BarsKg > 0 {
		in = append(in, "bars")
	}
	in = append(in, "heaviest of the sets that may be used")
	if g.HardwareKg > 0 {
		in = append(in, "shackles at the load (from memory, low confidence)")
		out = "other shackles and links"
	}
	note := strings.Join(in, ", ") + " and what is stated of the crane; " + out + " are not in it"
	if hardware != nil && hardware.Unknown {
		note += "; " + hardware.Weight
	}
	if unknown {
		note += "; the weight of some slings or shackles is not known, and they may be heavier"
	}
	return note
}

// hangCrane adds what is the crane's own.
func (g *Gross) hangCrane(c *takeoff.Crane) {
	if c == nil {
		c = &takeoff.Crane{}
	}
	g.BlockKg = float64(c.Block)
	g.add("Hook block", g.BlockKg, notStated)
	g.add("Hoist rope below the tip", float64(c.Rope.Weight), notStated)
	for _, d := range c.Deductions {
		g.add("Deducted: "+d.Name, float64(d.Weight), "")
	}
}

// use says what part of the crane's capacity is used, and warns above the
// trigger.
func (g *Gross) use(h *Header) {
	if g.CapacityKg == 0 {
		return
	}
	used := max(g.TotalKg, g.LiftOffKg) / g.CapacityKg
	g.Used = &used
	limit, whose := nearCapacity, "no trigger is stated, and most owners have theirs at 75 to 90 % (common practice, no source)"
	if g.Trigger > 0 {
		limit, whose = g.Trigger, fmt.Sprintf("the trigger stated is %g %%", 100*g.Trigger)
	}
	if used <= 1+1e-9 && used > limit*(1+1e-9) {
		h.warn("near-capacity", fmt.Sprintf("the lift takes %.0f %% of what the crane lifts there; %s", math.Ceil(100*used-1e-9), whose),
			"treat it as a critical lift: weigh the load, have the crane's set-up and ground looked at, and the plan signed by a qualified person")
	}
}
