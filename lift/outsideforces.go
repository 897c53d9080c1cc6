package lift

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

const (
	// air is the density of air in kg/m³ for wind: EN 1991-1-4, 4.5 (from memory).
	air = 1.25
	// boxShape is the shape factor where none is stated: that of a long flat plate
	// or sharp-edged box across the wind, more than of most loads (textbooks of
	// fluid mechanics, from memory).
	boxShape = 2.0
	// sailLimit in m² a tonne is the shape factor times the area that a crane's
	// table takes a load to have: EN 13000 (from memory).
	sailLimit = 1.2
	// byHand in N is what two people hold on a tag line. Common practice, no source.
	byHand = 500.0
	// headings is from how many sides the wind is taken to come, if from any: between
	// two of them a push along the worst is less than 1 % more (cos 7.5°), and where
	// the worst is known beforehand it is among them, see [plan.headings].
	headings = 24
)

// sides is what pushes the load aside.
type sides struct {
	cases []rig.SideCase
	wind  *WindPush
	tag   *TagPull
	most  float64 // N, the greatest sum of forces of a case
}

// sideForces adds to the figures what wind and tag line do: to tensions, angles
// and tilt at worst, each by the most that it changes at any place of the CG and
// at the sizing and the least weight. A load that does not hold in calm air, which
// is refused, is left at that.
func (p *plan) sideForces(f *Hanging, best rig.Hang, h *Header) error {
	s, err := p.sides(h)
	if err != nil || len(s.cases) == 0 || !f.Stable || !f.StableWorst {
		return err
	}
	p.gripSides(&s, h)
	light := units.Mass(p.weight.Weight.LowKg).Weight()
	if s.most > 0.5*float64(light) {
		h.refuse("wind and tag line push the load with up to %s, more than half of what it weighs: it can't be lifted in that",
			units.Force(s.most).FormatUp(units.Both))
		return nil
	}
	out := SideForces{Wind: s.wind, TagLine: s.tag, MostKN: s.most / 1000}
	for _, pick := range p.picks {
		out.Legs = append(out.Legs, SideLeg{Pick: pick.Name})
	}
	cases := make([]string, len(p.picks))
	for _, weight := range []units.Force{p.weight.sizing(), light} {
		w, err := p.rig(weight).SideWorst(p.doubt().CGs, s.cases)
		if errors.Is(err, rig.ErrDisagree) {
			return fmt.Errorf("%w: %w", ErrProgram, err)
		}
		if err != nil {
			h.refuse("unstable with a side force: no pose was found in which the load rests with wind or tag line on it (%s)", p.named(err.Error()))
			return nil
		}
		out.take(w, cases)
		if w.Unstable != "" {
			h.refuse("unstable with a side force: with %s the load does not stay where it is", w.Unstable)
		}
		if weight == light {
			out.LeanDeg, out.SwingPerM = degrees(w.Lean), math.Tan(w.Lean)
		}
	}
	p.hold(&out, best, h)
	p.judgeSail(&out, h)
	p.addSides(f, out, cases, h)
	f.SideForces = &out
	return nil
}

// take keeps the worse of what was found before and of w.
func (s *SideForces) take(w rig.SideWorst, cases []string) {
	s.CasesSolved += w.Solved
	s.MoreTiltDeg = max(s.MoreTiltDeg, degrees(w.MoreTilt))
	s.TurnKNM = max(s.TurnKNM, w.Couple/1000)
	for i := range s.Legs {
		leg := &s.Legs[i]
		if w.More[i]/1000 > leg.MoreKN {
			leg.MoreKN, cases[i] = w.More[i]/1000, w.Case[i]
		}
		leg.LessAngleDeg = max(leg.LessAngleDeg, degrees(w.LessAngle[i]))
		if leg.Slack == "" {
			leg.Slack = w.Slack[i]
		}
	}
}

