package takeoff

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/geom"
	"plumbhook/units"
)

// Bounds on weighings, above any that are made.
const (
	mostWeighings = 20
	mostCells     = 50 // of one
)

const (
	aListOfWeighings = "a list of {name, cells}"
	aListOfCells     = "a list of {name, at, reads, accuracy}"
	anAccuracy       = "how far a reading may be off each way, such as 0.5 % or 5 kg"
	aTilt            = "{about: y, by: 8}, right-handed, in degrees"
)

// accuracy is how far a reading may be off, each way.
type accuracy struct {
	part float64    // of the reading
	mass units.Mass // where part is zero
}

// of returns the accuracy of one reading. A percentage counts of the reading,
// and of at least a tenth of what the cells read on average: a cell that reads
// next to nothing isn't all but perfect.
func (a accuracy) of(reads, average units.Mass) units.Mass {
	if a.part > 0 {
		return units.Mass(a.part) * max(reads, -reads, average/10)
	}
	return a.mass
}

// weighingDraft and cellDraft are a weighing and a cell while their keys are
// read.
type weighingDraft struct {
	Weighing
	accuracy *accuracy
	cells    []cellDraft
	without  []*yaml.Node
}

type cellDraft struct {
	Reading
	accuracy *accuracy
	node     *yaml.Node
}

var weighingKeys = []key[weighingDraft]{
	{name: "name", takes: aText, read: func(r *reader, n *yaml.Node, w *weighingDraft) { w.Name, _ = r.text(n) }},
	{name: "accuracy", takes: anAccuracy + ", of cells that give none", read: func(r *reader, n *yaml.Node, w *weighingDraft) { w.accuracy = r.accuracy(n) }},
	{name: "cells", also: []string{"supports"}, takes: aListOfCells, must: true, read: readCells},
	{name: "places", takes: aLength + ", that the places of the cells may be off", read: func(r *reader, n *yaml.Node, w *weighingDraft) { w.Places, _ = r.positive(n) }},
	{name: "tare", takes: aMass + ", of rigging and packing on the cells", read: func(r *reader, n *yaml.Node, w *weighingDraft) { w.Tare, _ = r.mass(n) }},
	{name: "without", takes: "a list of parts that were not on", read: func(r *reader, n *yaml.Node, w *weighingDraft) {
		w.without = r.list(n, "a list of parts that were not on")
	}},
	{name: "tilt", takes: aTilt, read: readTilt},
}

var cellKeys = []key[cellDraft]{
	{name: "name", takes: aText, must: true, read: func(r *reader, n *yaml.Node, c *cellDraft) { c.Name, _ = r.text(n) }},
	{name: "at", takes: aPlace, must: true, read: func(r *reader, n *yaml.Node, c *cellDraft) { c.At, _ = r.place(n) }},
	{name: "reads", takes: aMass, must: true, read: func(r *reader, n *yaml.Node, c *cellDraft) { c.Reads = r.reading(n) }},
	{name: "accuracy", takes: anAccuracy, read: func(r *reader, n *yaml.Node, c *cellDraft) { c.accuracy = r.accuracy(n) }},
}

// tilt is how the load lay when it was weighed.
type tilt struct {
	about        string
	by, accuracy float64 // degrees
}

var tiltKeys = []key[tilt]{
	{name: "about", takes: "x, y, -x or -y", must: true, read: func(r *reader, n *yaml.Node, t *tilt) { t.about, _ = r.word(n, "x", "y", "-x", "-y") }},
	{name: "by", takes: anAngle, must: true, read: func(r *reader, n *yaml.Node, t *tilt) { t.by, _ = r.angle(n, -360, 360) }},
	{name: "accuracy", takes: anAngle + ", that the tilt may be off each way", read: func(r *reader, n *yaml.Node, t *tilt) { t.accuracy, _ = r.angle(n, 0, 45) }},
}

// readTilt reads how the load lay. The load is turned by an angle, so that up
// as the load sees it turns the other way.
func readTilt(r *reader, n *yaml.Node, w *weighingDraft) {
	var t tilt
	if !walk(r, n, "tilt", tiltKeys, &t) {
		return
	}
	if t.about == "" { // reported
		return
	}
	axis, by := strings.Index("xy", strings.TrimPrefix(t.about, "-")), units.Radians(t.by)
	if t.about[0] == '-' {
		by = -by
	}
	w.About[axis] = 1
	w.Up = geom.TurnAbout(axis, -by).Mul3x1(geom.Vec{0, 0, 1})
	w.TiltAccuracy = float64(units.Radians(t.accuracy))
}

