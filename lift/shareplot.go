package lift

import (
	"fmt"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/units"
)

// overTop is how far above the greatest pull the limit of a crane may lie and
// still be drawn as a line: farther off it would flatten the curves.
const overTop = 1.25

// shareOn is a share plot while it is made.
type shareOn struct {
	plot
	two    *TwoHooks
	whole  float64 // N, of the planning weight
	show   units.Show
	beyond []string // limits that are off the top
}

// sharePlot draws what part of the weight each of two hooks has, against the
// angle turned; where a hook goes slack; the worst of each and what its crane may
// have. None for a load that is not turned.
func sharePlot(legs Hanging, show units.Show) []Drawing {
	two := legs.TwoHooks
	if two == nil || len(two.Curve) < 2 || len(two.fine) < 2 {
		return nil
	}
	s := shareOn{two: two, whole: float64(units.Mass(legs.PlanningKg).Weight()), show: show}
	s.title, s.turns = "Share of each hook against the angle turned", true
	s.across, s.upward = "turned from the attitude drawn, degrees", "share of the planning weight, %"
	s.right = &otherUnit{per: 100 * 1000 / s.whole, name: "kN"}
	if show == units.US {
		s.right = &otherUnit{per: 100 * float64(units.PoundForce) / s.whole, name: "lbf"}
	}
	head, tail := curve{name: "head hook"}, curve{name: "tail hook"}
	for _, c := range two.fine {
		head.at = append(head.at, mgl64.Vec2{c.TurnedDeg, s.percent(c.HeadKN)})
		tail.at = append(tail.at, mgl64.Vec2{c.TurnedDeg, s.percent(c.TailKN)})
	}
	s.curves = []curve{head, tail}
	first, last := two.Curve[0], two.Curve[len(two.Curve)-1]
	for _, c := range []HookShare{first, last} {
		s.words += fmt.Sprintf("Turned %.1f° the head hook has %.1f %% and the tail hook %.1f %% of the planning weight. ", c.TurnedDeg, s.percent(c.HeadKN), s.percent(c.TailKN))
	}
	s.hook("head", "diamond", two.Head)
	s.hook("tail", "square", two.Tail)
	s.events()
	s.limits()
	return []Drawing{s.draw()}
}

// percent is a pull in kN as a part of the planning weight.
func (s *shareOn) percent(kn float64) float64 { return kn * 1000 / s.whole * 100 }

// hook marks the worst of one hook.
func (s *shareOn) hook(name, shape string, h Hook) {
	worst := units.Force(h.WorstKN * 1000).FormatUp(s.show)
	s.spots = append(s.spots, spot{at: mgl64.Vec2{h.WorstAtDeg, s.percent(h.WorstKN)}, shape: shape,
		lines: []string{name + " hook at worst", fmt.Sprintf("%s, at %.1f°", worst, h.WorstAtDeg)}})
	s.words += fmt.Sprintf("At worst the %s hook has %s, turned %.1f°. ", name, worst, h.WorstAtDeg)
}

// events marks where a hook takes up or goes slack, and from where on it is
// handed over.
func (s *shareOn) events() {
	for _, e := range s.two.Events {
		if !strings.HasSuffix(e.Kind, "hook slack") {
			continue
		}
		lines := []string{fmt.Sprintf("%s at %.1f°", e.Kind, e.TurnedDeg)}
		if e.CG != "best CG" {
			lines = append(lines, "with the CG where it is soonest")
		}
		if e.Through {
			lines = append(lines, "FALLS THROUGH")
		}
		s.rules = append(s.rules, rule{at: e.TurnedDeg, of: ofPlumb, lines: lines})
		s.words += fmt.Sprintf("At %.1f° %s. ", e.TurnedDeg, e.Text)
	}
	for _, deg := range s.two.HandOverDeg {
		s.rules = append(s.rules, rule{at: deg, of: ofLimit, lines: []string{fmt.Sprintf("hand-over, %.1f°", deg)}})
		s.words += fmt.Sprintf("One hook is let go or takes up beyond %.1f°. ", deg)
	}
}

// limits draws what each hook may have of its crane, with nothing taken off for
// slings.
func (s *shareOn) limits() {
	most := 0.0
	for _, q := range s.shown() {
		most = max(most, q[1])
	}
	for _, h := range []struct {
		name string
		*HookCrane
	}{{"head", s.two.Head.Crane}, {"tail", s.two.Tail.Crane}} {
		if h.HookCrane == nil {
			continue
		}
		pull := h.most()
		text := units.Force(pull).FormatDown(s.show)
		s.words += fmt.Sprintf("The crane of the %s hook may have %s, its block off. ", h.name, text)
		if at := s.percent(pull / 1000); at > overTop*most {
			s.beyond = append(s.beyond, h.name+" "+text)
		} else {
			s.rules = append(s.rules, rule{level: true, at: at, of: ofLimit, lines: []string{"limit of the " + h.name + " crane, block off: " + text}})
		}
	}
	if len(s.beyond) > 0 {
		s.key = append(s.key, keyed{text: "limit of the crane, block off, above this plot: " + strings.Join(s.beyond, ", ")})
	}
}

// most is what load and rigging may pull on the hook, N: of what the crane lifts
// or of its share, with the block off.
func (c *HookCrane) most() float64 {
	part := 1.0
	if c.ShareLimit > 0 {
		part = min(part, c.ShareLimit)
	}
	return float64(units.Mass(max(0, part*c.CapacityKg-c.BlockKg)).Weight())
}
