package lift

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// FreeLiquid is what liquid that can run does to the lift. A free surface acts
// as if the CG of the whole load stood higher, by ρ·I/M: ρ the density, I the
// second moment of the surface about an axis through its own middle, added up
// over the surfaces, M the mass of all that tilts. The axis is the line of the
// picks that the load rolls about; where there is none, the worst.
type FreeLiquid struct {
	Parts      []string `json:"parts"`
	RiseM      float64  `json:"rise_m"`       // at the amounts and in the pose of the best CG
	RiseWorstM float64  `json:"rise_worst_m"` // at the worst levels of all together, or the measured ones, and the least weight
	RiseAlongM float64  `json:"rise_along_m"` // at worst, along the line of the picks, where that is more; else 0
	CGM        geom.Vec `json:"cg_m"`         // of the load, the liquid lying as it does in the hung pose
	Text       string   `json:"text"`

	along  float64 // m, about the worst axis, at the amounts and in the pose of the best CG
	swings bool    // and that is no lower than the hook
}

// afloat are the liquids of a load that can run.
type afloat struct {
	liquids []takeoff.Liquid
	drawn   []geom.Vec // m, the CG of each with the load as drawn
	mass    float64    // kg, of the whole load
	names   []string
	across  geom.Vec // level, square to the line of the picks; zero where they are in no line
}

var plumb = geom.Vec{0, 0, 1}

// newAfloat lists what can run; nil for none.
func newAfloat(l *takeoff.Load, w Weight, picks []Pick) (*afloat, error) {
	a := &afloat{mass: w.Weight.BestKg}
	if ring := hull(picks); len(ring) == 2 {
		run := ring[1].AtM.Sub(ring[0].AtM)
		a.across = geom.Vec{-run[1], run[0], 0}.Normalize()
	}
	for _, p := range l.Parts {
		if p.Liquid == nil || p.Liquid.Baffled {
			continue
		}
		a.names = append(a.names, p.Name)
		for _, one := range p.Liquids() {
			cg, _, err := one.At(plumb)
			if err != nil {
				return nil, fmt.Errorf("%w: %w", ErrProgram, err)
			}
			a.liquids, a.drawn = append(a.liquids, one), append(a.drawn, cg)
		}
	}
	if len(a.liquids) == 0 {
		return nil, nil
	}
	return a, nil
}

// lies returns by how much the load's CG moves from where it is as drawn when
// up is up, and by how much the free surfaces raise it in effect: about the line
// of the picks, and about the worst axis.
//
// Source: the free-surface effect of naval architecture, by which a surface
// raises the CG by ρ·I over the displaced mass (textbooks, from memory). For
// picks that are in no line the greater principal I is taken, the safe side.
func (a *afloat) lies(up geom.Vec) (moved geom.Vec, rise, along float64, err error) {
	for i, one := range a.liquids {
		cg, surface, err := one.At(up)
		if err != nil {
			return moved, 0, 0, err
		}
		mass := one.Volume * one.Density
		moved = moved.Add(cg.Sub(a.drawn[i]).Mul(mass / a.mass))
		rise += one.Density * takeoff.MomentAcross(surface, a.level(up)) / a.mass
		along += one.Density * takeoff.MomentAcross(surface, geom.Vec{}) / a.mass
	}
	return moved, rise, along, nil
}

// level is the direction across the line of the picks, level when up is up.
func (a *afloat) level(up geom.Vec) geom.Vec {
	off := a.across.Sub(up.Mul(a.across.Dot(up)))
	if off.Len() == 0 {
		return off
	}
	return off.Normalize()
}

