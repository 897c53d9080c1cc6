package lift

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Drawing is one view of the load with its rigging, to scale: a list of marks on
// paper, in millimetres from the lower left corner, x to the right and y up. All
// outputs draw the same list.
type Drawing struct {
	View  string  `json:"view"` // plan, front, side or isometric
	Hung  bool    `json:"hung"` // as it hangs; false: as drawn
	Title string  `json:"title"`
	Alt   string  `json:"alt"` // the drawing in words, for those who can't see it
	Wide  float64 `json:"wide_mm"`
	High  float64 `json:"high_mm"`
	Scale float64 `json:"scale"` // 1 : scale
	Marks []Mark  `json:"marks"`
}

// What a mark is of, by which outputs choose stroke and fill. None differs from
// another by colour alone.
const (
	ofPart   = "part"
	ofHole   = "hole"
	ofLeg    = "leg"
	ofPick   = "pick"
	ofHook   = "hook"
	ofCG     = "cg"
	ofRegion = "region"
	ofPlumb  = "plumb"
	ofSize   = "size"
	ofScale  = "scale"
	ofLabel  = "label"
)

// Mark is one thing on a drawing.
type Mark struct {
	Kind   string       `json:"kind"` // line: through all places; area: closed and hatched; circle; text
	Of     string       `json:"of"`
	At     []mgl64.Vec2 `json:"at_mm"`
	Radius float64      `json:"radius_mm,omitempty"`
	Text   string       `json:"text,omitempty"`
	Size   float64      `json:"size_mm,omitempty"` // height of the letters
	Align  string       `json:"align,omitempty"`   // left, middle or right of its place
	Part   string       `json:"part,omitempty"`    // the part or the leg that it belongs to
	Arrows bool         `json:"arrows,omitempty"`  // at both ends of a line
}

// The paper of a drawing, mm.
const (
	paperWide = 180.0
	paperHigh = 150.0
	margin    = 22.0 // room for sizes and labels on each side
	letters   = 2.6
	fine      = 1500 // cells across the view in which hidden edges are looked for
)

// views of the drawings, in the order in which they are shown.
var views = []struct {
	name, title string
	view        geom.View
}{
	{"plan", "Plan, from above", geom.FromAbove},
	{"front", "Elevation, from the front (looking along +y)", geom.FromFront},
	{"side", "Elevation, from the right (looking along −x)", geom.FromRight},
	{"isometric", "Isometric view", geom.Isometric},
}

// scene is all that is drawn, in the load's axes, metres.
type scene struct {
	parts  []geom.Mesh // solids first, then the outlines of holes
	names  []string    // of the parts, one for each mesh
	solids int
	weight Weight
	legs   Hanging
	up     geom.Vec // where up is as the load hangs
	show   units.Show
}

// chordPart is how far the meshes that are drawn may be off a round surface, in
// parts of the load's size: less than a line is wide.
const chordPart = 1.0 / 2000

// drawings makes the drawings of a load: as drawn, and as it hangs where that
// differs by enough to be seen.
func drawings(l *takeoff.Load, w Weight, legs Hanging, show units.Show) []Drawing {
	s := newScene(l, w, legs, show)
	if len(s.parts) == 0 {
		return nil // bare weights have no shape
	}
	var out []Drawing
	for _, v := range views {
		out = append(out, s.draw(v.name, v.title+", as drawn", v.view, false))
	}
	if legs.Solved && legs.Posed.TiltDeg > 0.05 {
		for _, v := range views {
			out = append(out, s.draw(v.name, v.title+", as it hangs", v.view.Turned(upright(s.up)), true))
		}
	}
	return out
}

func newScene(l *takeoff.Load, w Weight, legs Hanging, show units.Show) scene {
	s := scene{weight: w, legs: legs, up: geom.Vec{0, 0, 1}, show: show}
	chord := max(w.extent().Diagonal()*chordPart, 1e-5)
	var holes []geom.Mesh
	var holesOf []string
	for _, p := range l.Parts {
		if p.Liquid != nil {
			continue // what is inside is not seen
		}
		for _, m := range p.Meshes(chord) {
			s.parts, s.names = append(s.parts, m), append(s.names, p.Name)
		}
		for _, m := range p.CutMeshes(chord) {
			holes, holesOf = append(holes, m), append(holesOf, p.Name)
		}
	}
	s.solids = len(s.parts)
	s.parts, s.names = append(s.parts, holes...), append(s.names, holesOf...)
	if legs.Solved {
		if up := legs.HookM.Sub(w.CGM); up.Len() > 0 {
			s.up = up.Normalize()
		}
	}
	return s
}

