package lift

import (
	"fmt"
	"strings"

	"plumbhook/geom"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Options are what the command line says beside the load file.
type Options struct {
	Rules   string     // US or EN; empty: as the load file says
	State   string     // one of the load's states; empty: all of them
	Family  string     // of slings, to narrow the answer to; empty: all
	Explain bool       // put the working by hand down
	Draw    bool       // make the drawings of the sheet
	Solids  bool       // give the surfaces of the parts too, for a view that can be turned
	Show    units.Show // units of the figures on the drawings
	Date    string     // printed on the sheet as it is; empty: none

	tried bool // the picks are one set of many that are held side by side: what would mend the lift is not sought
}

// Weighed answers: what does it weigh, where is its CG, and how sure is that?
type Weighed struct {
	Header
	Weight
	States []StateWeight `json:"states,omitempty"`
}

// Weight is the weight, the centre of gravity and their ranges.
type Weight struct {
	VolumeM3    float64         `json:"volume_m3"`
	Weight      WeightRange     `json:"weight"`
	CGM         geom.Vec        `json:"cg_m"`
	CGRangeM    Box             `json:"cg_range_m"`
	CGRegion    Region          `json:"cg_region"`
	InertiaKgm2 [3][3]float64   `json:"inertia_kgm2"`
	BoxM        Box             `json:"box_m"`
	Parts       []Part          `json:"parts"`
	Allowances  []Allowance     `json:"allowances"`
	Influences  []Influence     `json:"influences"` // what moves the weight and the CG most, first
	Statistics  *Statistics     `json:"statistics,omitempty"`
	AsWeighed   *AsWeighed      `json:"as_weighed,omitempty"` // what load cells and the take-off come to together
	takeoff     takeoff.Weighed // for the questions that follow
	body        *obstacles      // for the look at legs that touch it
	weighedOff  geom.Vec        // m, from the CG to where a weighing puts it, beyond its range; zero: within it
}

// WeightRange is the weight in kg, allowances in.
type WeightRange struct {
	BestKg     float64 `json:"best_kg"`
	LowKg      float64 `json:"low_kg"`
	HighKg     float64 `json:"high_kg"`
	PlanningKg float64 `json:"planning_kg"`
	SizingKg   float64 `json:"sizing_kg"`       // greater of planning and high: rigging is sized on it
	Factor     float64 `json:"planning_factor"` // planning over best; 1 where none is stated
	Rule       string  `json:"planning_rule"`
}

// Box has its lowest and highest corner in m.
type Box struct {
	Min geom.Vec `json:"min"`
	Max geom.Vec `json:"max"`
}

// Part is one line of the take-off; masses and volume are of all its pieces.
type Part struct {
	Name     string   `json:"name"`
	Kind     string   `json:"kind"`
	Written  string   `json:"written"`
	Count    int      `json:"count"`
	VolumeM3 float64  `json:"volume_m3"`
	Density  float64  `json:"density_kg_m3,omitempty"` // its mass is volume × density; 0: a known weight
	MassKg   float64  `json:"mass_kg"`
	LowKg    float64  `json:"low_kg"`
	HighKg   float64  `json:"high_kg"`
	CGM      geom.Vec `json:"cg_m"`
	Material string   `json:"material"`
	Basis    string   `json:"basis"`
	LowBy    float64  `json:"low_fraction"` // low_kg is mass_kg × (1 + low_fraction)
	HighBy   float64  `json:"high_fraction"`
}

// Allowance is a weight added for what the parts leave out.
type Allowance struct {
	Name    string   `json:"name"`
	Of      string   `json:"of"`
	Written string   `json:"written"`
	BestKg  float64  `json:"best_kg"`
	LowKg   float64  `json:"low_kg"`
	HighKg  float64  `json:"high_kg"`
	CGM     geom.Vec `json:"cg_m"`
	Basis   string   `json:"basis"`
}

// Statistics are the range of the weight by other means than the straight sum.
// They inform: nothing is sized by them.
type Statistics struct {
	RSSLowKg  float64 `json:"rss_low_kg"` // root of the sum of squares of what is off independently
	RSSHighKg float64 `json:"rss_high_kg"`
	P5Kg      float64 `json:"monte_carlo_p5_kg"`
	P50Kg     float64 `json:"monte_carlo_p50_kg"`
	P95Kg     float64 `json:"monte_carlo_p95_kg"`
	Samples   int     `json:"monte_carlo_samples"`
	Seed      uint64  `json:"monte_carlo_seed"`
}

func newStatistics(s takeoff.Statistics) *Statistics {
	m := s.MonteCarlo
	return &Statistics{float64(s.RSSLow), float64(s.RSSHigh), float64(m.P5), float64(m.P50), float64(m.P95), m.Samples, m.Seed}
}

// Weigh adds up the load, and each of its states.
func Weigh(l *takeoff.Load, o Options) (Weighed, error) {
	l, err := inState(l, o)
	if err != nil {
		return Weighed{}, err
	}
	h := newHeader(l)
	w, err := weigh(l, &h)
	if err != nil {
		return Weighed{h, w, nil}, err
	}
	w.Statistics = newStatistics(w.takeoff.Statistics())
	states, err := weighStates(l, w, o)
	return Weighed{h, w, states}, err
}

func weigh(l *takeoff.Load, h *Header) (Weight, error) {
	t, err := l.Weigh()
	if err != nil {
		return Weight{}, bad(l, 0, err.Error(), "look at the sizes and weights of the parts")
	}
	w := Weight{
		VolumeM3: t.Volume, CGM: t.CG, CGRangeM: Box(t.Range), BoxM: Box(t.Extent),
		Allowances: []Allowance{}, takeoff: t, body: &obstacles{load: l},
		Weight: WeightRange{BestKg: float64(t.Best), LowKg: float64(t.Low), HighKg: float64(t.High),
			PlanningKg: float64(t.Best), Factor: 1, Rule: "best weight; no planning factor taken"},
	}
	if f := l.Rigging.PlanningFactor; f > 0 {
		w.Weight.PlanningKg *= f
		w.Weight.Factor = f
		w.Weight.Rule = fmt.Sprintf("best weight × %g, the planning factor of the load file", f)
	}
	w.CGRegion = newRegion(t)
	w.Weight.SizingKg = max(w.Weight.PlanningKg, w.Weight.HighKg)
	for row := range 3 {
		for col := range 3 {
			w.InertiaKgm2[row][col] = t.Inertia.At(row, col)
		}
	}
	for _, p := range t.Parts {
		w.Parts = append(w.Parts, Part{p.Name, p.Kind, p.Written, p.Count, p.Volume, float64(p.Density),
			float64(p.Best), float64(p.Low), float64(p.High), p.CG, p.Material, p.Basis, p.LowBy, p.HighBy})
	}
	w.Influences = w.influences(nil)
	for _, a := range t.Allowances {
		w.Allowances = append(w.Allowances, Allowance{a.Name, a.Of, a.Written, float64(a.Best), float64(a.Low), float64(a.High), a.CG, a.Basis})
	}
	if len(t.Allowances) == 0 {
		h.assume("weld metal, paint, bolts, dirt and other extras are in the weight only where they are parts of the take-off")
	} else {
		h.assume("of weld metal, paint, bolts, dirt and other extras only what the allowances and the parts name is in the weight")
	}
	assumeContents(l, h)
	return w, w.foldIn(l, h)
}

// assumeContents says of liquids what a crew has to see to: that they can't run,
// and what has to be drained for a state.
func assumeContents(l *takeoff.Load, h *Header) {
	here, filled := map[string]bool{}, map[string]bool{}
	for _, p := range l.Parts {
		here[p.Name] = true
		filled[p.Host] = filled[p.Host] || p.Liquid != nil
		if p.Liquid != nil && p.Liquid.Baffled {
			h.assume("%s: baffled, so that it can't run, as the load file says", p.Name)
		}
	}
	if open := l.OpenAndEmpty(); len(open) > 0 {
		h.assume("hollow parts that are open at an end, or closed by other parts, and say nothing of what is in them, are empty and drained: %s", listed(open))
	}
	if l.Drawn == nil {
		return
	}
	for _, name := range l.AllowancesLeftOut() {
		h.assume("the allowance %s is not on in the state %q, and its weight is left out", name, l.State)
	}
	for _, p := range l.Drawn.Parts {
		if p.Liquid != nil && here[p.Host] && !filled[p.Host] {
			h.assume("%s is empty and drained in the state %q", p.Host, l.State)
		}
	}
}

// listed names things in one line, not too many of them.
func listed(names []string) string {
	const most = 6
	if more := len(names) - most; more > 0 {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", more)
	}
	return strings.Join(names, ", ")
}

// sizing is the force that rigging is sized on, planning the one that is
// expected, both in N.
func (w Weight) sizing() units.Force   { return units.Mass(w.Weight.SizingKg).Weight() }
func (w Weight) planning() units.Force { return units.Mass(w.Weight.PlanningKg).Weight() }

// extent is the load's box.
func (w Weight) extent() geom.Extent { return geom.Extent(w.BoxM) }
