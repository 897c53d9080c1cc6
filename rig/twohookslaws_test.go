package rig

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/geom"
)

// drawTwoHooks draws a load some metres long with its CG anywhere, also
// outside the picks, above and beside them.
func drawTwoHooks(t *rapid.T) TwoHooks {
	at := func(name string, span float64) geom.Vec {
		var v geom.Vec
		for i := range v {
			v[i] = math.Round(rapid.Float64Range(-span, span).Draw(t, name)*1000) / 1000
		}
		return v
	}
	load := TwoHooks{Weight: rapid.Float64Range(1e3, 1e6).Draw(t, "weight"), CG: at("cg", 4), Head: at("head", 10), Tail: at("tail", 10)}
	if math.Hypot(load.Head[0]-load.Tail[0], load.Head[1]-load.Tail[1]) < 0.1 {
		t.Skip("as good as plumb over each other")
	}
	return load
}

func drawTurn(t *rapid.T, name string) float64 {
	return rapid.Float64Range(-math.Pi, math.Pi).Draw(t, name)
}

// axisOf is the axis that turns the head up, with no look at the code's own.
func axisOf(load TwoHooks) geom.Vec {
	d := load.Head.Sub(load.Tail)
	n := math.Hypot(d[0], d[1])
	return geom.Vec{d[1] / n, -d[0] / n, 0}
}

func TestTwoHooksBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load := drawTwoHooks(t)
		rolled, _, err := load.Rolled()
		require.NoError(t, err)
		angle := drawTurn(t, "angle")
		s, err := rolled.At(angle)
		require.NoError(t, err)
		if math.Abs(s.Head+s.Tail-load.Weight) > 1e-9*load.Weight || s.Head < 0 || s.Tail < 0 {
			t.Fatalf("shares %v and %v N of %v N", s.Head, s.Tail, load.Weight)
		}
		if s.HeadSlack != (s.Head == 0) || s.TailSlack != (s.Tail == 0) {
			t.Fatalf("slack is not nothing carried: %+v", s)
		}
		held, err := load.At(angle) // held against rolling: about the axis alone
		require.NoError(t, err)
		if s.HeadSlack || s.TailSlack || held.HeadSlack || held.TailSlack {
			return // it does not stay in this attitude: nothing balances
		}
		moment := func(of TwoHooks, s Share) geom.Vec {
			turn := mgl64.QuatRotate(angle, axisOf(of))
			up := func(f float64) geom.Vec { return geom.Vec{0, 0, f} }
			arm := func(p geom.Vec) geom.Vec { return turn.Rotate(p.Sub(of.CG)) }
			return arm(of.Head).Cross(up(s.Head)).Add(arm(of.Tail).Cross(up(s.Tail)))
		}
		if m := moment(rolled, s); m.Len() > 1e-9*load.Weight*20 {
			t.Fatalf("moment left over %v N·m", m)
		}
		if m := moment(load, held).Dot(axisOf(load)); math.Abs(m) > 1e-9*load.Weight*20 {
			t.Fatalf("moment left over about the axis %v N·m", m)
		}
	})
}

func TestTwoHooksMirroredTurnedAndMoved(t *testing.T) {
	same := func(t *rapid.T, what string, a, b float64) {
		if math.Abs(a-b) > 1e-6*(1+math.Abs(a)) {
			t.Fatalf("%s: %v, not %v", what, b, a)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		load := drawTwoHooks(t)
		angle := drawTurn(t, "angle")
		s, err := load.At(angle)
		require.NoError(t, err)
		if min(math.Abs(s.HeadLever), math.Abs(s.TailLever)) < 1e-6 {
			t.Skip("on the edge of slack")
		}

		swapped := load
		swapped.Head, swapped.Tail = load.Tail, load.Head
		o, err := swapped.At(-angle)
		require.NoError(t, err)
		same(t, "hooks swapped", s.Head, o.Tail)
		same(t, "hooks swapped, rise", s.Rise, -o.Rise)
		same(t, "hooks swapped, roll margin", s.RollMargin, o.RollMargin)

		turn := mgl64.QuatRotate(drawTurn(t, "heading"), geom.Vec{0, 0, 1})
		place := func(p geom.Vec) geom.Vec {
			p[0] = -p[0] // in a mirror
			return turn.Rotate(p).Add(geom.Vec{3, -2, 7})
		}
		moved := load
		moved.CG, moved.Head, moved.Tail = place(load.CG), place(load.Head), place(load.Tail)
		o, err = moved.At(angle)
		require.NoError(t, err)
		same(t, "moved", s.Head, o.Head)
		same(t, "moved, lever", s.HeadLever, o.HeadLever)
		same(t, "moved, roll margin", s.RollMargin, o.RollMargin)
		if s.Through != o.Through {
			t.Fatalf("falls through in one place and not in another")
		}
	})
}

