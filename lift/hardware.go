package lift

import (
	"fmt"
	"strings"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Hardware is what the legs need between load and hook beside the slings.
type Hardware struct {
	Shackles []LegShackle   `json:"shackles"`
	Eyes     []EyeOnPin     `json:"eyes"`
	Link     *Link          `json:"link"`
	Fittings []FittingCheck `json:"fittings"`
	Lugs     []LugCheck     `json:"lugs"`
	WeightKg float64        `json:"shackles_weight_kg"` // of one at each leg; 0: not known
	Weight   string         `json:"shackles_weight"`    // in words
	Unknown  bool           `json:"-"`                  // the weight of some shackle is not known
}

// LegShackle is the shackle at the load end of a leg.
type LegShackle struct {
	Pick    string          `json:"pick"`
	PullKN  float64         `json:"worst_tension_kn"`
	OffDeg  *float64        `json:"off_line_worst_deg"` // out of the plane of the lug, so from the line of the bow; null: not known, in line is taken
	HoleM   float64         `json:"hole_m"`             // of the lug; 0: not stated
	Choices []ShackleChoice `json:"choices"`            // one of each grade
	Text    string          `json:"text"`               // what is to be said of it; empty: nothing
}

// ShackleChoice is the smallest shackle of a grade that holds and, where the hole
// is stated, whose pin sits well in it.
type ShackleChoice struct {
	Grade       string  `json:"grade"`
	Size        string  `json:"size"`
	RatedKg     float64 `json:"rated_kg"`
	RequiredKg  float64 `json:"required_kg"` // in line
	Utilisation float64 `json:"utilisation"`
	PinM        float64 `json:"pin_m"`
	BowM        float64 `json:"bow_m"` // diameter of the body
	WeightKg    float64 `json:"weight_kg"`
	Seat        string  `json:"pin_in_hole"` // snug, slack or too large; empty: the hole is not stated
	Source      string  `json:"source"`
	Basis       string  `json:"basis"`
	Note        string  `json:"note"`
}

// EyeOnPin holds the soft eye of a chosen sling against the smallest bow of the
// shackles at the load.
type EyeOnPin struct {
	Family   string  `json:"family"`
	Material string  `json:"material"`
	Size     string  `json:"size"`
	LeastM   float64 `json:"least_m"`
	BowM     float64 `json:"smallest_bow_m"`
	Enough   bool    `json:"enough"`
	Source   string  `json:"source"`
	Basis    string  `json:"basis"`
}

// noHardware warns where hardware is stated and nothing here looks at it.
func noHardware(l *takeoff.Load, h *Header) {
	var at []string
	for _, pick := range l.Rigging.Picks {
		if pick.Fitting != nil || pick.Plate != nil {
			at = append(at, pick.Name)
		}
	}
	where := ""
	if len(at) > 0 {
		where = " at " + strings.Join(at, ", ")
	}
	if len(at) > 0 || l.Rigging.Legs.Link > 0 {
		h.warn("hardware-unchecked", "hardware is stated"+where+", and it is not checked for a load that hangs so", "have a qualified person check it against the tensions printed")
	}
}

// legPull is a leg that pulls, as the hardware at its pick feels it.
type legPull struct {
	sling.Pull
	leg   Leg
	hitch takeoff.Hitch
	given takeoff.Pick // of the load file; zero for a proposed pick
	off   *float64     // degrees out of the plane of the lug; nil: not known
}

// hardware sizes and checks what stands between load and hook.
func (w line) hardware(l *takeoff.Load, s *Sizing, h *Header) (*Hardware, error) {
	if w.legs.Posed == nil {
		noHardware(l, h)
		return nil, nil
	}
	hw := &Hardware{Shackles: []LegShackle{}, Eyes: []EyeOnPin{}, Fittings: []FittingCheck{}, Lugs: []LugCheck{}}
	hooks := w.plan.hookPlaces(w.legs.HookM)
	pins := map[string]float64{} // m, the thinnest pin that may come through the lug of a pick
	var sum shackleSum
	for i, leg := range w.legs.Legs {
		if leg.WorstTensionKN == 0 {
			continue
		}
		p := w.pullOf(l, i, hooks)
		if err := w.fitting(l, hw, p, hooks, pins, &sum, h); err != nil {
			return nil, err
		}
		if err := hw.shackle(p, pins, &sum); err != nil {
			return nil, fmt.Errorf("%w: %w", ErrProgram, err)
		}
		hw.lug(p, pins[leg.Pick], h)
	}
	if err := w.link(l, s, hw, hooks, h); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrProgram, err)
	}
	hw.eyes(s, sum.bow)
	hw.warnOfShackles(h)
	hw.WeightKg, hw.Weight, hw.Unknown = sum.kg, sum.text(), sum.unknown > 0
	return hw, nil
}

