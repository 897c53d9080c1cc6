package lift

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Drawing is one view of the load with its rigging, to scale, or a plot: a list
// of marks on paper, in millimetres from the lower left corner, x to the right
// and y up. All outputs draw the same list, in its order.
type Drawing struct {
	View  string  `json:"view"` // plan, front, side, isometric or plot
	Hung  bool    `json:"hung"` // as it hangs; false: as drawn
	Title string  `json:"title"`
	Alt   string  `json:"alt"` // the drawing in words, for those who can't see it
	Wide  float64 `json:"wide_mm"`
	High  float64 `json:"high_mm"`
	Scale float64 `json:"scale"` // 1 : scale; 0 for a plot
	// A place of the load's axes falls on DatumMM + (place·Right, place·Up)·1000/Scale.
	DatumMM *mgl64.Vec2 `json:"datum_mm,omitempty"` // where the load's datum falls
	Right   *geom.Vec   `json:"right,omitempty"`    // direction of the load's axes that goes right on paper
	Up      *geom.Vec   `json:"up,omitempty"`       // and up
	Marks   []Mark      `json:"marks"`
}

// What a mark is of, by which outputs choose stroke and fill. None differs from
// another by colour alone.
const (
	ofPart   = "part"
	ofHole   = "hole"
	ofGround = "ground"
	ofLeg    = "leg"
	ofBar    = "bar"
	ofPick   = "pick"
	ofHook   = "hook"
	ofCG     = "cg"
	ofRegion = "region"
	ofPlumb  = "plumb" // plumb and level lines
	ofSize   = "size"
	ofAxis   = "axis"
	ofScale  = "scale"
	ofLabel  = "label" // the line from a label to what it is of
	ofNote   = "note"
	ofTitle  = "title"
	ofCurve  = "curve"
	ofSecond = "second" // the second curve of a plot, told by its dashes
	ofPoint  = "point"  // a place on a plot
	ofLimit  = "limit"  // a line across a plot, told by its dots
)

// Mark is one thing on a drawing.
type Mark struct {
	Kind   string       `json:"kind"` // line: through all places; area: closed and filled; circle; text
	Of     string       `json:"of"`
	At     []mgl64.Vec2 `json:"at_mm"`
	Radius float64      `json:"radius_mm,omitempty"`
	Text   string       `json:"text,omitempty"`
	Size   float64      `json:"size_mm,omitempty"` // of the letters, as a font's size
	Align  string       `json:"align,omitempty"`   // left, middle or right of its place
	Turn   float64      `json:"turn_deg,omitempty"`
	Part   string       `json:"part,omitempty"`   // the part or the leg that it belongs to
	Arrows bool         `json:"arrows,omitempty"` // at both ends of a line, within it
}

// fine is the number of cells across a view in which hidden edges are looked for.
const fine = 1500

// views of the drawings, in the order in which they are shown.
var views = []struct {
	name, title string
	view        geom.View
}{
	{"plan", "Plan, from above", geom.FromAbove},
	{"front", "Elevation, looking along +y", geom.FromFront},
	{"side", "Elevation, looking along −x", geom.FromRight},
	{"isometric", "Isometric view", geom.Isometric},
}

// scene is all that is drawn, in the load's axes, metres.
type scene struct {
	parts   []geom.Mesh // solids first, then the outlines of holes
	names   []string    // of the parts, one for each mesh
	solids  int
	sight   geom.Sight
	weight  Weight
	legs    Hanging
	tilted  bool // it hangs other than drawn, by enough to be seen
	refused bool
	show    units.Show
}

// chordPart is how far the meshes that are drawn may be off a round surface, in
// parts of the load's size: less than a line is wide.
const chordPart = 1.0 / 2000

// seenTilt is the least tilt in degrees for which a load is drawn as it hangs too.
const seenTilt = 0.05