// Every change on a fine curve has its event between the same two steps, and
// no step has more than the greatest share that the events tell.
func TestTwoHooksEventsAgainstTheCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load := drawTwoHooks(t)
		from, to := drawTurn(t, "from"), drawTurn(t, "to")
		if math.Abs(to-from) < 1e-3 {
			t.Skip("no turn")
		}
		curve, err := load.Curve(from, to, 400)
		require.NoError(t, err)
		if off := math.Abs(curve[0].RollMargin); off > 0 && off < 1e-6 {
			t.Skip("slack only within a millionth of plumb")
		}
		events, err := load.Limits(from, to)
		require.NoError(t, err)
		between := func(a, b Share, kinds ...Turning) bool {
			for _, e := range events {
				low, high := min(a.Angle, b.Angle)-1e-9, max(a.Angle, b.Angle)+1e-9
				for _, k := range kinds {
					if e.Kind == k && e.Angle >= low && e.Angle <= high {
						return true
					}
				}
			}
			return false
		}
		for i := 1; i < len(curve); i++ {
			a, b := curve[i-1], curve[i]
			if a.HeadSlack != b.HeadSlack && !between(a, b, HeadSlack, PicksPlumb) {
				t.Fatalf("no event where the head hook goes slack at %v to %v: %+v", a.Angle, b.Angle, events)
			}
			if a.TailSlack != b.TailSlack && !between(a, b, TailSlack, PicksPlumb) {
				t.Fatalf("no event where the tail hook goes slack at %v to %v: %+v", a.Angle, b.Angle, events)
			}
			if (a.Head > a.Tail) != (b.Head > b.Tail) && !between(a, b, EqualShare, PicksPlumb) && !between(a, b, HeadSlack, TailSlack) {
				t.Fatalf("no event where the shares are equal at %v to %v: %+v", a.Angle, b.Angle, events)
			}
		}
		last := math.Inf(-1)
		for _, e := range events {
			if way := math.Abs(e.Angle - from); way < last {
				t.Fatalf("events out of order: %+v", events)
			} else {
				last = way
			}
			switch e.Kind {
			case MostHead, MostTail:
				for _, s := range curve {
					if e.Kind == MostHead && s.Head > e.Head*(1+1e-9) || e.Kind == MostTail && s.Tail > e.Tail*(1+1e-9) {
						t.Fatalf("more than the most: %+v at %+v", s, e)
					}
				}
			case EqualShare:
				if math.Abs(e.Head-e.Tail) > 1e-6*load.Weight {
					t.Fatalf("not equal: %+v", e)
				}
			case HeadSlack, TailSlack:
				if e.HeadLever+e.TailLever < 0.01 {
					continue // the picks may be plumb before the next look
				}
				onward, err := load.At(e.Angle + math.Copysign(1e-5, to-from))
				require.NoError(t, err)
				slack := onward.HeadSlack
				if e.Kind == TailSlack {
					slack = onward.TailSlack
				}
				if slack == e.TakesUp {
					t.Fatalf("takes up is %v, but turned on slack is %v: %+v", e.TakesUp, slack, e)
				}
			}
		}
	})
}

// Second method: each hook a spring on a trolley, so that its line stays
// plumb; of all attitudes, pitched and rolled, the one of least energy
//
//	Σ ½k·max(0, stretch)² + W·height of the CG
//
// has the shares that the levers give in that attitude, rolled by as much.
func TestSharesAreThoseOfLeastEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		load := TwoHooks{Weight: 1000, Head: geom.Vec{10, 0, number("rise", -2, 2)}, Tail: geom.Vec{},
			CG: geom.Vec{number("x", 2, 8), number("y", -1.5, 1.5), number("z", -5, -3)}}
		rolled, by, err := load.Rolled()
		require.NoError(t, err)
		asked := number("angle", -0.5, 0.5)
		if s, err := rolled.At(asked); err != nil || min(s.Head, s.Tail) < 150 {
			t.Skip("as good as slack")
		}
		const k = 2000.0 // N/m: some decimetres of stretch, which pitches the load
		axis := axisOf(load)
		up := func(pitch, roll float64) geom.Vec {
			level := mgl64.QuatRotate(-pitch, axis).Rotate(geom.Vec{0, 0, 1})
			line, _ := unit(load.Head)
			return mgl64.QuatRotate(roll, line).Rotate(level)
		}
		hookRise := load.Head.Dot(up(asked, 0)) // of the head hook over the tail hook, lines alike
		springs := func(u geom.Vec) (head, tail, energy float64) {
			// Stretches add up to W/k, or one spring has it all.
			differ := hookRise - load.Head.Dot(u) // head stretch less tail stretch
			stretchHead := (load.Weight/k + differ) / 2
			stretchHead = max(0, min(load.Weight/k, stretchHead))
			stretchTail := load.Weight/k - stretchHead
			tailHeight := -stretchTail
			if stretchTail == 0 {
				tailHeight = hookRise - load.Head.Dot(u) - stretchHead
			}
			return k * stretchHead, k * stretchTail,
				k/2*(stretchHead*stretchHead+stretchTail*stretchTail) + load.Weight*(tailHeight+load.CG.Dot(u))
		}
		pitch, roll := asked, 0.0
		for range 30 {
			pitch = golden(pitch-0.3, pitch+0.3, func(a float64) float64 { _, _, e := springs(up(a, roll)); return e })
			roll = golden(roll-0.8, roll+0.8, func(a float64) float64 { _, _, e := springs(up(pitch, a)); return e })
		}
		head, tail, _ := springs(up(pitch, roll))
		s, err := rolled.At(pitch)
		require.NoError(t, err)
		if math.Abs(head-s.Head) > 0.01 || math.Abs(tail-s.Tail) > 0.01 {
			t.Fatalf("springs carry %v and %v N, levers give %v and %v N", head, tail, s.Head, s.Tail)
		}
		if math.Abs(math.Abs(roll)-by) > 1e-5 {
			t.Fatalf("least energy rolled by %v rad, not %v rad", math.Abs(roll), by)
		}
	})
}

