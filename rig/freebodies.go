package rig

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// freeBodies is the load, and the bars over it, swinging as rigid bodies with six
// freedoms each on one-sided springs from a hook that stays where it is. It shares no
// code and no idea with the solvers, which move the hook over a load held still, or
// follow the energy by its derivatives: here are forces, moments and time.
//
// Lengths are in parts of the size s, forces in parts of the weight W, the hook is the
// origin, z is up. Every body has the same mass and, about each axis, that mass times
// s², whatever it weighs: whether a balance holds does not hang on the masses, and a
// turn counts as in [TreePose.Least].
type freeBodies struct {
	weight []float64
	arms   [][]geom.Vec // of each body, from its CG to its points, in drawn axes
	links  []Link
	length []float64 // of the springs with nothing on them
	give   float64   // as in giveWays
	k      float64   // W/s
	at     []bodyAt  // as hung
}

// bodyAt is where a body is, and how it moves.
type bodyAt struct {
	cg, speed geom.Vec
	turn      mgl64.Mat3
	spin      geom.Vec
}

// giveWays are the springs that are tried, in parts of the greatest tension, and at
// least the weight, over the size. Legs nearly in one plane, or a CG high above picks
// close together, hold by their stiffness alone: on the first, which give by a
// five-hundredth of the size, such a balance may go away though on legs that do not
// stretch it holds; on the second, in finer steps of time, it does not.
var giveWays = [2]float64{500, 50_000}

// goesAway says that a balance said to be stable does not stay when it is kicked, on
// neither of the springs.
func (t Tree) goesAway(p TreePose) bool {
	for _, springs := range giveWays {
		if t.onSprings(p, springs).swing(mayMove) <= mayMove {
			return false
		}
	}
	return true
}

// mayMove, in parts of the size, is how far a point may rise or fall when a load that
// is said to be stable is kicked: see swing.
const mayMove = 0.02

// onSprings is the tree as free bodies on springs, so cut that it hangs on them as p
// says.
func (t Tree) onSprings(p TreePose, springs float64) *freeBodies {
	f := &freeBodies{links: t.Links, give: springs}
	size, whole := t.size(), t.Weight()
	most := whole
	for _, l := range p.Links {
		most = max(most, l.Tension)
	}
	f.k = springs * most / whole
	for i, l := range p.Links {
		f.length = append(f.length, t.Links[i].Length/size-l.Tension/whole/f.k)
	}
	for i, b := range t.Bodies {
		arms := make([]geom.Vec, len(b.Points))
		for k, at := range b.Points {
			arms[k] = at.Sub(b.CG).Mul(1 / size)
		}
		f.arms, f.weight = append(f.arms, arms), append(f.weight, b.Weight/whole)
		f.at = append(f.at, bodyAt{cg: p.Bodies[i].CG.Sub(t.Hook).Mul(1 / size), turn: p.Bodies[i].Place.Turn})
	}
	return f
}

