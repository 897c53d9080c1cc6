package geom

import (
	"encoding/xml"
	"fmt"
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
)

func (x *xmlPart) readMesh(mesh element, o *object3MF) error {
	return x.children(func(e element) error {
		ours := e.Name.Space == mesh.Name.Space
		switch {
		case ours && e.Name.Local == "vertices":
			return x.children(func(e element) error { return x.readVertex(e, o) })
		case ours && e.Name.Local == "triangles":
			return x.children(func(e element) error { return x.readTriangle(e, o) })
		case e.Name.Local == "trianglesets": // names for groups of facets
			return x.skip(e)
		}
		return x.unread(e)
	})
}

func (x *xmlPart) readVertex(e element, o *object3MF) error {
	if e.Name.Local != "vertex" {
		return x.unread(e)
	}
	if len(o.vertices) >= x.pack.vertices {
		return x.fault(fmt.Sprintf("has more vertices in an object than the limit of %d", x.pack.vertices), fixCoarser)
	}
	var v Vec
	for axis := range v {
		text := e.attr("xyz"[axis : axis+1])
		c, msg := parseCoordinate([]byte(text))
		if msg != "" {
			return x.fault(fmt.Sprintf("has a vertex whose %c, %s, %s", "xyz"[axis], quoted([]byte(text)), msg), fixNumber)
		}
		v[axis] = c
	}
	o.vertices = append(o.vertices, v)
	return x.skip(e)
}

func (x *xmlPart) readTriangle(e element, o *object3MF) error {
	if e.Name.Local != "triangle" {
		return x.unread(e)
	}
	if x.pack.triangles--; x.pack.triangles < 0 {
		return x.fault("has more triangles than the limit", fixCoarser)
	}
	var face [3]int
	for i, name := range []string{"v1", "v2", "v3"} {
		text := e.attr(name)
		n, ok := parseIndex([]byte(text))
		if !ok || n < 0 || n >= len(o.vertices) {
			return x.fault(fmt.Sprintf("has a triangle whose %s, %s, is none of the %s, numbered from 0", name, quoted([]byte(text)), count(len(o.vertices), "vertex", "vertices")), fix3MF)
		}
		face[i] = n
	}
	o.faces = append(o.faces, face)
	return x.skip(e)
}

// readPlaced reads a component or an item of the build.
func (x *xmlPart) readPlaced(e element, m *model3MF, list *[]placed3MF) error {
	place := placed3MF{}
	place.line, _ = x.decoder.InputPos()
	var msg string
	if place.transform, msg = parseTransform(e.attr("transform")); msg != "" {
		return x.fault("has a transform that "+msg, fix3MF)
	}
	from := m
	if other := pathOf(e); other != "" && partName(other) != m.name {
		if !m.root {
			return x.fault("refers to another model part, which only the first model may do", fix3MF)
		}
		if x.pack.files[partName(other)] == nil {
			return x.fault(fmt.Sprintf("refers to the part %s, which is not there", quoted([]byte(other))), fix3MF)
		}
		var err error
		if from, err = x.pack.model(partName(other), false); err != nil {
			return err
		}
		if from.unit != m.unit {
			return x.fault(fmt.Sprintf("and %s have different units", from.name), fix3MF)
		}
	}
	id := e.attr("objectid")
	if place.object = from.objects[id]; place.object == nil {
		return x.fault(fmt.Sprintf("refers to object %s, which is not there, or not before it", quoted([]byte(id))), fix3MF)
	}
	*list = append(*list, place)
	return x.skip(e)
}

// pathOf returns the attribute path of the production extension.
func pathOf(e element) string {
	for _, a := range e.Attr {
		if a.Name.Local == "path" && strings.HasSuffix(a.Name.Space, productionSpace) {
			return a.Value
		}
	}
	return ""
}

// parseTransform reads twelve numbers, three for where each of x, y, z goes and
// three for the move, or says what is wrong.
func parseTransform(text string) (Pose, string) {
	if text == "" {
		return Still(), ""
	}
	words := strings.Fields(text)
	if len(words) != 12 {
		return Pose{}, fmt.Sprintf("has %d numbers, not 12", len(words))
	}
	var n [12]float64
	for i, word := range words {
		c, msg := parseCoordinate([]byte(word))
		if msg != "" {
			return Pose{}, fmt.Sprintf("has the number %s, which %s", quoted([]byte(word)), msg)
		}
		n[i] = c
	}
	x, y, z := Vec(n[0:3]), Vec(n[3:6]), Vec(n[6:9])
	p := Pose{mgl64.Mat3FromCols(x, y, z), Vec(n[9:12])}
	if det := math.Abs(p.Turn.Det()); !(det > 1e-12*x.Len()*y.Len()*z.Len()) {
		return Pose{}, "flattens the object: its determinant is 0"
	}
	return p, ""
}

// readTitle reads the text of a metadata element.
func (x *xmlPart) readTitle(m *model3MF) error {
	for {
		x.token = longestToken
		token, err := x.decoder.Token()
		if err != nil {
			return x.broken(err)
		}
		switch token := token.(type) {
		case xml.CharData:
			if len(m.title) < longestWord {
				m.title += string(token[:min(len(token), longestWord)])
			}
		case xml.EndElement:
			m.title = printable(m.title)
			return nil
		case xml.StartElement:
			if err := x.skip(element{token}); err != nil {
				return err
			}
		case xml.Directive:
			return x.fault("has a declaration within an element", fix3MF)
		}
	}
}