// addSides puts what side forces add on the worst figures.
func (p *plan) addSides(f *Hanging, s SideForces, cases []string, h *Header) {
	f.TiltWorstDeg += s.MoreTiltDeg
	calm := max(0, slices.IndexFunc(f.Legs, func(l Leg) bool { return l.Pick == f.Governing }))
	governs := calm
	for i, side := range s.Legs {
		leg := &f.Legs[i]
		if leg.WorstTensionKN > 0 || side.MoreKN > 0 {
			leg.WorstTensionKN += side.MoreKN
			leg.WorstFromHorizontalDeg = max(0, leg.WorstFromHorizontalDeg-side.LessAngleDeg)
		}
		if side.Slack != "" {
			h.warn("slack-aside", fmt.Sprintf("leg %s may go slack with a side force on the load: %s", leg.Pick, side.Slack), "lift in less wind, or use longer legs or picks further apart")
		}
	}
	for i, leg := range f.Legs {
		if leg.WorstTensionKN > f.Legs[governs].WorstTensionKN*(1+1e-6) {
			governs = i
		}
	}
	if s.Legs[governs].MoreKN > 0 {
		if governs != calm { // whose case that was
			f.Governing, f.GoverningCase = f.Legs[governs].Pick, "its most in calm air, over all that is in doubt"
		}
		f.GoverningCase += "; and what side forces add: " + cases[governs]
	}
}

// sides settles the side forces that may act, from what the load file says.
func (p *plan) sides(h *Header) (sides, error) {
	var s sides
	g := p.load.Rigging
	var tag []rig.SideForce
	if t := g.TagLine; t != nil && t.Pull > 0 {
		s.tag = &TagPull{float64(t.Pull) / 1000, compass(*t.Toward), t.At}
		tag = []rig.SideForce{{At: p.stance.stand(t.At), Force: t.Toward.Mul(float64(t.Pull))}}
		s.add(rig.SideCase{Forces: tag, Name: "tag line pulled toward " + s.tag.Toward})
		h.assume("the tag line pulls level, as stated; one that slopes down pulls on the legs besides")
	}
	if g.Wind == nil {
		return s, nil
	}
	push, ways, err := p.wind(*g.Wind, h)
	if err != nil {
		return s, err
	}
	s.wind = &push
	for _, from := range ways {
		area, _ := p.windArea(*g.Wind, from)
		force := push.PressureNM2 * push.ShapeFactor * area
		if force/1000 > s.wind.ForceKN {
			s.wind.ForceKN, s.wind.AreaM2, s.wind.From = force/1000, area, compass(from)
		}
		wind := rig.SideForce{At: p.stance.stand(push.CentreM), Force: from.Mul(-force)}
		s.add(rig.SideCase{Forces: []rig.SideForce{wind}, Name: "wind from " + compass(from)})
		if tag != nil {
			s.add(rig.SideCase{Forces: append([]rig.SideForce{wind}, tag...), Name: "wind from " + compass(from) + " and tag line"})
		}
	}
	if g.Wind.From == nil {
		s.wind.From = "any side; the greatest area is to " + s.wind.From
	}
	return s, nil
}

func (s *sides) add(c rig.SideCase) {
	var sum geom.Vec
	for _, f := range c.Forces {
		sum = sum.Add(f.Force)
	}
	s.cases, s.most = append(s.cases, c), max(s.most, sum.Len())
}

// wind settles pressure, shape and centre, and where it may come from. The force
// is q·Cf·A with q = ½·ρ·v²: EN 1991-1-4, 4.5 and 5.3 (from memory).
func (p *plan) wind(w takeoff.Wind, h *Header) (WindPush, []geom.Vec, error) {
	box := p.weight.extent()
	push := WindPush{SpeedMS: float64(w.Speed), PressureNM2: float64(w.Pressure), ShapeFactor: w.ShapeFactor, CentreM: p.stance.own(box.Center())}
	if w.Speed > 0 {
		push.PressureNM2 = air / 2 * float64(w.Speed) * float64(w.Speed)
		h.assume("the stated wind speed is that of the gust at the height of the load")
	}
	if w.ShapeFactor == 0 {
		push.ShapeFactor = boxShape
		h.assume("no shape factor for the wind: %g, that of a long flat plate, the safe side", boxShape)
	}
	_, push.Area = p.windArea(w, geom.Vec{1, 0, 0})
	switch {
	case w.At != nil:
		push.CentreM = *w.At
	case box.Diagonal() < 1e-6:
		return push, nil, bad(p.load, w.Line, "the load has no size for the wind to push on", "give the wind an `area` and its centre `at`, or the weights a `box`")
	}
	h.assume("wind on slings, hook block and hoist line is not counted; tag lines hold the load from turning")
	if w.From != nil {
		return push, []geom.Vec{*w.From}, nil
	}
	return push, p.headings(box.Size()), nil
}