// pullOf puts a leg into the terms of the hardware.
func (w line) pullOf(l *takeoff.Load, i int, hooks []geom.Vec) legPull {
	leg := w.legs.Legs[i]
	p := legPull{leg: leg, hitch: l.Rigging.HitchOf(leg.Pick), Pull: sling.Pull{Rules: w.plan.rules, Kind: sling.Shackle,
		Tension: units.Force(w.legs.atLiftOff(i) * 1000), Dynamic: l.Rigging.Dynamic}}
	for _, given := range l.Rigging.Picks {
		if given.Name == leg.Pick {
			p.given = given
		}
	}
	if p.off = offLine(p.given, leg.AtM, hooks); p.off != nil {
		p.Off = units.Turn(units.Radians(*p.off))
	}
	return p
}

// offLine is how far in degrees a leg pulls out of the plate of the lug at its
// pick, and so out of the bow of the shackle in it, at worst over the places of
// the hook; nil where the load file does not say how the plate stands. All places
// are in the load's own axes.
func offLine(given takeoff.Pick, at geom.Vec, hooks []geom.Vec) *float64 {
	if given.Lug == nil {
		return nil
	}
	worst := 0.0
	for _, hook := range hooks {
		_, out, err := rig.LugAngles(hook.Sub(at), given.Lug.Normal, given.Lug.Axis)
		if err != nil {
			return nil
		}
		worst = max(worst, degrees(out))
	}
	return &worst
}

// hookPlaces are the places of the hook in the load's own axes: as it hangs, then
// for each place where the CG may be, the legs as stated.
func (p *plan) hookPlaces(best geom.Vec) []geom.Vec {
	all := []geom.Vec{best}
	r := p.rig(p.weight.sizing())
	for _, place := range p.doubt().CGs {
		one := r
		one.CG = place.At
		pose, err := one.Hang()
		if err != nil || !pose.Stable || pose.RollsOver {
			continue // refused for that
		}
		all = append(all, p.stance.own(pose.Hook))
	}
	return all
}

var pinSeats = map[sling.Seat]string{sling.Snug: "snug", sling.Slack: "slack", sling.TooLarge: "too large"}

// shackle chooses the shackle at the load, unless one is stated or the sling goes
// round the load.
func (hw *Hardware) shackle(p legPull, pins map[string]float64, sum *shackleSum) error {
	if p.given.Fitting != nil && p.given.Fitting.Kind == sling.Shackle {
		return nil // it is among the fittings
	}
	s := LegShackle{Pick: p.leg.Pick, PullKN: float64(p.Tension) / 1000, OffDeg: p.off, Choices: []ShackleChoice{}}
	switch {
	case p.hitch.Kind == "basket":
		s.Text = "none at the load: both ends of the basket are at the hook"
	case p.hitch.Kind == "choker":
		s.Text = "none at the load: the sling goes round it; a shackle at the choke holds no less than the leg, its pin in the choking eye"
	default:
		if plate := p.given.Plate; plate != nil {
			s.HoleM = plate.Hole
		}
		fits, why, err := sling.ShacklesIn(p.Pull, units.Length(s.HoleM))
		if err != nil {
			return err
		}
		s.Text = why
		for _, f := range fits {
			c := choiceOf(f, s.HoleM)
			s.Choices = append(s.Choices, c)
			if thinnest := pins[s.Pick]; c.Seat != pinSeats[sling.TooLarge] && (thinnest == 0 || c.PinM < thinnest) {
				pins[s.Pick] = c.PinM
			}
		}
		sum.add(s.Choices)
	}
	hw.Shackles = append(hw.Shackles, s)
	return nil
}

func choiceOf(f sling.Fitting, hole float64) ShackleChoice {
	return ShackleChoice{Grade: f.Grade, Size: f.Size, RatedKg: float64(f.Rated), RequiredKg: float64(f.Required), Utilisation: f.Utilisation,
		PinM: float64(f.Pin), BowM: float64(f.Body), WeightKg: float64(f.Weight), Seat: pinSeats[sling.SeatOf(f.Pin, units.Length(hole))],
		Source: f.Source, Basis: f.Basis, Note: f.Note}
}

// shackleSum adds up what one shackle at each leg weighs, the heaviest of the
// grades, and keeps the thinnest bow of all.
type shackleSum struct {
	kg, bow        float64
	known, unknown int
}