// float finds what liquid does to the plan: it moves the CG that the statics
// see. The hung pose and the lie of the liquid are found in turn until they
// agree. The statics see the liquid's weight at its metacentre, through which it
// acts whatever way the load tilts a little: so stability and first slack hold
// for the load with its liquid, and the turns close in fast.
func (p *plan) float(w Weight, h *Header) error {
	a, err := newAfloat(p.load, w, p.picks)
	if err != nil || a == nil {
		return err
	}
	p.free = &FreeLiquid{Parts: a.names}
	if p.rise, p.riseAny, err = a.worstRise(w); err != nil {
		return fmt.Errorf("%w: %w", ErrProgram, err)
	}
	up := plumb
	for range mostTurns {
		moved, rise, along, err := a.lies(up)
		if err != nil {
			return fmt.Errorf("%w: %w", ErrProgram, err)
		}
		p.free.CGM, p.free.RiseM, p.free.along = w.CGM.Add(moved), rise, along
		p.cg = p.free.CGM.Add(up.Mul(rise))
		hung, err := p.rig(w.planning()).Hang()
		if err != nil {
			return nil // the caller will meet and tell it
		}
		if hung.Up.Sub(up).Len() < sameUp {
			p.settled(a, hung.Hook)
			return nil
		}
		up = hung.Up
	}
	h.refuse("the load and the liquid in it find no rest near the attitude drawn")
	return nil
}

const (
	mostTurns = 100
	sameUp    = 1e-10 // radians
)

// settled keeps what liquid does at worst, now that it is known how the load
// hangs: never less than what it does as it hangs.
//
// Liquid that runs along the line of two or more picks has another surface there
// than across it, and the statics see it across. With the way H from CG to hook,
// the rises r across and r' along, the load tilts along the line by e/(H − r')
// instead of e/(H − r), to first order: offsets of the CG along the line count
// (H − r)/(H − r') times. From r' = H on it swings over. Derived here.
func (p *plan) settled(a *afloat, hook geom.Vec) {
	p.rise = max(p.rise, p.free.RiseM)
	p.riseAny = max(p.riseAny, p.free.along, p.rise)
	p.free.RiseWorstM, p.stretch = p.rise, 1
	if a.across != (geom.Vec{}) && p.riseAny > p.rise {
		p.free.RiseAlongM = p.riseAny
		p.hook, p.along = hook, geom.Vec{a.across[1], -a.across[0], 0}
		depth := hook[2] - p.weight.CGM[2]
		p.free.swings, p.swings = p.free.along >= depth, p.riseAny >= depth
		if !p.swings {
			p.stretch = (depth - p.rise) / (depth - p.riseAny)
		}
	}
	p.free.Text = p.free.text()
}

func (f FreeLiquid) text() string {
	worst := "at the worst level"
	if len(f.Parts) > 1 {
		worst = "with each at the level that is worst beside the others"
	}
	text := fmt.Sprintf("%s can run: it acts as if the CG of the load were %s higher, %s %s",
		strings.Join(f.Parts, ", "), units.Length(f.RiseM).Format(units.Both), units.Length(f.RiseWorstM).Format(units.Both), worst)
	if f.RiseAlongM > 0 {
		text += fmt.Sprintf("; running along the line of the picks, %s", units.Length(f.RiseAlongM).Format(units.Both))
	}
	return text
}

// raised lifts places of the CG by the worst that free surfaces do, and moves
// them along the line of the picks by what liquid that runs there adds.
func (p *plan) raised(places []rig.Place) []rig.Place {
	for i := range places {
		at := &places[i].At
		if p.stretch > 1 {
			*at = at.Add(p.along.Mul(at.Sub(p.hook).Dot(p.along) * (p.stretch - 1)))
		}
		*at = at.Add(plumb.Mul(p.rise))
	}
	return places
}

// withLiquid warns of liquid that can run, marks a load that it swings over, and
// brings the first slack nearer by what liquid that runs along the picks adds to
// a shift of the CG.
func (p *plan) withLiquid(best *rig.Hang, worst *rig.Worst, h *Header) {
	if p.free == nil {
		return
	}
	if p.free.Text != "" {
		h.warn("free-liquid", p.free.Text, "drain it or fill it up; or baffle it, and say `baffled: true`; keep people clear until the load hangs still")
	}
	if p.free.swings {
		best.Stable, best.Toward = false, p.along
	}
	if p.swings && worst.Stable {
		worst.Stable, worst.Unstable = false, fmt.Sprintf("free liquid at its worst level, that acts along the load as if the CG were %s higher, no lower than the hook", units.Length(p.riseAny).Format(units.Both))
	}
	if p.stretch > 1 && math.Abs(best.First.Toward.Dot(p.along)) > 0.5 {
		best.First.Shift /= p.stretch
	}
}
