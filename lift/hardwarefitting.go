package lift

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// FittingCheck is hardware that the load file states, held against its pull.
type FittingCheck struct {
	Pick        string   `json:"pick"`
	Kind        string   `json:"kind"`
	Size        string   `json:"size"`
	Grade       string   `json:"grade"`
	PullKN      float64  `json:"worst_tension_kn"`
	OffDeg      *float64 `json:"off_line_worst_deg"` // from the axis of the bolt, or out of the bow; null: not known, in line is taken
	RatedKg     float64  `json:"rated_kg"`           // in line
	RequiredKg  float64  `json:"required_kg"`        // in line; 0: such a pull is not allowed
	Utilisation float64  `json:"utilisation"`        // 0: such a pull is not allowed
	PinM        float64  `json:"pin_m"`              // 0: it has none, or not known
	Holds       bool     `json:"holds"`
	Why         string   `json:"why,omitempty"` // it does not
	Factors     []Factor `json:"factors"`
	Cautions    []string `json:"cautions"`
	Source      string   `json:"source"`
	Basis       string   `json:"basis"`
	Note        string   `json:"note"`
}

// fittingCautions are in our own words. Eyebolts: after ASME B30.26 (from memory)
// and DIN 580:2003 (as reprinted). The rest is common practice, no source.
var fittingCautions = map[string]string{
	sling.Eyebolt:    "the shoulder sits flush on the face and the bolt is screwed right home; the pull lies in the plane of the eye, never across it: shim the bolt to turn the eye; for a pull off the axis the lower of the scales in print is taken",
	sling.HoistRing:  "the face sits flush, the bolt is torqued as marked on the ring, the ring swivels and pivots free; the ring's own mark governs",
	sling.Shackle:    "the mark on the shackle governs; the right pin, screwed home and kept from turning; nothing pulls across the bow",
	sling.Turnbuckle: "pulled in line only, jaw or eye ends, no hooks; locked against turning before the lift",
}

// fitting checks the hardware that is stated at a pick.
func (w line) fitting(l *takeoff.Load, hw *Hardware, p legPull, hooks []geom.Vec, pins map[string]float64, sum *shackleSum, h *Header) error {
	stated := p.given.Fitting
	if stated == nil {
		return nil
	}
	p.Kind = stated.Kind
	off := p.off
	switch stated.Kind {
	case sling.Eyebolt, sling.HoistRing:
		worst := w.offBolt(stated.Axis, p.leg, hooks)
		off, p.Off = &worst, units.Turn(units.Radians(worst))
	case sling.Turnbuckle:
		inLine := 0.0 // it is in the leg, and turns with it
		off, p.Off = &inLine, 0
	}
	f, known, why, err := p.Holds(stated.Size)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrProgram, err)
	}
	if stated.Rated > 0 {
		if f, why, err = p.HoldsMarked(stated.Size, stated.Rated); err != nil {
			return fmt.Errorf("%w: %w", ErrProgram, err)
		}
	} else if !known {
		return unknownSize(l, p.Pull, *stated)
	}
	c := FittingCheck{Pick: p.leg.Pick, Kind: f.Kind, Size: f.Size, Grade: f.Grade, PullKN: float64(p.Tension) / 1000, OffDeg: off,
		RatedKg: float64(f.Rated), RequiredKg: float64(f.Required), Utilisation: f.Utilisation, PinM: float64(f.Pin), Why: why, Factors: factors(f.Factors),
		Cautions: []string{fittingCautions[f.Kind]}, Source: f.Source, Basis: f.Basis, Note: f.Note}
	c.Holds = why == "" && f.Utilisation <= 1+1e-9
	c.judge(p, h)
	hw.Fittings = append(hw.Fittings, c)
	if f.Kind == sling.Shackle {
		pins[c.Pick] = c.PinM
		sum.add([]ShackleChoice{choiceOf(f, 0)})
		if off == nil {
			h.assume("the shackle at %s is taken as pulled in line: how the plate of its lug stands is not stated (`lug: {normal: y}`)", c.Pick)
		}
	}
	return nil
}

// judge refuses what does not hold, or does not go through its lug.
func (c *FittingCheck) judge(p legPull, h *Header) {
	switch {
	case c.Why != "":
		h.refuse("pick %s: %s %s: %s", c.Pick, c.Kind, c.Size, c.Why)
	case !c.Holds:
		c.Why = fmt.Sprintf("%s is needed in line, and it is rated %s", units.Mass(c.RequiredKg).FormatUp(units.Both), units.Mass(c.RatedKg).FormatDown(units.Both))
		h.refuse("pick %s: %s %s is too small: %s (%s, %s)", c.Pick, c.Kind, c.Size, c.Why, c.Source, c.Basis)
	}
	plate := p.given.Plate
	if c.Kind != sling.Shackle || plate == nil {
		return
	}
	switch sling.SeatOf(units.Length(c.PinM), units.Length(plate.Hole)) {
	case sling.TooLarge:
		h.refuse("pick %s: the pin of a shackle %s, %s by the table, does not go through the hole of %s", c.Pick, c.Size, both(c.PinM), both(plate.Hole))
	case sling.Slack:
		h.warn("hardware-fit", fmt.Sprintf("pick %s: the pin of a shackle %s, %s by the table, sits loosely in the hole of %s", c.Pick, c.Size, both(c.PinM), both(plate.Hole)),
			"measure; a hole is usually at most 3 mm or 6 % larger than the pin (common practice, no source): bush it, or use a shackle with a thicker pin")
	}
}

// offBolt is how far in degrees a leg pulls from the axis of a bolt, at worst over
// the places of the hook; where the bolt stands plumb in the pose that is wanted no
// less than the flattest that the leg stands. All is in the load's own axes.
func (w line) offBolt(axis geom.Vec, leg Leg, hooks []geom.Vec) float64 {
	worst := 0.0
	for _, hook := range hooks {
		along := hook.Sub(leg.AtM)
		worst = max(worst, degrees(math.Atan2(along.Cross(axis).Len(), along.Dot(axis))))
	}
	if w.plan.stance.stand(axis).Dot(plumb) > 1-1e-9 {
		worst = max(worst, 90-leg.WorstFromHorizontalDeg)
	}
	return worst
}

// unknownSize says which sizes of a kind are known.
func unknownSize(l *takeoff.Load, p sling.Pull, f takeoff.Fitting) error {
	fix := fmt.Sprintf("write one of: %s; or state beside it what is marked on it, `rated: 2 t`", strings.Join(p.Sizes(), ", "))
	if len(p.Sizes()) == 0 {
		fix = "state beside it what is marked on it, `rated: 2 t`"
	}
	if other := p.KnownElsewhere(f.Size); other != "" {
		fix += fmt.Sprintf("; %s is known under rules %s", f.Size, other)
	}
	return bad(l, f.Line, fmt.Sprintf("no %s of size %q is known under rules %s", f.Kind, f.Size, p.Rules), fix)
}
