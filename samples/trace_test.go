package samples_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/takeoff"
)

// node is a place in a JSON document.
type node struct{ v any }

// at follows keys down; one that there is not leads to nothing.
func (n node) at(keys ...string) node {
	for _, key := range keys {
		in, _ := n.v.(map[string]any)
		n = node{in[key]}
	}
	return n
}

func (n node) number() float64 { x, _ := n.v.(float64); return x }

func (n node) list() (all []node) {
	in, _ := n.v.([]any)
	for _, v := range in {
		all = append(all, node{v})
	}
	return all
}

func (n node) sum(key string) (s float64) {
	for _, one := range n.list() {
		s += one.at(key).number()
	}
	return s
}

// document is a sample's lift sheet as JSON.
func document(t *testing.T, s lift.LiftSheet) node {
	text, err := json.Marshal(s)
	require.NoError(t, err)
	var n node
	require.NoError(t, json.Unmarshal(text, &n.v))
	return n
}

// numbers lists all numbers of a document by their place.
func (n node) numbers(path string, out map[string]float64) {
	switch v := n.v.(type) {
	case float64:
		out[path] = v
	case []any:
		for i, one := range v {
			node{one}.numbers(fmt.Sprintf("%s[%d]", path, i), out)
		}
	case map[string]any:
		for key, one := range v {
			node{one}.numbers(strings.TrimPrefix(path+"."+key, "."), out)
		}
	}
}

// explainedOnce keeps the sheets: they are long work for two tests.
var explainedOnce = map[string]lift.LiftSheet{}

// explained is the lift sheet of a sample with its working by hand.
func explained(t *testing.T, file string) lift.LiftSheet {
	t.Helper()
	if s, known := explainedOnce[file]; known {
		return s
	}
	load, err := takeoff.Read(os.DirFS("."), file, takeoff.Options{})
	require.NoError(t, err)
	s, err := lift.Sheet(load, lift.Options{Explain: true})
	require.NoError(t, err)
	explainedOnce[file] = s
	return s
}

// TestEveryNumberIsTraced: no number of a lift sheet stands without its formula, and
// the trace has it as the sheet has.
func TestEveryNumberIsTraced(t *testing.T) {
	for _, sample := range samples {
		s := explained(t, sample.file)
		want, got := map[string]float64{}, map[string]float64{}
		document(t, s).numbers("", want)
		list, err := lift.Trace(s)
		require.NoError(t, err, sample.file)
		for _, one := range list {
			text, err := json.Marshal(one.Value)
			require.NoError(t, err)
			var value node
			require.NoError(t, json.Unmarshal(text, &value.v))
			value.numbers(one.Figure, got)
			assert.NotEmpty(t, one.Formula, one.Figure)
			assert.NotEmpty(t, one.Source, one.Figure)
		}
		assert.Equal(t, want, got, sample.file)
	}
}

// holder checks formulas of lift/trace.csv on one document.
type holder struct {
	t    *testing.T
	file string
	doc  node
	held map[string]int // by formula: on how many figures
}

// same holds a figure to its formula. The sums are the same to the last digits of
// a float64; 1e-9 of the figure, or of 1, is far more than that.
func (h holder) same(formula string, want, got float64) {
	h.t.Helper()
	h.held[formula]++
	assert.InDelta(h.t, want, got, 1e-9*max(1, math.Abs(want)), "%s: %s", h.file, formula)
}

// TestFormulasGiveTheFigures puts the numbers of each sample into the formulas that
// its trace names, as a checker with a pocket calculator would.
func TestFormulasGiveTheFigures(t *testing.T) {
	held := map[string]int{}
	for _, sample := range samples {
		h := holder{t, sample.file, document(t, explained(t, sample.file)), held}
		h.weight()
		h.legs()
		h.slings()
		h.gross()
	}
	assert.GreaterOrEqual(t, len(held), 20, "formulas held: %v", held)
	for formula, n := range held {
		assert.Positive(t, n, formula)
	}
}

func (h holder) weight() {
	w := h.doc.at("weigh")
	best, parts, extras := w.at("weight", "best_kg").number(), w.at("parts"), w.at("allowances")
	h.same("best = Σ parts + allowances", parts.sum("mass_kg")+extras.sum("best_kg"), best)
	h.same("low = Σ low", parts.sum("low_kg")+extras.sum("low_kg"), w.at("weight", "low_kg").number())
	h.same("high = Σ high", parts.sum("high_kg")+extras.sum("high_kg"), w.at("weight", "high_kg").number())
	h.same("volume = Σ volume", parts.sum("volume_m3"), w.at("volume_m3").number())
	planning := w.at("weight", "planning_kg").number()
	h.same("planning = best × factor", best*w.at("weight", "planning_factor").number(), planning)
	h.same("sizing = greater of planning and high", max(planning, w.at("weight", "high_kg").number()), w.at("weight", "sizing_kg").number())
	for axis := range 3 {
		moment := 0.0
		for _, p := range parts.list() {
			moment += p.at("mass_kg").number() * p.at("cg_m").list()[axis].number()
		}
		for _, a := range extras.list() {
			moment += a.at("best_kg").number() * a.at("cg_m").list()[axis].number()
		}
		cg := w.at("cg_m").list()[axis].number()
		h.same("cg = Σ m·c / Σ m", moment/best, cg)
		h.same("marked = place − least corner", cg-w.at("box_m", "min").list()[axis].number(), h.doc.at("marking", "cg", "from_least_edges_m").list()[axis].number())
	}
	for _, p := range parts.list() {
		mass := p.at("mass_kg").number()
		h.same("part low = mass × (1 + low fraction)", mass*(1+p.at("low_fraction").number()), p.at("low_kg").number())
		h.same("part high = mass × (1 + high fraction)", mass*(1+p.at("high_fraction").number()), p.at("high_kg").number())
		if density := p.at("density_kg_m3").number(); density > 0 {
			h.same("mass = volume × density", p.at("volume_m3").number()*density, mass)
		}
	}
}

