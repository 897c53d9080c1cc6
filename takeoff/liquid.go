package takeoff

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
	"plumbhook/units"
)

// Liquid is what fills a space up to a level. Its amount is fixed; where it lies
// depends on what is up.
type Liquid struct {
	Inside            geom.Inside
	Pose              geom.Pose // from the frame of the inside to the load's axes
	Volume, Low, High float64   // m³: best, and the range of the amount
	Density           float64   // kg/m³
	Baffled           bool      // it can't run
	Measured          bool      // its level is measured: no other has to be thought of

	moments geom.Moments // as it lies as drawn, in the frame of the inside

	note  string     // what was taken of the space, for the basis
	drift []geom.Vec // m, in the frame of the inside, level as drawn: from the CG to where it is at other amounts of the range
}

// DipRow is one line of a dip-stick table.
type DipRow struct {
	Depth  float64 // m, above the lowest point of the inside
	Level  float64 // m, of the surface: z in the load's axes
	Fill   float64 // part of what the inside holds, 0 to 1
	Volume float64 // m³
	Mass   units.Mass
	CG     geom.Vec // m, load's axes
}

// upDrawn is what is up in a load as it is drawn.
var upDrawn = geom.Vec{0, 0, 1}

// own returns a direction of the load's axes in the frame of the inside.
func (l Liquid) own(up geom.Vec) geom.Vec { return l.Pose.Turn.Transpose().Mul3x1(up) }

// At returns, with the load hanging so that up (load's axes, any length) points
// up, the centre of gravity of the liquid in m, and ∫r rᵀ dA of its free surface
// about the surface's own centroid in m⁴, both in the load's axes. The surface is
// that of the best amount, baffled or not.
func (l Liquid) At(up geom.Vec) (cg geom.Vec, surface mgl64.Mat3, err error) {
	lies, err := l.Inside.AtVolume(l.Volume, l.own(up))
	if err != nil {
		return geom.Vec{}, mgl64.Mat3{}, err
	}
	turn := l.Pose.Turn
	return l.Pose.Point(lies.Moments.Centroid()), turn.Mul3(lies.Surface.Second).Mul3(turn.Transpose()), nil
}

// dipLevels is how many levels are looked at for the worst free surface. Between
// two of them that of a lying round tank, which is flat at its widest, grows by
// less than 1 in 1000.
const dipLevels = 64

// Level is the liquid at one of the levels that it may stand at.
type Level struct {
	Mass   float64  // kg
	CG     geom.Vec // m, load's axes
	Across float64  // ρ·I of the free surface in kg·m, about the axis asked for
	Any    float64  // and about the worst axis in the surface
}

// Levels returns the liquid, with the load hanging so that up points up, at
// levels from a twentieth to full (less soon pools at one side, and what it can
// do is bounded by its weight; a convention of this program), as a level that is not known may be anywhere when the
// load hangs; where it is measured, within the range of the amount. None where
// baffles hold the liquid. Across is a level direction of length 1 square to the
// axis that the load rolls about; zero: about the worst.
//
// Source: free-surface effect ρ·I, I = ∫(s·across)² dA about the surface's own
// centroid, textbooks of naval architecture (from memory).
func (l Liquid) Levels(up, across geom.Vec) ([]Level, error) {
	if l.Baffled {
		return nil, nil
	}
	low, high := leastRun*l.Inside.Volume(), l.Inside.Volume()
	if l.Measured {
		low, high = l.Low, l.High
	}
	var out []Level
	for i := range dipLevels + 1 {
		volume := low + (high-low)*float64(i)/dipLevels
		lies, err := l.Inside.AtVolume(volume, l.own(up))
		if err != nil {
			return nil, err
		}
		one := Level{Mass: volume * l.Density, CG: l.Pose.Point(lies.Moments.Centroid()),
			Across: l.Density * MomentAcross(lies.Surface.Second, l.own(across)), Any: l.Density * greatestMoment(lies.Surface.Second)}
		out = append(out, one)
	}
	return out, nil
}

// leastRun is the part of a full inside below which liquid is not looked at as one
// that runs.
const leastRun = 0.05

// MomentAcross returns the second moment ∫(s·across)² dA of a flat figure from its
// tensor ∫s sᵀ dA; the greatest one where across is zero.
func MomentAcross(s mgl64.Mat3, across geom.Vec) float64 {
	if across == (geom.Vec{}) {
		return greatestMoment(s)
	}
	return across.Dot(s.Mul3x1(across))
}

// greatestMoment returns the greatest second moment of a flat figure from its
// tensor S = ∫r rᵀ dA about its centroid. Of the three principal values one, square
// to the figure, is zero, so that with t = tr S and f = ΣS² = λ₁² + λ₂² the greater
// of the two others is (t + √(2f − t²))/2. Source: derived here.
func greatestMoment(s mgl64.Mat3) float64 {
	t, f := s.Trace(), 0.0
	for _, x := range s {
		f += x * x
	}
	return (t + math.Sqrt(max(0, 2*f-t*t))) / 2
}

