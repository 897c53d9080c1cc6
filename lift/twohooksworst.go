package lift

import (
	"fmt"
	"math"
	"slices"

	"plumbhook/rig"
	"plumbhook/units"
)

// hookWorst is the worst of one hook so far.
type hookWorst struct {
	pull  float64 // N
	angle float64 // rad
	text  string
	lugs  []float64 // N, in the sling to each lug
	loose []string  // lugs that go slack beside the other, and when
}

// twoWorst is the worst of both hooks.
type twoWorst struct {
	head, tail hookWorst
	loose      *slack // a hook goes slack with hooks and lines as far out as stated
	looseText  string
}

// worst looks at all angles of the turn, all places of the CG, and hooks and
// lines as far out as stated.
func (t *onTwo) worst(start, end *handOver) (twoWorst, error) {
	w := twoWorst{head: hookWorst{lugs: make([]float64, len(t.head.lugs))}, tail: hookWorst{lugs: make([]float64, len(t.tail.lugs))}}
	angles := t.angles()
	for _, over := range []*handOver{start, end} {
		if over != nil {
			angles = append(angles, over.at)
		}
	}
	for _, c := range t.cases {
		past, all := c.slack.past(t), angles
		if c.slack.going != nil {
			all = append(slices.Clone(angles), c.slack.going.angle)
		}
		for _, angle := range all {
			if past(angle) {
				continue
			}
			over := start
			if !over.holds(angle) {
				over = end
			}
			inside := over.holds(angle) && math.Abs(angle-over.at) > 1e-12
			if err := t.take(&w, c, angle, over, inside); err != nil {
				return w, err
			}
		}
	}
	return w, nil
}

// take looks at one place of the CG at one angle.
func (t *onTwo) take(w *twoWorst, c oneCase, angle float64, over *handOver, handing bool) error {
	s, err := c.load.At(angle)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrProgram, err)
	}
	meant := fmt.Sprintf("%s, turned %s", c.name, units.Turn(angle).Format())
	depth := t.hangDepth(c, angle)
	if handing {
		head, tail := s.Head, s.Tail
		all, name := &head, "the tail hook let go"
		if over.keeps == "tail" {
			all, name = &tail, "the head hook let go"
		}
		*all = c.load.Weight / math.Cos(t.lean)
		t.takePull(&w.head, t.head, c, head, angle, meant+", "+name, depth, over.keeps == "head")
		t.takePull(&w.tail, t.tail, c, tail, angle, meant+", "+name, depth, over.keeps == "tail")
		return nil
	}
	if s.HeadSlack || s.TailSlack {
		text := meant + ", one hook slack"
		t.takePull(&w.head, t.head, c, s.Head, angle, text, depth, false)
		t.takePull(&w.tail, t.tail, c, s.Tail, angle, text, depth, false)
		return nil
	}
	out, loose, err := t.outAt(c.load, angle)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrProgram, err)
	}
	if loose && (w.loose == nil || math.Abs(angle-t.from) < math.Abs(w.loose.angle-t.from)) {
		w.loose, w.looseText = &slack{angle: angle}, c.name
	}
	t.takePull(&w.head, t.head, c, out.Head.Pull, angle, meant+leaning(angle, out.Head), depth, true)
	t.takePull(&w.tail, t.tail, c, out.Tail.Pull, angle, meant+leaning(angle, out.Tail), depth, true)
	return nil
}

// takePull keeps the worse of a hook and of each of its slings; paired: both of
// two lugs have to carry.
func (t *onTwo) takePull(w *hookWorst, e hookEnd, c oneCase, pull, angle float64, text string, depth float64, paired bool) {
	if pull > w.pull*(1+1e-9) {
		w.pull, w.angle, w.text = pull, angle, text+", at the sizing weight"
	}
	for i, newtons := range t.lugPulls(e, c, pull, depth) {
		w.lugs[i] = max(w.lugs[i], newtons)
		if paired && newtons < 0 && len(w.loose) == 0 {
			w.loose = append(w.loose, fmt.Sprintf("the sling to %s goes slack (%s): the CG is not between the lugs of the %s hook, and the load rolls", e.lugs[i].Name, text, e.name))
		}
	}
}

// outAt is the most of each line with hooks and lines as far out as stated, and
// whether one goes slack then.
func (t *onTwo) outAt(load rig.TwoHooks, angle float64) (rig.Out, bool, error) {
	if t.given.HookHeights != nil {
		out, err := load.Out(angle, *t.given.HookHeights, t.lean)
		return out, out.Slack, err
	}
	var worst rig.Out
	for _, by := range []float64{0, -hooksTilt, hooksTilt} {
		at := max(-2*math.Pi, min(2*math.Pi, angle+by))
		s, err := load.At(at)
		if err != nil {
			return worst, false, err
		}
		if s.HeadSlack || s.TailSlack {
			worst.Slack = true
			worst.Head = worse(worst.Head, rig.HookOut{Pull: s.Head, Angle: at})
			worst.Tail = worse(worst.Tail, rig.HookOut{Pull: s.Tail, Angle: at})
			continue
		}
		out, err := load.Out(at, 0, t.lean)
		if err != nil {
			return worst, false, err
		}
		worst.Slack = worst.Slack || out.Slack
		worst.Head, worst.Tail = worse(worst.Head, out.Head), worse(worst.Tail, out.Tail)
	}
	return worst, worst.Slack, nil
}

func worse(a, b rig.HookOut) rig.HookOut {
	if b.Pull > a.Pull*(1+1e-12) {
		return b
	}
	return a
}

// leaning says in words what is out in a case.
func leaning(meant float64, o rig.HookOut) string {
	text := ""
	if math.Abs(o.Angle-meant) > 1e-9 {
		text += fmt.Sprintf(", the hooks out of height so that it stands at %s", units.Turn(o.Angle).Format())
	}
	for _, line := range []struct {
		name string
		lean float64
	}{{"head", o.HeadLean}, {"tail", o.TailLean}} {
		if line.lean != 0 {
			side := "away from"
			if line.lean < 0 {
				side = "toward"
			}
			text += fmt.Sprintf(", the %s line %s out of plumb %s the other", line.name, units.Turn(math.Abs(line.lean)).Format(), side)
		}
	}
	return text
}
