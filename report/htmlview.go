package report

import (
	"encoding/json"
	"fmt"
	"html/template"
	"math"

	"plumbhook/geom"
	"plumbhook/lift"
)

// htmlView is what stands around the view that can be turned.
type htmlView struct {
	Alt   string
	Note  string
	Hangs bool
	Parts []htmlViewPart
}

// htmlViewPart is one line of the take-off beside the view.
type htmlViewPart struct {
	Name, Weight string
	Shaped       bool // it has a shape, and can be picked out
}

// viewData is what the script draws. Its keys are those of view3d.js.
type viewData struct {
	Parts    []viewPart   `json:"parts"`
	Legs     []viewLeg    `json:"legs"`
	Bars     [][]geom.Vec `json:"bars"` // the lower points of each, one after the other
	Hook     *geom.Vec    `json:"hook"` // null: on two hooks, or none was found
	CG       geom.Vec     `json:"cg"`
	Up       geom.Vec     `json:"up"`
	Low      geom.Vec     `json:"low"`
	High     geom.Vec     `json:"high"`
	HungText string       `json:"hungText"`
	Coarse   bool         `json:"coarse"` // surfaces are coarser than they are
}

type viewPart struct {
	Name   string      `json:"name"`
	Weight string      `json:"weight"`
	Solids []viewSolid `json:"solids"`
}

// viewSolid has its corners in tenths of a millimetre, three figures each, and its
// faces as three numbers of corners each.
type viewSolid struct {
	Hole    bool  `json:"hole,omitempty"`
	Corners []int `json:"v"`
	Faces   []int `json:"f"`
}

type viewLeg struct {
	At    geom.Vec `json:"at"`
	Top   geom.Vec `json:"top"`
	Text  string   `json:"text"`
	Use   float64  `json:"use"`
	Slack bool     `json:"slack"`
}

// view fills in the view; a load of bare weights has none.
func (s *htmlSheet) view(p *page, r lift.LiftSheet) error {
	if len(r.Solids) == 0 {
		return nil
	}
	data := p.viewData(r)
	text, err := json.Marshal(data) // <, > and & are written as \u003c and so on
	if err != nil {
		return fmt.Errorf("report: %w", err)
	}
	s.Script, s.ViewData = template.JS(viewScript), template.JS(text)
	s.View = htmlView{Note: clean(r.Coarser), Hangs: r.Legs.Posed != nil,
		Alt: "The load in three dimensions with its CG, legs and hook. The drawings above and the tables say the same."}
	shaped := map[string]bool{}
	for _, part := range data.Parts {
		shaped[part.Name] = true
	}
	for _, part := range r.Weigh.Parts {
		name := clean(part.Name)
		s.View.Parts = append(s.View.Parts, htmlViewPart{name, p.mass(part.MassKg), shaped[name]})
	}
	return nil
}

func (p *page) viewData(r lift.LiftSheet) viewData {
	data := viewData{CG: r.Weigh.CGM, Up: geom.Vec{0, 0, 1}, Low: r.Weigh.BoxM.Min, High: r.Weigh.BoxM.Max, Parts: []viewPart{}, Legs: []viewLeg{}, Bars: [][]geom.Vec{}, Coarse: r.Coarser != ""}
	number := map[string]int{}
	for _, solid := range r.Solids {
		n, known := number[solid.Part]
		if !known {
			n = len(data.Parts)
			number[solid.Part] = n
			data.Parts = append(data.Parts, viewPart{clean(solid.Part), p.massOf(r.Weigh, solid.Part), nil})
		}
		data.Parts[n].Solids = append(data.Parts[n].Solids, newViewSolid(solid))
	}
	if r.Legs.Posed == nil {
		return data
	}
	data.Hook, data.Up = &r.Legs.HookM, r.Legs.Up
	from := "out of level"
	if r.Legs.Attitude != nil {
		from = "out of the attitude wanted"
	}
	data.HungText = fmt.Sprintf("As it hangs: %s %s at the best CG.", turn(r.Legs.TiltDeg), from)
	p.viewRigging(&data, r.Legs)
	return data
}

// viewRigging gives the view its legs and bars, in the axes of the load.
func (p *page) viewRigging(data *viewData, h lift.Hanging) {
	for _, l := range h.Legs {
		top := h.HookM
		if l.TopM != nil {
			top = *l.TopM
		}
		data.Legs = append(data.Legs, viewLeg{l.AtM, top, p.legText(h, l), h.Use(l), l.Slack})
	}
	upper := aboveBars(h)
	for i, l := range upper.Legs {
		ends := h.UpperLegs[i].EndsM
		data.Legs = append(data.Legs, viewLeg{ends[1], ends[0], p.legText(upper, l), upper.Use(l), l.Slack})
	}
	for _, bar := range h.Bars {
		var ends []geom.Vec
		for _, end := range bar.Ends {
			ends = append(ends, end.HangsAtM)
		}
		if len(ends) > 2 {
			ends = append(ends, ends[0])
		}
		data.Bars = append(data.Bars, ends)
	}
}

// massOf is what a part weighs, in words where several have its name.
func (p *page) massOf(w lift.Weight, name string) string {
	text := ""
	for _, part := range w.Parts {
		switch {
		case part.Name != name:
		case text != "":
			return "several of this name, see the list"
		default:
			text = p.mass(part.MassKg)
		}
	}
	return text
}

func newViewSolid(s lift.Solid3D) viewSolid {
	out := viewSolid{Hole: s.Hole}
	for _, v := range s.Vertices {
		for _, m := range v {
			out.Corners = append(out.Corners, int(math.Round(m*1e4)))
		}
	}
	for _, f := range s.Faces {
		out.Faces = append(out.Faces, f[0], f[1], f[2])
	}
	return out
}