// readWeighings reads the weighings, once the parts are known.
func readWeighings(r *reader, n *yaml.Node, l *Load) {
	list := r.list(n, aListOfWeighings)
	if len(list) > mostWeighings {
		r.bad(n, fmt.Sprintf("%d weighings; at most %d are taken", len(list), mostWeighings), "leave out those that tell least")
		return
	}
	lines := map[string]int{}
	for i, one := range list {
		d := weighingDraft{Weighing: Weighing{Up: geom.Vec{0, 0, 1}, Line: one.Line}}
		before := r.faults
		if !walk(r, one, "a weighing", weighingKeys, &d) {
			continue
		}
		if d.Name == "" {
			d.Name = fmt.Sprintf("weighing %d", i+1)
		}
		if first, twice := lines[d.Name]; twice {
			r.bad(one, fmt.Sprintf("the weighing %q is here twice, first on line %d", d.Name, first), "give each weighing its own name")
		}
		lines[d.Name] = d.Line
		if r.faults == before {
			r.settleCells(one, &d)
		}
		r.settleWithout(one, &d, l)
		if r.faults == before {
			l.Weighings = append(l.Weighings, d.Weighing)
		}
	}
}

func readCells(r *reader, n *yaml.Node, w *weighingDraft) {
	list := r.list(n, aListOfCells)
	if len(list) > mostCells {
		r.bad(n, fmt.Sprintf("%d cells in one weighing; at most %d are taken", len(list), mostCells), "join those that stand close together")
		return
	}
	for _, one := range list {
		c := cellDraft{node: one}
		if !walk(r, one, "a cell", cellKeys, &c) {
			continue
		}
		for _, other := range w.cells {
			if other.Name == c.Name && c.Name != "" {
				r.bad(one, fmt.Sprintf("the cell %q is here twice, first on line %d", c.Name, other.node.Line), "give each cell its own name")
			}
		}
		w.cells = append(w.cells, c)
	}
}

// reading returns what a cell reads, which may be below zero: a zero that
// drifts, or a load that pulls.
func (r *reader) reading(n *yaml.Node) units.Mass {
	m, ok := quantity(r, n, aMass, func(s string) (units.Mass, error) {
		rest, below := strings.CutPrefix(s, "-")
		m, err := units.ParseMass(rest)
		if below {
			m = -m
		}
		return m, err
	})
	if ok && !(max(m, -m) <= heaviest) {
		r.bad(n, fmt.Sprintf("the reading %s is more than %g kg", short(n.Value), float64(heaviest)), "look at its unit")
	}
	return m
}

// accuracy returns how far a reading may be off; nil after a fault.
func (r *reader) accuracy(n *yaml.Node) *accuracy {
	s, ok := r.scalar(n, anAccuracy)
	if !ok {
		return &accuracy{} // there, if wrong: what needs one need not complain
	}
	if !strings.Contains(s, "%") && !strings.Contains(s, "cent") {
		m, _ := r.mass(n)
		return &accuracy{mass: m}
	}
	p, ok := quantity(r, n, anAccuracy, units.ParsePercent)
	if ok && !(p >= 1e-6 && p <= 0.5) {
		r.bad(n, fmt.Sprintf("the accuracy %s must be from 0.0001 %% to 50 %%", short(s)), "write "+anAccuracy)
	}
	return &accuracy{part: p}
}

// settleCells gives each cell its accuracy and sees that the readings can be
// those of a load that stands on the cells.
func (r *reader) settleCells(n *yaml.Node, d *weighingDraft) {
	var sum units.Mass
	for _, c := range d.cells {
		sum += c.Reads
	}
	for _, c := range d.cells {
		a := c.accuracy
		if a == nil {
			a = d.accuracy
		}
		if a == nil {
			r.bad(c.node, fmt.Sprintf("the cell %q has no `accuracy`", c.Name), "write `accuracy:` with "+anAccuracy+", beside the cell or for all cells of the weighing")
			continue
		}
		c.Accuracy = a.of(c.Reads, sum/units.Mass(len(d.cells)))
		if c.Reads < -c.Accuracy {
			r.bad(c.node, fmt.Sprintf("the cell %q reads %s, below zero by more than its accuracy", c.Name, kg(c.Reads)),
				"set it to zero and weigh again; a load that pulls on a support can't be weighed on cells under it")
		}
		d.Cells = append(d.Cells, c.Reading)
	}
	if sum <= d.Tare || sum <= 0 {
		r.bad(n, fmt.Sprintf("the cells read %s in all, and the tare is %s: nothing is left for the load", kg(sum), kg(d.Tare)), "look at the readings, their unit and the tare")
	}
}

// settleWithout looks up the parts that were not on.
func (r *reader) settleWithout(n *yaml.Node, d *weighingDraft, l *Load) {
	known := weighedNames(l)
	for _, name := range r.allowanceNames(l) { // those of sub-assemblies too
		known[name] = true
	}
	for _, one := range d.without {
		name, ok := r.text(one)
		if !ok {
			continue
		}
		if !known[name] {
			r.bad(one, fmt.Sprintf("no part or allowance is called %q", name), nearNames(name, known))
			continue
		}
		d.Without = append(d.Without, name)
	}
	for _, p := range l.Parts {
		if !d.off(p.Name) {
			return
		}
	}
	if len(l.Parts) > 0 && len(d.Without) > 0 {
		r.bad(n, "no part of the load was on when it was weighed", "take parts that were on out of `without`")
	}
}
