package lift

import (
	"math"

	"plumbhook/units"
)

// Stack is the height from the hook at its highest down to what the load passes
// over and is set down on, each at its worst. What is left below zero is wanting.
type Stack struct {
	TipM        float64  `json:"tip_height_m,omitempty"`   // of what the block hangs from, over ground; 0: the hook's height is stated itself
	BlockM      float64  `json:"block_height_m,omitempty"` // from there down to the bowl of the hook
	HookM       float64  `json:"hook_height_m"`            // the greatest of the hook's bowl, over ground
	LegsM       float64  `json:"hook_to_load_top_m"`       // at worst, as the load hangs
	LoadM       float64  `json:"load_height_m"`            // as it is to hang
	DropM       float64  `json:"low_corner_drop_m"`        // of the lowest corner, by the tilt at worst
	UndersideM  float64  `json:"underside_m"`              // over ground, at its lowest, the hook at its highest
	ObstacleM   *float64 `json:"obstacle_m"`               // null: none stated
	ClearanceM  float64  `json:"clearance_m"`              // asked for over the obstacle
	OverM       *float64 `json:"left_over_obstacle_m"`     // clearance taken off
	SetDownOnM  *float64 `json:"set_down_on_m"`
	SetDownM    *float64 `json:"left_over_set_down_m"`
	LeftM       float64  `json:"left_m"`               // the least of what is left
	HookNeededM float64  `json:"hook_height_needed_m"` // with nothing left
}

// stack fills in the stack-up of heights and refuses what does not fit. The parts
// are worst each for itself, so that the sum is on the safe side: the hook highest
// over the load, and the load tilted most. A box of height h and diagonal d in plan
// that is t out of level stands h·cos t + d·sin t high at most, which is below
// h + d·sin t (derived here).
func (p *plan) stack(f *Hanging, h *Header) {
	reach := p.load.Rigging.Limits.Reach
	if reach.HookHeight == nil {
		return
	}
	box := p.weight.extent()
	size := box.Size()
	s := Stack{TipM: reach.TipHeight, BlockM: reach.Block, HookM: *reach.HookHeight, LegsM: f.HeadroomWorstM, LoadM: size[2],
		DropM: math.Hypot(size[0], size[1]) * math.Sin(min(math.Pi/2, units.Radians(f.TiltWorstDeg)))}
	if p.geared != nil {
		s.LegsM = max(s.LegsM, p.geared.worst.MostHeadroom)
	}
	s.UndersideM = s.HookM - s.LegsM - s.LoadM - s.DropM
	s.LeftM = s.UndersideM
	if o := reach.Obstacle; o != nil {
		left := s.UndersideM - o.Height - o.Clearance
		s.ObstacleM, s.ClearanceM, s.OverM = &o.Height, o.Clearance, &left
		s.LeftM = min(s.LeftM, left)
		if o.Clearance == 0 {
			h.assume("no clearance is stated over the obstacle: the load may touch it at worst")
		}
	}
	if on := reach.SetDownOn; on != nil {
		left := s.UndersideM - *on
		s.SetDownOnM, s.SetDownM = on, &left
		s.LeftM = min(s.LeftM, left)
	}
	s.HookNeededM = s.HookM - s.LeftM
	f.Stack = &s
	if box.Diagonal() < 1e-6 {
		h.warn("no-size", "the load is made of bare weights without a size, so the stack-up of heights holds no height of the load", "give the weights a `box`, or draw the parts")
	}
	s.judge(h)
}

// mostHeadroom is the most in m that the hook may be over the top of a load that hangs as
// it is to: by the headroom stated, or by the hook's greatest height over what the
// load passes and is set down on; false where neither is stated.
func (p *plan) mostHeadroom() (float64, bool) {
	limits, most := p.load.Rigging.Limits, math.Inf(1)
	if limits.Headroom != nil {
		most = *limits.Headroom
	}
	if limits.HookHeight != nil {
		below := 0.0
		if limits.SetDownOn != nil {
			below = *limits.SetDownOn
		}
		if o := limits.Obstacle; o != nil {
			below = max(below, o.Height+o.Clearance)
		}
		most = min(most, *limits.HookHeight-below-p.weight.extent().Size()[2])
	}
	return most, !math.IsInf(most, 1)
}

func (s Stack) judge(h *Header) {
	short := func(m float64) string { return units.Length(-m).Format(units.Both) }
	const mend = "raise the hook, use shorter legs, or a bar"
	switch {
	case s.OverM != nil && *s.OverM < -1e-9:
		h.refuse("headroom: the load would pass %s too low over the obstacle, its clearance in, with the hook at its highest: %s", short(*s.OverM), mend)
	case s.SetDownM != nil && *s.SetDownM < -1e-9:
		h.refuse("headroom: the load can't be lifted as high as what it is set down on: %s are wanting, with the hook at its highest: %s", short(*s.SetDownM), mend)
	case s.UndersideM < -1e-9:
		h.refuse("headroom: the load would not leave the ground: %s are wanting, with the hook at its highest: %s", short(s.UndersideM), mend)
	}
}
