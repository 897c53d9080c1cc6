package geom

import (
	"bufio"
	"bytes"
	"io"

	"github.com/go-gl/mathgl/mgl64"
)

// Loop is a closed line of straight pieces and arcs, in the unit of the
// drawing. The last piece runs from the last point to the first.
type Loop struct {
	Points [][2]float64
	// Bulge of the piece from each point to the next: 0 for a straight line,
	// else tan(θ/4) with θ the angle of the arc, positive anticlockwise. ReadDXF
	// gives no more than a half circle, ±1, in one piece.
	Bulge []float64
}

// Outline returns the loop as an outline in metres; metres is what one unit
// of the drawing is.
func (l Loop) Outline(metres float64) Outline {
	o := make(Outline, len(l.Points))
	for i, p := range l.Points {
		o[i] = Vertex{mgl64.Vec2{p[0] * metres, p[1] * metres}, l.Bulge[i]}
	}
	return o
}

// Area returns what the loop encloses, in square units of the drawing,
// negative if it runs clockwise: the polygon of its points and, between each
// arc and its chord, a segment of r²·(θ − sin θ)/2.
func (l Loop) Area() float64 {
	about := l.spans()[0].p
	var sum cubic
	for _, s := range l.spans() {
		s.addTo(&sum, about)
	}
	return sum.area
}

func (l Loop) spans() []span {
	spans := make([]span, len(l.Points))
	for i, p := range l.Points {
		spans[i] = span{p, l.Points[(i+1)%len(l.Points)], l.Bulge[i]}
	}
	return spans
}

// contains tells whether a point is inside the loop; one on it may go either
// way. Inside is where the polygon of the points and the segments of the arcs
// cover it an odd number of times.
func (l Loop) contains(at mgl64.Vec2) bool {
	ring := make([]mgl64.Vec2, len(l.Points))
	for i, p := range l.Points {
		ring[i] = p
	}
	in := inside(ring, at)
	for _, s := range l.spans() {
		if s.cuts(at) {
			in = !in
		}
	}
	return in
}

// ReadDXF reads the outline of a plate, and its holes, from a text DXF drawing
// of any version from R12 on: the outline first. The unit is what $INSUNITS
// names, in metres, or 0 where the drawing names none.
//
// Read are LINE, ARC, CIRCLE, LWPOLYLINE and POLYLINE with their bulges, on all
// layers of the model (not of the paper). What draws no outline is passed over:
// texts, dimensions, leaders, points, hatches, construction lines, viewports,
// pictures, and blocks that hold nothing else. Everything else is refused by
// name, splines, ellipses and blocks with lines in them above all.
//
// Pieces are joined where their ends are no more than 1e-6 of the diagonal of
// the drawing apart. All of them must form closed loops; one of the loops must
// hold all others, and none of these another. All must be at the same height.
//
// Every error is a *FileError that names the places in the drawing's own unit,
// and then there are no loops.
//
// Source: the public DXF reference, group codes (read), and its rule for the
// axes of an entity that is seen from below (read).
func ReadDXF(r io.Reader, lim Limits) ([]Loop, float64, error) {
	lim = lim.orDefault()
	in := bufio.NewReaderSize(&limitedReader{r: r, left: lim.Bytes, most: lim.Bytes}, 64<<10)
	head, _ := in.Peek(22)
	if bytes.IndexByte(head, 0) >= 0 || bytes.HasPrefix(head, []byte("AC10")) {
		return nil, 0, &FileError{Msg: "a binary drawing, not a DXF file in text", Fix: "save the drawing as DXF in text (ASCII), version R12 or later"}
	}
	d := dxfReader{words: newWordReader(in), blocks: map[string]bool{}, most: min(lim.Triangles, mostPieces)}
	if err := d.read(); err != nil {
		return nil, 0, err
	}
	loops, err := d.chain()
	if err != nil {
		return nil, 0, err
	}
	loops, err = nest(loops)
	if err != nil {
		return nil, 0, err
	}
	return loops, d.unit, nil
}

const (
	// mostPieces is the most lines and arcs of a drawing: far more than an
	// outline has.
	mostPieces = 100_000

	fixDXF = "save the drawing again as DXF in text (ASCII), with nothing but the outline and its holes, and copy it whole"
)
