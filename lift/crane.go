package lift

import (
	"fmt"

	"plumbhook/takeoff"
	"plumbhook/units"
)

// CraneStand is where the load hangs under the crane and what it lifts there.
type CraneStand struct {
	RadiusM    float64 `json:"radius_m"`           // as stated; 0: not stated
	ToleranceM float64 `json:"radius_tolerance_m"` // as stated
	SwingM     float64 `json:"swing_m"`            // of the load in wind, on the stated length of hoist rope
	AtM        float64 `json:"radius_worst_m"`     // all three together
	RowM       float64 `json:"table_radius_m"`     // the row of the crane's table that holds there; 0: one capacity is stated
	CapacityKg float64 `json:"capacity_kg"`        // 0: the table ends before
}

// standing is the crane at the radius of this lift, nil where none is stated.
// A swing moves the load outward by so many metres.
func standing(c *takeoff.Crane, swing float64) *CraneStand {
	if c == nil {
		return nil
	}
	s := CraneStand{RadiusM: c.Radius, ToleranceM: c.Tolerance, SwingM: swing, AtM: c.Radius + c.Tolerance + swing}
	if c.Table == nil {
		s.CapacityKg = float64(c.Capacity)
		return &s
	}
	if row, ok := c.At(s.AtM); ok {
		s.RowM, s.CapacityKg = row.Radius, float64(row.Capacity)
	}
	return &s
}

// crane is the crane of the load file with its capacity at the radius of this
// lift; nil where none is stated, or its table ends before.
func (p *plan) crane() *takeoff.Crane {
	c := p.load.Rigging.Limits.Crane
	at := standing(c, p.swing)
	if at == nil || at.CapacityKg == 0 {
		return nil
	}
	there := *c
	there.Capacity = units.Mass(at.CapacityKg)
	return &there
}

// swung keeps how far out wind swings the load: steady lean times length of rope.
func (p *plan) swung(s *SideForces, h *Header) {
	c := p.load.Rigging.Limits.Crane
	if c == nil || c.Table == nil {
		return
	}
	if p.swing = s.SwingPerM * c.Rope.Length; p.swing == 0 && s.SwingPerM > 0 {
		h.warn("radius-in-wind", fmt.Sprintf("wind and tag line swing the load out by up to %.2f m for each m of hoist rope; its length is not stated, so the radius in the crane's table does not hold that", s.SwingPerM),
			"write `hoist rope: {weight: 60 kg, length: 15 m}` in `crane`")
	}
}

// judgeReach refuses a lift beyond the crane's table, and says what the radius
// leaves out.
func (p *plan) judgeReach(h *Header) {
	c := p.load.Rigging.Limits.Crane
	at := standing(c, p.swing)
	if at == nil || c.Table == nil {
		return
	}
	if at.CapacityKg == 0 {
		last := c.Table[len(c.Table)-1]
		h.refuse("beyond the crane's table: the load hangs at up to %s, tolerance and swing in, and the table ends at %s",
			units.Length(at.AtM).Format(units.Both), units.Length(last.Radius).Format(units.Both))
	}
	if c.Tolerance == 0 {
		h.assume("no `radius tolerance` is stated: the crane's radius is taken as written, though a boom bends and the load moves out as it comes up")
	}
}

// beside names in words what hangs on the crane beside the load.
func beside(c *takeoff.Crane) string {
	if c.Beside() > c.Block {
		return "block, hoist rope and deductions"
	}
	return "block"
}
