package lift

import (
	"plumbhook/geom"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// AsWeighed is what the readings of load cells and the take-off come to
// together, by least squares. Figures with sigma are standard deviations.
type AsWeighed struct {
	WeightKg      float64       `json:"weight_kg"`
	WeightSigmaKg float64       `json:"weight_sigma_kg"`
	CGM           geom.Vec      `json:"cg_m"`
	CGSigmaM      geom.Vec      `json:"cg_sigma_m"`
	Read          []CellsAlone  `json:"read"`
	Apart         []Apart       `json:"apart"`
	Cells         []CellCheck   `json:"cells"`
	Parts         []WeighedPart `json:"parts"`
	Sigmas        float64       `json:"sigmas"`
	Conflict      bool          `json:"conflict"`
	Text          string        `json:"text"`
	LoadFileLines []string      `json:"load_file_lines"` // the load as one weighed part; none in a conflict
}

// CellsAlone is what the cells tell without the take-off.
type CellsAlone struct {
	Weighings []string    `json:"weighings"`
	Without   []string    `json:"without"`
	WeightKg  float64     `json:"weight_kg"`
	SigmaKg   float64     `json:"sigma_kg"`
	CGM       [3]*float64 `json:"cg_m"` // null along an axis that the cells don't show
}

// Apart is how far a weighing and the take-off are from each other.
type Apart struct {
	Weighing string  `json:"weighing"`
	What     string  `json:"what"`
	By       float64 `json:"by"` // kg, or m
	Sigmas   float64 `json:"sigmas"`
}

// CellCheck tells of one cell whether it fits the take-off and the other cells.
type CellCheck struct {
	Weighing string  `json:"weighing"`
	Cell     string  `json:"cell"`
	OffKg    float64 `json:"off_kg"`
	Sigmas   float64 `json:"sigmas"`
}

// WeighedPart is what the weighings make of one line of the take-off.
type WeighedPart struct {
	Name     string  `json:"name"`
	BeforeKg float64 `json:"before_kg"`
	AfterKg  float64 `json:"after_kg"`
	SigmaKg  float64 `json:"sigma_kg"`
	Beyond   bool    `json:"beyond_its_range"`
}

// foldIn folds the weighings of the load file into the take-off, as drawn. The
// take-off stays what the lift is planned with; but where the cells say that the
// load may be heavier than its range the sizing weight is raised to that, and a
// take-off that can't be what stood on the cells is not one to lift by.
func (w *Weight) foldIn(l *takeoff.Load, h *Header) error {
	drawn, of := l, w.takeoff
	if l.State != "" { // what was weighed was the load as drawn, and what it says holds in each state
		if drawn = l.Drawn; drawn == nil || len(drawn.Weighings) == 0 {
			return nil
		}
		var err error
		if of, err = drawn.Weigh(); err != nil {
			return bad(l, 0, err.Error(), "look at the sizes and weights of the parts")
		}
	}
	r, ok, err := drawn.AsWeighed(of)
	if err != nil {
		return bad(l, drawn.Weighings[0].Line, err.Error(), "look at the readings, their places and what was on the cells")
	}
	if !ok {
		return nil
	}
	if l.State == "" {
		w.AsWeighed = newAsWeighed(r)
	}
	w.judgeWeighing(r, of, h)
	return nil
}

// judgeWeighing holds a take-off of the load as drawn against its weighing, and
// raises the sizing weight by what the load may be heavier than its range.
func (w *Weight) judgeWeighing(r takeoff.WeighingResult, of takeoff.Weighed, h *Header) {
	if r.Conflict {
		h.refuse("the take-off and the weighing are %.1f standard deviations apart, and more than 3 is no chance: %s", r.Sigmas, r.Text)
	}
	if more := float64(r.Weight+3*r.WeightSigma) - float64(of.High); more > 0 {
		if most := w.Weight.HighKg + more; most > w.Weight.SizingKg {
			h.warn("weighed-heavier", "by the weighing the load may come to "+units.Mass(most).FormatUp(units.Both)+", more than planning weight and range: rigging is sized on that",
				"put the weighed load into the load file, or find what the take-off leaves out")
			w.Weight.SizingKg = most
		}
	}
	box := of.Extent.Union(of.Range) // parts may stand off their places
	var outside, beyond geom.Vec
	for i := range r.CG {
		outside[i] = max(0, box.Min[i]-r.CG[i]-3*r.CGSigma[i], r.CG[i]-3*r.CGSigma[i]-box.Max[i])
		beyond[i] = max(0, of.Range.Min[i]-r.CG[i], r.CG[i]-of.Range.Max[i])
	}
	switch {
	case outside.Len() > 1e-6:
		h.refuse("the weighing puts the CG %s outside the load's own box, where nothing is: look at the places of the cells, and at the sign of a tilt",
			units.Length(outside.Len()).Format(units.Both))
	case beyond.Len() > 1e-6:
		h.warn("weighed-off", "by the weighing the CG is "+units.Length(beyond.Len()).Format(units.Both)+" beyond the range of the take-off: the lift is judged there too",
			"put the weighed load into the load file, or widen `position` and `tolerance` of what stands elsewhere")
		w.weighedOff = r.CG.Sub(of.CG)
	}
}

func newAsWeighed(r takeoff.WeighingResult) *AsWeighed {
	out := &AsWeighed{
		WeightKg: float64(r.Weight), WeightSigmaKg: float64(r.WeightSigma), CGM: r.CG, CGSigmaM: r.CGSigma,
		Sigmas: r.Sigmas, Conflict: r.Conflict, Text: r.Text, LoadFileLines: append([]string{}, r.Lines...),
		Read: []CellsAlone{}, Apart: []Apart{}, Cells: []CellCheck{}, Parts: []WeighedPart{},
	}
	for _, s := range r.Shown {
		one := CellsAlone{Weighings: s.Of, Without: append([]string{}, s.Without...), WeightKg: float64(s.Read), SigmaKg: float64(s.ReadSigma)}
		for i, known := range s.Known {
			if known {
				one.CGM[i] = &s.ReadCG[i]
			}
		}
		out.Read = append(out.Read, one)
	}
	for _, a := range r.Apart {
		out.Apart = append(out.Apart, Apart{a.Weighing, a.What, a.By, a.Sigmas})
	}
	for _, c := range r.Cells {
		out.Cells = append(out.Cells, CellCheck{c.Weighing, c.Cell, float64(c.Off), c.Sigmas})
	}
	for _, p := range r.Parts {
		out.Parts = append(out.Parts, WeighedPart{p.Name, float64(p.Before), float64(p.After), float64(p.Sigma), p.Beyond})
	}
	return out
}
