package geom

import (
	"fmt"
	"slices"
	"strings"
)

// units3MF are the units that a model may name, in metres.
// Source: 3MF Core Specification 1.x, the model's attribute unit (from memory).
var units3MF = map[string]float64{
	"micron": 1e-6, "millimeter": 0.001, "centimeter": 0.01, "meter": 1, "inch": 0.0254, "foot": 0.3048, "": 0.001,
}

// How the names of the namespaces end that are understood here.
const (
	coreSpace       = "/3dmanufacturing/core/2015/02"
	productionSpace = "/3dmanufacturing/production/2015/06"
	materialSpace   = "/3dmanufacturing/material/2015/02"
)

// model3MF is what one model part holds.
type model3MF struct {
	name, title string
	root        bool
	space       string // namespace of its elements
	unit        float64
	objects     map[string]*object3MF
	items       []placed3MF // of the build
}

// object3MF is a mesh, or other objects placed.
type object3MF struct {
	id, kind, name string
	vertices       []Vec
	faces          [][3]int
	components     []placed3MF
	depth          int  // levels of components in it
	empty          bool // without any facet
}

// placed3MF is an object with its transform.
type placed3MF struct {
	object *object3MF
	// In place of a pose: unlike one it may also stretch and skew.
	transform Pose
	line      int
}

// model reads a model part, once.
func (p *package3MF) model(name string, root bool) (*model3MF, error) {
	if m := p.models[name]; m != nil {
		return m, nil
	}
	x, err := p.open(name)
	if err != nil {
		return nil, err
	}
	defer x.close()
	m := &model3MF{name: name, root: root, objects: map[string]*object3MF{}}
	if err := x.root("model", func(e element) error { return x.readModel(e, m) }); err != nil {
		return nil, err
	}
	p.models[name] = m
	return m, nil
}

func (x *xmlPart) readModel(e element, m *model3MF) error {
	m.space = e.Name.Space
	unit, known := units3MF[e.attr("unit")]
	m.unit = unit
	switch missing := unknownExtension(e); {
	case !strings.HasSuffix(m.space, coreSpace):
		return x.fault(fmt.Sprintf("is in the namespace %s; expected one that ends in %s", quoted([]byte(m.space)), coreSpace), fix3MF)
	case !known:
		return x.fault(fmt.Sprintf("has the unit %s; expected micron, millimeter, centimeter, meter, inch or foot", quoted([]byte(e.attr("unit")))), fix3MF)
	case missing != "":
		return x.fault(fmt.Sprintf("needs the extension %q, which is not read", printable(missing[:min(len(missing), 200)])), "export it without, as plain meshes")
	}
	return x.children(func(e element) error {
		switch {
		case e.Name.Space != m.space:
		case e.Name.Local == "metadata" && e.attr("name") == "Title":
			return x.readTitle(m)
		case e.Name.Local == "resources":
			return x.children(func(e element) error { return x.readResource(e, m) })
		case e.Name.Local == "build" && m.root:
			return x.children(func(e element) error {
				if e.Name.Space != m.space || e.Name.Local != "item" {
					return x.skip(e)
				}
				return x.readPlaced(e, m, &m.items)
			})
		}
		return x.skip(e)
	})
}

// unknownExtension returns the namespace of the first extension that the file
// needs and that is not understood, or "".
func unknownExtension(model element) string {
	for _, prefix := range strings.Fields(model.attr("requiredextensions")) {
		space := prefix
		for _, a := range model.Attr {
			if a.Name.Space == "xmlns" && a.Name.Local == prefix {
				space = a.Value
			}
		}
		known := func(ending string) bool { return strings.HasSuffix(space, ending) }
		if !slices.ContainsFunc([]string{coreSpace, productionSpace, materialSpace}, known) {
			return space
		}
	}
	return ""
}

// readResource reads an object; other resources are colours and the like.
func (x *xmlPart) readResource(e element, m *model3MF) error {
	if e.Name.Space != m.space || e.Name.Local != "object" {
		return x.skip(e)
	}
	o := &object3MF{id: e.attr("id"), kind: e.attr("type"), name: printable(e.attr("name"))}
	if _, again := m.objects[o.id]; o.id == "" || again {
		return x.fault(fmt.Sprintf("has an object whose id %s is missing or there twice", quoted([]byte(o.id))), fix3MF)
	}
	err := x.children(func(e element) error {
		switch local := e.Name.Local; {
		case e.Name.Space == m.space && local == "mesh":
			return x.readMesh(e, o)
		case e.Name.Space == m.space && local == "components":
			return x.children(func(e element) error {
				if e.Name.Space != m.space || e.Name.Local != "component" {
					return x.skip(e)
				}
				return x.readPlaced(e, m, &o.components)
			})
		case local == "metadatagroup":
			return x.skip(e)
		}
		return x.unread(e)
	})
	o.empty = len(o.faces) == 0
	for _, c := range o.components {
		o.depth = max(o.depth, c.object.depth+1)
		o.empty = o.empty && c.object.empty
	}
	if err == nil && o.depth > deepestTags {
		err = x.fault(fmt.Sprintf("has objects within objects more than %d deep", deepestTags), fix3MF)
	}
	m.objects[o.id] = o // only now, so that no object can hold itself
	return err
}

// unread refuses an element that may change the shape.
func (x *xmlPart) unread(e element) error {
	return x.fault(fmt.Sprintf("has an element %s in an object, which is not read: what it does to the shape is not known", quoted([]byte(e.Name.Local))),
		"export the part as plain meshes")
}