// Liquids returns the contents of each copy of the part where it stands; none for
// a part that is no contents.
func (p Part) Liquids() []Liquid {
	if p.Liquid == nil {
		return nil
	}
	var out []Liquid
	for _, c := range p.Places {
		one := *p.Liquid
		one.Pose = c.After(one.Pose)
		out = append(out, one)
	}
	return out
}

// Dip returns the dip-stick table of a part's contents, of the first copy, level
// as drawn: from empty to full in so many steps of depth.
func (p Part) Dip(steps int) ([]DipRow, error) {
	switch {
	case p.Liquid == nil:
		return nil, fmt.Errorf("%q is no contents of a part: only contents have a dip-stick table", p.Name)
	case steps < 1 || steps > mostSteps:
		return nil, fmt.Errorf("a dip-stick table of %d steps: ask for 1 to %d", steps, mostSteps)
	}
	l := *p.Liquid
	up := l.own(upDrawn)
	drop, err := l.Inside.AtVolume(leastFill*l.Inside.Volume(), up) // where the CG begins
	if err != nil {
		return nil, err
	}
	var rows []DipRow
	for _, lies := range l.Inside.DipTable(up, steps) {
		rows = append(rows, l.row(lies))
	}
	rows[0].CG = l.Pose.Point(drop.Moments.Centroid())
	return rows, nil
}

// mostSteps bounds a dip-stick table.
const mostSteps = 10_000

// row returns the line of a table for liquid at a level.
func (l Liquid) row(lies geom.Liquid) DipRow {
	return DipRow{
		Depth:  lies.Depth,
		Level:  lies.Level + l.Pose.Move[2],
		Fill:   lies.Moments.Volume / l.Inside.Volume(),
		Volume: lies.Moments.Volume,
		Mass:   units.Mass(lies.Moments.Volume * l.Density),
		CG:     l.Pose.Point(lies.Moments.Centroid()),
	}
}

// contentsRange returns how far the centre of gravity of a part's contents, of
// whichever copy, may lie off its place either way along each axis, in m, as the
// amount is anywhere in its range. Zero for a part that is no contents.
func (p Part) contentsRange() geom.Vec {
	var half geom.Vec
	if p.Liquid == nil {
		return half
	}
	for _, c := range p.Places {
		for _, d := range p.Liquid.drift {
			off := c.Direction(p.Liquid.Pose.Direction(d))
			for i := range half {
				half[i] = max(half[i], math.Abs(off[i]))
			}
		}
	}
	return half
}

// settle puts the liquid where it lies with up (frame of the inside) up, and
// returns its centre of gravity there in that frame.
func (l *Liquid) settle(up geom.Vec) (geom.Vec, error) {
	lies, err := l.Inside.AtVolume(l.Volume, up)
	if err != nil {
		return geom.Vec{}, err
	}
	cg := lies.Moments.Centroid()
	l.moments, l.drift = lies.Moments, nil
	const steps = 8
	for i := range steps + 1 {
		at, err := l.Inside.AtVolume(l.Low+(l.High-l.Low)*float64(i)/steps, up)
		if err != nil {
			return geom.Vec{}, err
		}
		l.drift = append(l.drift, at.Moments.Centroid().Sub(cg))
	}
	return cg, nil
}

// leveled returns contents as they lie in their copies: each holds as much as the
// first, and copies in which up is not the same way are parts of their own.
func (p Part) leveled() ([]Part, error) {
	if p.Liquid == nil {
		return []Part{p}, nil
	}
	var out []Part
	var ups []geom.Vec // of each part, in the first copy
	for i, place := range p.Places {
		up := place.Turn.Transpose().Mul3x1(upDrawn)
		at := 0
		for at < len(ups) && ups[at].Sub(up).Len() > sameUp {
			at++
		}
		if at < len(ups) {
			out[at].Places = append(out[at].Places, place)
			continue
		}
		one, err := p.lying(up)
		if err != nil {
			return nil, err
		}
		if one.Places = []geom.Pose{place}; i > 0 {
			one.Name = fmt.Sprintf("%s, copy %d", p.Name, i+1)
		}
		out, ups = append(out, one), append(ups, up)
	}
	for i := range out {
		out[i].Count = len(out[i].Places)
	}
	return out, nil
}

// sameUp is how near two directions of length 1 are the same.
const sameUp = 1e-9

// lying returns contents with their level square to up (load's axes, first copy).
func (p Part) lying(up geom.Vec) (Part, error) {
	liquid := *p.Liquid
	liquid.Pose = p.Pose
	cg, err := liquid.settle(liquid.own(up))
	if err != nil {
		return Part{}, err
	}
	p.Liquid, p.GivenAt = &liquid, p.Pose.Point(cg)
	return p, nil
}