// headings is from where wind comes that may come from any side: all round, from
// where a box shows most, along its diagonals, and along each leg, which it loads most
// from there.
func (p *plan) headings(size geom.Vec) []geom.Vec {
	var ways []geom.Vec
	for i := range headings {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / headings)
		ways = append(ways, geom.Vec{cos, sin, 0})
	}
	both := func(x, y float64) {
		if way := math.Hypot(x, y); way > 1e-6 {
			ways = append(ways, geom.Vec{x / way, y / way, 0}, geom.Vec{-x / way, -y / way, 0})
		}
	}
	if size[0] > 0 && size[1] > 0 {
		for _, side := range []float64{1, -1} {
			both(size[1], side*size[0])
			both(size[0], side*size[1])
		}
	}
	for _, pick := range p.picks {
		both(pick.AtM[0]-p.cg[0], pick.AtM[1]-p.cg[1])
	}
	return ways
}

// windArea is the area in m² across a wind, and which it is: what the file gives,
// or the silhouette of the load's box, which no load within it exceeds.
func (p *plan) windArea(w takeoff.Wind, from geom.Vec) (float64, string) {
	if w.Area > 0 {
		return float64(w.Area), "as stated"
	}
	size := p.weight.extent().Size()
	return size[2] * (math.Abs(from[0])*size[1] + math.Abs(from[1])*size[0]), "the silhouette of the load's box, no less than the load's own"
}

// hold finds what tag lines have to hold.
func (p *plan) hold(s *SideForces, best rig.Hang, h *Header) {
	if s.Wind == nil {
		return
	}
	s.HoldPullKN = s.Wind.ForceKN
	pull := s.HoldPullKN
	if t := p.load.Rigging.TagLine; t != nil {
		arm := p.stance.stand(t.At).Sub(best.Hook)
		s.TurnLeverM = arm.Sub(best.Up.Mul(arm.Dot(best.Up))).Len()
		if s.TurnLeverM > 0.05 {
			turn := s.TurnKNM / s.TurnLeverM
			s.TurnPullKN = &turn
			pull = max(pull, turn)
		}
	}
	if pull*1000 > byHand {
		h.warn("tag-line-pull", fmt.Sprintf("holding the load against the wind takes up to %s on a tag line, more than people hold by hand", units.Force(pull*1000).FormatUp(units.Both)),
			"lift in less wind, or lead the line round something fast (two people hold about 500 N: common practice, no source)")
	}
}

// judgeSail holds the load's area to the wind against what cranes are rated for,
// and the crane against the slanting pull.
//
// Source: EN 13000, as makers' instructions give it: the greatest wind speed is
// lowered to v·√(1.2 m²/t · m / (Cf·A)) (from memory).
func (p *plan) judgeSail(s *SideForces, h *Header) {
	if s.Wind != nil {
		sail := s.Wind.AreaM2 * s.Wind.ShapeFactor
		s.SailM2PerT = sail / (p.weight.Weight.BestKg / 1000)
		if s.SailM2PerT > sailLimit {
			part := math.Sqrt(sailLimit / s.SailM2PerT)
			s.CraneFactor = &part
			h.warn("sail-area", fmt.Sprintf("the load shows the wind %.1f m² a tonne, shape factor in; cranes are rated for 1.2 m²/t (EN 13000, from memory): the crane's wind speed limit falls to %.2f of itself",
				s.SailM2PerT, math.Floor(part*100)/100), "ask the crane's maker or its load chart for the limit with this load")
		}
	}
	p.swung(s, h)
	if crane := p.crane(); crane != nil {
		plumb := p.weight.Weight.SizingKg + float64(crane.Beside())
		slant := math.Hypot(plumb, s.MostKN*1000/units.Gravity)
		if plumb <= float64(crane.Capacity) && slant > float64(crane.Capacity) {
			h.refuse("over capacity with a side force: load, %s and side force pull with %s on the hoist line, the crane lifts %s there",
				beside(crane), units.Mass(slant).FormatUp(units.Both), crane.Capacity.FormatDown(units.Both))
		}
	}
}

// aside says of a worst figure that side forces are in it.
func (h Hanging) aside() string {
	if h.Posed == nil || h.SideForces == nil {
		return ""
	}
	return ", wind and tag line in"
}