func (h holder) legs() {
	const gravity = 9.80665 // m/s², 3rd CGPM, 1901
	legs := h.doc.at("legs")
	up := 0.0
	for _, leg := range append(legs.at("legs").list(), legs.at("upper_legs").list()...) {
		from := leg.at("from_horizontal_deg").number()
		h.same("from vertical = 90° − from horizontal", 90-from, leg.at("from_vertical_deg").number())
		rad := from * math.Pi / 180
		if pull, ok := legs.at("squeeze_kn", leg.at("pick").text()).v.(float64); ok {
			h.same("squeeze = T·cos(from horizontal)", leg.at("tension_kn").number()*math.Cos(rad), pull)
		}
		up += leg.at("tension_kn").number() * math.Sin(rad)
	}
	if legs.at("two_hooks").v == nil && legs.at("bars").v == nil {
		h.same("Σ T·sin(from horizontal) = planning × g", legs.at("planning_kg").number()*gravity/1000, up)
	}
	for _, share := range legs.at("two_hooks", "curve").list() {
		h.same("head + tail = planning × g", legs.at("planning_kg").number()*gravity/1000, share.at("head_kn").number()+share.at("tail_kn").number())
	}
	for _, leg := range legs.at("trial_lift", "legs").list() {
		for _, of := range legs.at("legs").list() {
			if of.at("pick").v == leg.at("pick").v {
				w := h.doc.at("weigh", "weight")
				h.same("reading = T × best / planning", of.at("tension_kn").number()*w.at("best_kg").number()/w.at("planning_kg").number(), leg.at("best_kn").number())
			}
		}
	}
}

func (n node) text() string { s, _ := n.v.(string); return s }

func (h holder) slings() {
	s := h.doc.at("slings")
	dynamic := 1.0
	for _, f := range s.at("factors").list() {
		if f.at("name").text() == "dynamic" {
			dynamic = f.at("value").number()
		}
	}
	if set := s.at("set_check"); set.v != nil {
		h.same("set required = load × dynamic / factor", set.at("load_kg").number()*dynamic/set.at("factor").number(), set.at("required_kg").number())
	}
	for _, f := range s.at("families").list() {
		c := f.at("choice")
		if c.v == nil {
			continue
		}
		h.same("utilisation = required / rated", min(1, c.at("required_kg").number()/c.at("rated_kg").number()), c.at("utilisation").number())
		for _, a := range c.at("at_angles").list() {
			h.same("at angle: from vertical", 90-a.at("from_horizontal_deg").number(), a.at("from_vertical_deg").number())
		}
	}
	if two := h.doc.at("legs", "two_hooks"); two.v != nil {
		for _, hook := range []string{"head", "tail"} {
			if c := two.at(hook, "crane"); c.v != nil {
				h.same("hook load = worst + block", two.at(hook, "worst_kg").number()+c.at("block_kg").number(), c.at("load_kg").number())
				h.same("hook used = load / capacity", c.at("load_kg").number()/c.at("capacity_kg").number(), c.at("used").number())
			}
		}
	}
}

func (h holder) gross() {
	g := h.doc.at("slings", "gross")
	if len(g.at("ladder").list()) == 0 {
		return // of two hooks each has its own
	}
	total := g.at("total_kg").number()
	h.same("total = Σ ladder", g.at("ladder").sum("kg"), total)
	h.same("allowances = Σ allowances", h.doc.at("weigh", "allowances").sum("best_kg"), g.at("allowances_kg").number())
	if used, ok := g.at("used_of_capacity").v.(float64); ok {
		h.same("used = total / capacity", max(total, g.at("lift_off_kg").number())/g.at("capacity_kg").number(), used)
	}
	if c := g.at("crane"); c.v != nil {
		h.same("radius at worst = radius + tolerance + swing", c.at("radius_m").number()+c.at("radius_tolerance_m").number()+c.at("swing_m").number(), c.at("radius_worst_m").number())
	}
	if s := h.doc.at("legs", "headroom_stack"); s.v != nil {
		h.same("underside = hook − hook to load − height − drop", s.at("hook_height_m").number()-s.at("hook_to_load_top_m").number()-s.at("load_height_m").number()-s.at("low_corner_drop_m").number(), s.at("underside_m").number())
	}
}