// drawings makes the drawings of a load: as drawn, and as it hangs where that
// differs by enough to be seen.
func drawings(l *takeoff.Load, w Weight, legs Hanging, verdict Verdict, show units.Show) []Drawing {
	s := newScene(l, w, legs, show)
	s.refused = !verdict.Acceptable
	if len(s.parts) == 0 && !s.legs.Solved {
		return nil // bare weights have no shape
	}
	how := ", as drawn"
	if s.legs.Solved && !s.tilted && len(legs.Bars) == 0 {
		how = ", as drawn and as it hangs"
	}
	var drawn []func() Drawing
	for _, v := range views {
		drawn = append(drawn, func() Drawing { return s.draw(v.name, v.title+how, v.view, false) })
	}
	if s.tilted {
		for _, v := range views {
			drawn = append(drawn, func() Drawing {
				return s.draw(v.name, v.title+", as it hangs", v.view.Turned(upright(legs.Up)), true)
			})
		}
	}
	out := make([]Drawing, len(drawn))
	geom.AtOnce(len(drawn), func(i int) { out[i] = drawn[i]() })
	return out
}

func newScene(l *takeoff.Load, w Weight, legs Hanging, show units.Show) scene {
	s := scene{weight: w, legs: legs, show: show}
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
	s.sight = geom.NewSight(s.parts, s.solids)
	switch {
	case legs.Posed == nil: // on two hooks the table tells; without a pose there is nothing to tell
		s.legs.Solved = false
	case len(legs.Bars) == 0: // bars and load hang each their own way: they are drawn as on the drawing
		s.tilted = legs.Solved && degrees(math.Acos(min(1, legs.Up[2]))) > seenTilt
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
	if s.refused {
		title = "NOT ACCEPTABLE: " + title
	}
	edges := s.sight.Edges(view, fine)
	b := &board{scene: s, view: view, name: name, hung: hung}
	b.layOut(edges)
	datum, right, up := b.at(geom.Vec{}), view.Right, view.Up
	b.parts(edges)
	b.marks(title)
	return Drawing{View: name, Hung: hung, Title: title, Alt: b.words(title), Wide: b.wide, High: b.high, Scale: b.scale,
		DatumMM: &datum, Right: &right, Up: &up, Marks: b.out}
}

// words tells the drawing to those who can't see it.
func (b *board) words(title string) string {
	box, cg := b.weight.BoxM, b.weight.CGM.Sub(b.weight.BoxM.Min)
	size := box.Max.Sub(box.Min)
	text := fmt.Sprintf("%s, scale %s. The load is %s long in x, %s in y and %s high. The CG is %s, %s and %s from its least edges in x, y and z.",
		title, ratio(b.scale), b.length(size[0]), b.length(size[1]), b.length(size[2]), b.length(cg[0]), b.length(cg[1]), b.length(cg[2]))
	if !b.legs.Solved {
		return text + " Legs are not drawn."
	}
	text += " Legs:"
	for i, leg := range b.legs.Legs {
		if i > 0 {
			text += ";"
		}
		text += fmt.Sprintf(" %s %s at worst, %.1f° from horizontal, %.1f° from vertical", leg.Pick, b.force(leg.WorstTensionKN), leg.FromHorizontalDeg, leg.FromVerticalDeg)
	}
	return text + fmt.Sprintf(". It hangs tilted %.1f°, at worst %.1f°.", b.legs.TiltDeg, tenthUp(b.legs.TiltWorstDeg))
}

// length prints a length as a tape shows it: to the millimetre from 10 mm on.
func (b *board) length(m float64) string {
	if math.Abs(m) >= 0.01 {
		m = math.Round(m*1000) / 1000
	}
	return units.Length(m).Format(b.show)
}

// tenthUp rounds up to a tenth.
func tenthUp(x float64) float64 { return math.Ceil(x*10-1e-6) / 10 }

// upTo prints a length rounded up to the millimetre.
func (b *board) upTo(m float64) string {
	return units.Length(math.Ceil(m*1000-1e-6) / 1000).Format(b.show)
}

func (b *board) force(kn float64) string { return units.Force(kn * 1000).FormatUp(b.show) }
