package takeoff

import (
	"fmt"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// Crane is what there is to lift with.
type Crane struct {
	Capacity   units.Mass // at that radius; 0: by the table
	Radius     float64    // m; 0: not stated
	Tolerance  float64    // m, how far out the radius may be; 0: not stated
	Table      []CraneRow // by rising radius; nil: one capacity is stated
	Block      units.Mass // hook block, 0: not stated
	Rope       HoistRope  // zero: not stated
	Deductions []Deduction
	Trigger    float64 // part of the capacity above which a lift counts as critical; 0: not stated
}

// CraneRow is one row of a crane's table.
type CraneRow struct {
	Radius   float64 // m
	Capacity units.Mass
}

// HoistRope is the rope between the tip of the boom and the block, all its falls.
type HoistRope struct {
	Weight units.Mass
	Length float64 // m, from the tip down to the hook with the load up; 0: not stated
}

// Deduction is something else that the crane's capacity has to carry.
type Deduction struct {
	Name   string
	Weight units.Mass
}

// Beside is what hangs on the crane beside load and rigging: block, rope and
// deductions.
func (c *Crane) Beside() units.Mass {
	sum := c.Block + c.Rope.Weight
	for _, d := range c.Deductions {
		sum += d.Weight
	}
	return sum
}

// At is the row of the table that holds at a radius in m: that of the next
// larger one, since between two rows no capacity is printed and the rating of a
// crane falls along no straight line. It returns false beyond the last row. Common
// practice, no source.
func (c *Crane) At(radius float64) (CraneRow, bool) {
	for _, row := range c.Table {
		if radius <= row.Radius*(1+1e-9) {
			return row, true
		}
	}
	return CraneRow{}, false
}

// Reach is the height that there is for the lift, and what stands in its way.
type Reach struct {
	HookHeight *float64 // m, the greatest height of the hook's bowl over ground; nil: not stated
	TipHeight  float64  // m, with BlockHeight that of what the block hangs from; 0: HookHeight is stated itself
	Block      float64  // m, from there down to the bowl of the hook, the block as high as it goes
	SetDownOn  *float64 // m over ground, of what the load is set down on; nil: not stated
	Obstacle   *Obstacle
}

// Obstacle is what the load passes over.
type Obstacle struct {
	Height    float64 // m over ground
	Clearance float64 // m, to be kept over it; 0: not stated
}

var obstacleKeys = []key[Obstacle]{
	{name: "height", takes: aLength, must: true, read: func(r *reader, n *yaml.Node, o *Obstacle) { o.Height, _ = r.positive(n) }},
	{name: "clearance", takes: aLength, read: func(r *reader, n *yaml.Node, o *Obstacle) { o.Clearance, _ = r.positive(n) }},
}

// reachKeys are those of `limits` that tell of height.
var reachKeys = []key[limits]{
	{name: "hook height", takes: "the greatest height of the hook's bowl over ground, such as 12 m", read: func(r *reader, n *yaml.Node, l *limits) {
		if h, ok := r.positive(n); ok {
			l.HookHeight = &h
		}
	}},
	{name: "set down on", takes: "the height over ground of what the load is set down on, such as 1.2 m", read: func(r *reader, n *yaml.Node, l *limits) {
		if h, ok := r.positive(n); ok {
			l.SetDownOn = &h
		}
	}},
	{name: "obstacle", takes: "{height: 3 m, clearance: 300}: what the load passes over", read: func(r *reader, n *yaml.Node, l *limits) {
		before, o := r.faults, Obstacle{}
		if walk(r, n, "`obstacle`", obstacleKeys, &o) && r.faults == before {
			l.Obstacle = &o
		}
	}},
}

// craneDraft is a crane while it is read, with the heights that stand with it.
type craneDraft struct {
	Crane
	tip, block float64
	table      *yaml.Node
}

var craneKeys = []key[craneDraft]{
	{name: "capacity", takes: aMass + ", at that radius; or give a `table`", read: func(r *reader, n *yaml.Node, c *craneDraft) { c.Capacity, _ = r.mass(n) }},
	{name: "table", takes: "the crane's own table, [{radius: 8 m, capacity: 22 t}, {radius: 10 m, capacity: 16.5 t}], or its file, such as crane.csv", read: readCraneTable},
	{name: "radius", takes: aLength, read: func(r *reader, n *yaml.Node, c *craneDraft) { c.Radius, _ = r.positive(n) }},
	{name: "radius tolerance", takes: "a length, such as 300: how far out the radius may be", read: func(r *reader, n *yaml.Node, c *craneDraft) { c.Tolerance, _ = r.positive(n) }},
	{name: "block", takes: aMass, read: func(r *reader, n *yaml.Node, c *craneDraft) { c.Block, _ = r.mass(n) }},
	{name: "tip height", takes: "the height over ground of what the block hangs from, such as 14 m", read: func(r *reader, n *yaml.Node, c *craneDraft) { c.tip, _ = r.positive(n) }},
	{name: "block height", takes: "from there down to the bowl of the hook, the block as high as it may go, such as 2.1 m", read: func(r *reader, n *yaml.Node, c *craneDraft) { c.block, _ = r.positive(n) }},
	{name: "hoist rope", takes: "{weight: 60 kg, length: 15 m}: all falls below the tip", read: func(r *reader, n *yaml.Node, c *craneDraft) { walk(r, n, "`hoist rope`", ropeKeys, &c.Rope) }},
	{name: "deductions", takes: "a list of {name: jib stowed, weight: 300 kg}", read: readDeductions},
	{name: "trigger", takes: aTrigger, read: readTrigger},
}

const aTrigger = "a part of the capacity, such as 75 %, above which the lift counts as critical"

var ropeKeys = []key[HoistRope]{
	{name: "weight", takes: aMass, must: true, read: func(r *reader, n *yaml.Node, h *HoistRope) { h.Weight, _ = r.mass(n) }},
	{name: "length", takes: aLength, read: func(r *reader, n *yaml.Node, h *HoistRope) { h.Length, _ = r.positive(n) }},
}

var deductionKeys = []key[Deduction]{
	{name: "name", takes: aText, must: true, read: func(r *reader, n *yaml.Node, d *Deduction) { d.Name, _ = r.text(n) }},
	{name: "weight", takes: aMass, must: true, read: func(r *reader, n *yaml.Node, d *Deduction) { d.Weight, _ = r.mass(n) }},
}

func readDeductions(r *reader, n *yaml.Node, c *craneDraft) {
	for _, one := range r.list(n, "a list of {name, weight}") {
		var d Deduction
		if walk(r, one, "a deduction", deductionKeys, &d) {
			c.Deductions = append(c.Deductions, d)
		}
	}
}

func readTrigger(r *reader, n *yaml.Node, c *craneDraft) {
	p, ok := quantity(r, n, aTrigger, units.ParsePercent)
	if ok && !(p >= 0.1 && p <= 1) {
		r.bad(n, fmt.Sprintf("the trigger %s must be from 10 %% to 100 %% of the capacity", short(n.Value)), "write 75 %")
		return
	}
	c.Trigger = p
}

func readCrane(r *reader, n *yaml.Node, l *limits) {
	before, c := r.faults, craneDraft{}
	if !walk(r, n, "`crane`", craneKeys, &c) || r.faults > before {
		return
	}
	switch {
	case c.Capacity == 0 && c.table == nil:
		r.bad(n, "`crane` has no `capacity`, and no `table`", "write `capacity:` with "+aMass+" at the radius of this lift, or the crane's table")
	case c.Capacity > 0 && c.table != nil:
		r.bad(c.table, "the crane's capacity is given twice, by `capacity` and by a `table`", "keep one of the two")
	case c.table != nil && c.Radius == 0:
		r.bad(n, "a crane's `table` without the `radius` of this lift", "write `radius:` with "+aLength)
	case c.Tolerance > 0 && c.table == nil:
		r.bad(n, "`radius tolerance` without a `table`: one capacity says nothing of another radius", "give the table, or the capacity at the greatest radius alone")
	case (c.tip > 0) != (c.block > 0):
		r.bad(n, "`tip height` and `block height` go together", "write both, or `hook height` in `limits`")
	case c.tip > 0 && c.block >= c.tip:
		r.bad(n, "the block reaches from the tip to the ground or below", "look at the units of `tip height` and `block height`")
	}
	l.Crane, l.TipHeight, l.Reach.Block = &c.Crane, c.tip, c.block
}

// reachFits sees that the heights go together, and works out that of the hook.
func (r *reader) reachFits(n *yaml.Node, l *Reach) {
	switch {
	case l.HookHeight != nil && l.TipHeight > 0:
		r.bad(n, "the hook's greatest height is given twice, by `hook height` and by the crane's `tip height`", "keep one of the two")
	case l.TipHeight > 0:
		h := l.TipHeight - l.Block
		l.HookHeight = &h
	case l.HookHeight == nil && (l.SetDownOn != nil || l.Obstacle != nil):
		r.bad(n, "`set down on` and `obstacle` say nothing without the height of the hook", "write `hook height: 12 m`, the greatest that its bowl can have over ground")
	}
}