// swing kicks every body, each another way, by up to a millionth of the size and a
// millionth of a rad (a tenth of it on springs a hundred times as stiff), lets all go,
// and returns by how much some point is then higher or lower than it hung, at the most,
// in parts of the size: as soon as it is more than the limit, or else once a balance
// would have left it whose resistance to the easiest movement is −W/(50·s) or less:
// e¹⁴ times as far. A turn of all about the plumb line of the hook, which nothing
// holds, is none.
//
// A balance that holds, its resistance r more than W/(10³·s), cannot go away by the
// limit of a fiftieth: the kick stretches a spring by no more than 6·10⁻⁶ of the size
// (1.23 by the move and 1.40 by the turn of each of two bodies), so that n springs of
// k = 500·W/s hold ½·n·k·(6·10⁻⁶·s)², by which it could go no further than
// 6·10⁻⁶·s·√(n·k/r): 0.013 of the size for n = 10 (derived here). Where a leg pulls
// with more than W the springs are stiffer, and the bound is √(T/W) times as wide.
//
// Source: the semi-implicit method of Euler, by which springs neither gain nor lose
// energy on the whole: E. Hairer, C. Lubich, G. Wanner, "Geometric Numerical
// Integration", 2nd ed., I.1.2 (from memory).
func (f *freeBodies) swing(limit float64) float64 {
	const long = 105 // in √(mass·s/W): e to the 105/√50 = 14.8
	kick := 1e-6 * math.Sqrt(giveWays[0]/f.give)
	now := make([]bodyAt, len(f.at))
	copy(now, f.at)
	ways := [6]float64{1, -0.6, 0.4, -0.8, 0.9, 0.7}
	for b := range now {
		way := func(i int) float64 { return kick * ways[(i+b)%6] }
		now[b].cg = now[b].cg.Add(geom.Vec{way(0), way(1), way(2)})
		now[b].turn = turnBy(geom.Vec{way(3), way(4), way(5)}).Mul3(now[b].turn)
	}
	// The method wants less than 2 over the frequency; where springs go slack and taut
	// again it gains energy from steps that are nearly so long.
	step := 1 / f.quickest()
	if f.give > giveWays[0] {
		step /= 2
	}
	off := 0.0
	for i := range int(long / step) {
		f.move(now, step)
		if i%32 == 0 {
			if off = max(off, f.higher(now)); off > limit {
				break
			}
		}
	}
	return off
}

// quickest is more than the frequency of every way to swing, in rad per unit of time:
// its square is no more than the sum of what each spring gives to the bodies at its
// ends, k for the move and k·arm² for the turn (the trace of the stiffness).
func (f *freeBodies) quickest() float64 {
	sum := 0.0
	for _, l := range f.links {
		for _, e := range []End{l.From, l.To} {
			if e.Body != OnHook {
				sum += f.k * (1 + f.arms[e.Body][e.Point].LenSqr())
			}
		}
	}
	return math.Sqrt(sum)
}

// move lets a little time go by.
func (f *freeBodies) move(now []bodyAt, step float64) {
	for b := range now {
		now[b].speed[2] -= step * f.weight[b]
	}
	for i, l := range f.links {
		from, arm := f.end(now, l.From)
		to, under := f.end(now, l.To)
		way := from.Sub(to)
		length := way.Len()
		if length <= f.length[i] {
			continue // slack
		}
		pull := way.Mul(step * f.k * (length - f.length[i]) / length)
		if l.From.Body != OnHook {
			b := &now[l.From.Body]
			b.speed, b.spin = b.speed.Sub(pull), b.spin.Sub(arm.Cross(pull))
		}
		if l.To.Body != OnHook {
			b := &now[l.To.Body]
			b.speed, b.spin = b.speed.Add(pull), b.spin.Add(under.Cross(pull))
		}
	}
	for b := range now {
		now[b].cg = now[b].cg.Add(now[b].speed.Mul(step))
		now[b].turn = turnBy(now[b].spin.Mul(step)).Mul3(now[b].turn)
	}
}

// end is where a leg ends, and the arm to it from the body's CG.
func (f *freeBodies) end(now []bodyAt, e End) (at, arm geom.Vec) {
	if e.Body == OnHook {
		return
	}
	arm = now[e.Body].turn.Mul3x1(f.arms[e.Body][e.Point])
	return now[e.Body].cg.Add(arm), arm
}

// higher is the most by which a point or CG is higher or lower than as hung.
func (f *freeBodies) higher(now []bodyAt) float64 {
	most := 0.0
	for b, arms := range f.arms {
		rise := now[b].cg[2] - f.at[b].cg[2]
		most = max(most, math.Abs(rise))
		for _, arm := range arms {
			most = max(most, math.Abs(rise+now[b].turn.Mul3x1(arm)[2]-f.at[b].turn.Mul3x1(arm)[2]))
		}
	}
	return most
}

// turnBy is a turn by |v| rad about v.
func turnBy(v geom.Vec) mgl64.Mat3 {
	angle := v.Len()
	if angle == 0 {
		return mgl64.Ident3()
	}
	return mgl64.HomogRotate3D(angle, v.Mul(1/angle)).Mat3()
}