func (s *shackleSum) add(choices []ShackleChoice) {
	if len(choices) == 0 {
		s.unknown++
		return
	}
	heaviest, known := 0.0, true
	for _, c := range choices {
		heaviest, known = max(heaviest, c.WeightKg), known && c.WeightKg > 0
		if c.BowM > 0 && (s.bow == 0 || c.BowM < s.bow) {
			s.bow = c.BowM
		}
	}
	if !known {
		s.unknown++
		return
	}
	s.known++
	s.kg += heaviest
}

func (s *shackleSum) text() string {
	switch {
	case s.known+s.unknown == 0:
		return "no shackles at the load"
	case s.known == 0:
		return "the weight of the shackles at the load is not known here: ask"
	case s.unknown > 0:
		return fmt.Sprintf("%d of %d shackles at the load, the heaviest of the grades; the weight of the others is not known here", s.known, s.known+s.unknown)
	}
	return fmt.Sprintf("%d at the load, the heaviest of the grades (from memory, low confidence)", s.known)
}

// warnOfShackles warns of pins that do not go through their lugs, or sit loosely,
// and of pulls that no shackle of the tables holds.
func (hw *Hardware) warnOfShackles(h *Header) {
	var none, large, slack, inLine []string
	for _, s := range hw.Shackles {
		if s.OffDeg == nil && len(s.Choices) > 0 {
			inLine = append(inLine, s.Pick)
		}
		switch seat := bestSeat(s.Choices); {
		case len(s.Choices) == 0 && s.PullKN > 0 && !strings.HasPrefix(s.Text, "none at"):
			none = append(none, s.Pick+" ("+s.Text+")")
		case seat == pinSeats[sling.TooLarge]:
			large = append(large, fmt.Sprintf("%s (hole %s, smallest pin %s)", s.Pick, both(s.HoleM), both(s.Choices[0].PinM)))
		case seat == pinSeats[sling.Slack]:
			slack = append(slack, fmt.Sprintf("%s (hole %s)", s.Pick, both(s.HoleM)))
		}
	}
	if len(none) > 0 {
		h.warn("no-shackle", "no shackle of the tables for the pull at "+strings.Join(none, ", "), "have one proved for it, or turn the lug toward the hook")
	}
	if len(large) > 0 {
		h.warn("hardware-fit", "no shackle of the tables that holds goes through the lug at "+strings.Join(large, ", "), "measure; use shackles of a stronger grade, or have the lug looked at by an engineer: a hole is not opened up on site")
	}
	if len(slack) > 0 {
		h.warn("hardware-fit", "the pin of every shackle of the tables that holds sits loosely in the lug at "+strings.Join(slack, ", "), "measure; a hole is usually at most 3 mm or 6 % larger than the pin (common practice, no source): bush it, or use a shackle with a thicker pin")
	}
	if len(inLine) > 0 {
		h.assume("shackles at %s are taken as pulled in line: how the plates of their lugs, or the eyes, stand is not stated (`lug: {normal: y}`); from the side a shackle holds less", strings.Join(inLine, ", "))
	}
}

// bestSeat is the best way that the pin of any grade sits.
func bestSeat(choices []ShackleChoice) string {
	best := ""
	for _, want := range []sling.Seat{sling.TooLarge, sling.Slack, sling.Snug} {
		for _, c := range choices {
			if c.Seat == pinSeats[want] {
				best = c.Seat
			}
		}
	}
	return best
}

// eyes holds the eyes of the families that may be used against the thinnest bow.
func (hw *Hardware) eyes(s *Sizing, bow float64) {
	if bow == 0 {
		return
	}
	for _, f := range s.Families {
		if f.Choice == nil || f.Use == "no" || strings.Contains(f.Material, "socket") { // a socket is no soft eye
			continue
		}
		if least, source, ok := sling.EyePin(sling.Rules(s.Rules), f.Family, f.Material, f.Choice.Size); ok {
			hw.Eyes = append(hw.Eyes, EyeOnPin{f.Family, f.Material, f.Choice.Size, float64(least), bow, bow >= float64(least)*(1-1e-9), source.Source, source.Basis})
		}
	}
}

// addShackles puts the shackles at the load into the gross load, and tells whether
// the weight of some is not known.
func (s *Sizing) addShackles() (unknown bool) {
	if s.Hardware == nil {
		return false
	}
	s.Gross.HardwareKg = s.Hardware.WeightKg
	return s.Hardware.Unknown
}