// upright turns the direction up to z, the short way.
func upright(up geom.Vec) mgl64.Mat3 {
	z := geom.Vec{0, 0, 1}
	axis := up.Cross(z)
	if axis.Len() < 1e-12 {
		return mgl64.Ident3()
	}
	return mgl64.HomogRotate3D(math.Atan2(axis.Len(), up.Dot(z)), axis.Normalize()).Mat3()
}

// draw makes one drawing.
func (s scene) draw(name, title string, view geom.View, hung bool) Drawing {
	d := Drawing{View: name, Hung: hung, Title: title}
	edges := geom.SeenEdges(s.parts, s.solids, view, fine)
	p := s.paper(view, edges, name)
	d.Scale, d.Wide, d.High = p.scale, p.wide, p.high
	d.Marks = append(d.Marks, p.edges(edges, s)...)
	b := &board{paper: p, scene: s, view: view}
	b.marks(name, hung)
	d.Marks = append(d.Marks, b.out...)
	d.Alt = b.words(title, name)
	return d
}

// paper is where a view stands on the paper: x = left + (u − low)·1000/scale.
type paper struct {
	scale      float64
	wide, high float64    // mm
	low        mgl64.Vec2 // m, in the view
	left, foot float64    // mm
}

// on returns where a place in the view falls on the paper, mm.
func (p paper) on(q mgl64.Vec2) mgl64.Vec2 {
	by := 1000 / p.scale
	return mgl64.Vec2{p.left + (q[0]-p.low[0])*by, p.foot + (q[1]-p.low[1])*by}
}

// paper chooses the scale, 1, 2 or 5 times a power of ten, at which the load and
// its rigging fit.
func (s scene) paper(view geom.View, edges []geom.Seen, name string) paper {
	low, high := mgl64.Vec2{math.Inf(1), math.Inf(1)}, mgl64.Vec2{math.Inf(-1), math.Inf(-1)}
	reach := func(q mgl64.Vec2) {
		low = mgl64.Vec2{min(low[0], q[0]), min(low[1], q[1])}
		high = mgl64.Vec2{max(high[0], q[0]), max(high[1], q[1])}
	}
	for _, e := range edges {
		reach(e.From)
		reach(e.To)
	}
	for _, leg := range s.legs.Legs {
		reach(view.On(leg.AtM))
	}
	if s.legs.Solved && name != "plan" {
		reach(view.On(s.legs.HookM))
	}
	wide, tall := max(high[0]-low[0], 1e-3), max(high[1]-low[1], 1e-3)
	scale := niceScale(max(wide*1000/(paperWide-2*margin), tall*1000/(paperHigh-2*margin)))
	p := paper{scale: scale, wide: paperWide, low: low}
	p.high = tall*1000/scale + 2*margin
	p.left, p.foot = (p.wide-wide*1000/scale)/2, margin
	return p
}

// niceScale is the least of 1, 2, 5, 10, 20 … that is no less than what is needed.
func niceScale(least float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(max(least, 1e-9))))
	for _, step := range []float64{1, 2, 5, 10} {
		if power*step >= least*(1-1e-9) {
			return power * step
		}
	}
	return power * 10
}

// edges puts what is seen of the parts on paper, pieces that follow one another
// as one line. What is shorter than a line is wide is left out.
func (p paper) edges(seen []geom.Seen, s scene) []Mark {
	var out []Mark
	last := -1
	for _, e := range seen {
		a, b := p.on(e.From), p.on(e.To)
		if b.Sub(a).Len() < 0.05 {
			continue
		}
		of := ofPart
		if e.Mesh >= s.solids {
			of = ofHole
		}
		if n := len(out); n > 0 && last == e.Mesh {
			end := out[n-1].At[len(out[n-1].At)-1]
			if end.Sub(a).Len() < 1e-6 {
				out[n-1].At = append(out[n-1].At, b)
				continue
			}
			if end.Sub(b).Len() < 1e-6 {
				out[n-1].At = append(out[n-1].At, a)
				continue
			}
		}
		out = append(out, Mark{Kind: "line", Of: of, At: []mgl64.Vec2{a, b}, Part: s.names[e.Mesh]})
		last = e.Mesh
	}
	return slices.Clip(out)
}