// Rolled a little by ε about the line of picks, which stands ψ from level,
// the CG rises by ½·margin·cos ψ·ε².
func TestRollMarginIsHowTheCGRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load, _, err := drawTwoHooks(t).Rolled()
		require.NoError(t, err)
		angle := drawTurn(t, "angle")
		s, err := load.At(angle)
		require.NoError(t, err)
		line, _ := unit(load.Head.Sub(load.Tail))
		arm := load.CG.Sub(load.Tail)
		const small = 1e-4
		rolled := func(by float64) float64 { return mgl64.QuatRotate(by, line).Rotate(arm).Dot(s.Up) }
		rise := (rolled(small) - 2*arm.Dot(s.Up) + rolled(-small)) / (small * small)
		level := line.Sub(s.Up.Mul(line.Dot(s.Up))).Len()
		if math.Abs(rise-s.RollMargin*level) > 1e-5 {
			t.Fatalf("rises as %v m, not %v m", rise, s.RollMargin*level)
		}
	})
}

// The worst of what is out balances forces and moments with lines as they
// lean, and no smaller error makes it worse.
func TestOutIsTheWorst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load := drawTwoHooks(t)
		angle := drawTurn(t, "angle")
		height, plumb := rapid.Float64Range(0, 1).Draw(t, "height"), rapid.Float64Range(0, 0.1).Draw(t, "plumb")
		out, err := load.Out(angle, height, plumb)
		if err != nil {
			t.Skip(err)
		}
		if out.Slack {
			if max(out.Head.Pull, out.Tail.Pull) < load.Weight {
				t.Fatalf("slack, but no hook has it all: %+v", out)
			}
			return
		}
		drawn, err := load.At(angle)
		require.NoError(t, err)
		axis := axisOf(load)
		side := math.Copysign(1, mgl64.QuatRotate(angle, axis).Rotate(load.Head.Sub(load.Tail)).Dot(geom.Vec{0, 0, 1}.Cross(axis)))
		outward := geom.Vec{0, 0, 1}.Cross(axis).Mul(side) // from the tail hook to the head hook
		pulls := func(turned, headLean, tailLean float64) (head, tail float64) {
			turn := mgl64.QuatRotate(turned, axis)
			line := func(lean float64) geom.Vec {
				return outward.Mul(math.Sin(lean)).Add(geom.Vec{0, 0, math.Cos(lean)})
			}
			h, l := line(headLean), line(-tailLean)
			mh := turn.Rotate(load.Head.Sub(load.CG)).Cross(h).Dot(axis)
			ml := turn.Rotate(load.Tail.Sub(load.CG)).Cross(l).Dot(axis)
			det := h[2]*ml - l[2]*mh // head·h_z + tail·l_z = W, head·mh + tail·ml = 0
			return load.Weight * ml / det, -load.Weight * mh / det
		}
		head, _ := pulls(out.Head.Angle, out.Head.HeadLean, out.Head.TailLean)
		_, tail := pulls(out.Tail.Angle, out.Tail.HeadLean, out.Tail.TailLean)
		if math.Abs(head-out.Head.Pull) > 1e-6*load.Weight || math.Abs(tail-out.Tail.Pull) > 1e-6*load.Weight {
			t.Fatalf("pulls %v and %v N, by balance %v and %v N", out.Head.Pull, out.Tail.Pull, head, tail)
		}
		part := func(name string) float64 { return rapid.Float64Range(-1, 1).Draw(t, name) }
		turned := angle + (part("turned")+1)/2*(out.Head.Angle-angle)
		if rise := load.rise(turned) - drawn.Rise; math.Abs(rise) > height*(1+1e-9)+1e-9 {
			t.Fatalf("turned by more than the height error: rise changes by %v m of %v m", rise, height)
		}
		head, tail = pulls(turned, plumb*part("head lean"), plumb*part("tail lean"))
		if head > out.Head.Pull+1e-9*load.Weight || tail > out.Tail.Pull+1e-9*load.Weight {
			t.Fatalf("smaller errors give %v and %v N, more than %+v", head, tail, out)
		}
	})
}

// rise is how much higher the head pick is than the tail pick once turned, m.
func (t TwoHooks) rise(angle float64) float64 {
	return mgl64.QuatRotate(angle, axisOf(t)).Rotate(t.Head.Sub(t.Tail))[2]
}
