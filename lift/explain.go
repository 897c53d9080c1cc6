package lift

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/sling"
	"plumbhook/units"
)

// poses are the solved poses that a working by hand goes by.
type poses struct {
	best  rig.Hang
	worst rig.Worst
}

// Working is the working by hand for one leg: each figure that a person needs to
// go over it with a pocket calculator.
type Working struct {
	Statics StaticsWorking  `json:"statics"`
	Sizing  *RatingWorking  `json:"rating,omitempty"` // null: nothing is sized
	Chosen  []FamilyWorking `json:"families,omitempty"`
}

// StaticsWorking is the balance of forces in the case that governs the leg; or at
// the best CG, where the greatest tension comes about by more than one pose.
type StaticsWorking struct {
	Pick        string      `json:"pick"`
	Case        string      `json:"case"`
	LoadKg      float64     `json:"load_kg"`
	LoadKN      float64     `json:"load_kn"`
	How         string      `json:"sharing"` // in words
	Legs        []StaticLeg `json:"legs"`    // those that carry
	Levers      *Levers     `json:"levers"`  // null: not two legs
	SumKN       float64     `json:"sum_vertical_kn"`
	LevelXKN    float64     `json:"sum_level_x_kn"` // of the level pulls; nothing is left of them
	LevelYKN    float64     `json:"sum_level_y_kn"`
	TensionKN   float64     `json:"tension_kn"` // of the leg, by this balance
	MoreKN      float64     `json:"more_kn"`    // to the worst figure
	MoreBecause string      `json:"more_because"`
	WorstKN     float64     `json:"worst_tension_kn"`
}

// StaticLeg is one leg that carries. Its pick stands X and Y level from the hook's
// plumb line, Y square to X, and the hook RiseM above it.
type StaticLeg struct {
	Pick       string  `json:"pick"`
	XM         float64 `json:"x_m"`
	YM         float64 `json:"y_m"`
	OutM       float64 `json:"out_m"`
	RiseM      float64 `json:"rise_m"`
	Deg        float64 `json:"from_horizontal_deg"`
	Sine       float64 `json:"sine"`
	VerticalKN float64 `json:"vertical_kn"`
	TensionKN  float64 `json:"tension_kn"`
	LevelKN    float64 `json:"level_kn"`
}

// Levers are those of two legs: the one carries what the other's lever asks,
// V = W × other ÷ (own + other), each lever out ÷ rise since both pull to one hook
// (derived here: V·out/rise is the level pull, the same for both).
type Levers struct {
	Own        float64 `json:"own"`
	Other      float64 `json:"other"`
	VerticalKN float64 `json:"vertical_kn"`
}

const atBest = "best CG, legs as stated, at the planning weight"

// statics is the balance for a leg whose worst tension is so many kN.
func (p *plan) statics(f Hanging, leg int, worstKN float64) StaticsWorking {
	best, worst := p.poses.best, p.poses.worst
	if p.geared != nil {
		worst = p.geared.worst
	}
	s := StaticsWorking{Pick: p.picks[leg].Name, WorstKN: worstKN, Case: atBest}
	pose := best.Pose
	if of := worst.Of[leg]; of.Pull != nil {
		pose, s.Case = of.Pose, p.caseName(of.Case)
	}
	tension := pose.WithMost(leg)
	if lower := p.load.Rigging.Sharing; lower != nil && lower.Equalised == nil {
		pose, tension, s.Case = best.Pose, best.Tension, atBest
	}
	s.LoadKN = pose.Load() / 1000
	s.LoadKg = float64(units.Force(pose.Load()).Mass())
	s.balance(p, pose, tension)
	s.How = p.sharedHow(s, pose, tension)
	s.levers()
	s.TensionKN = tension[leg] / 1000
	s.MoreKN = max(0, worstKN-s.TensionKN)
	switch {
	case s.MoreKN <= 1e-9*worstKN:
		s.MoreKN = 0
	case f.LiftOff != nil && f.LiftOff.Governs && worstKN > f.Legs[leg].WorstTensionKN*(1+1e-9):
		s.MoreBecause = "lift-off governs; where no dynamic factor goes with it, it is divided by that factor here, since the next step multiplies by it"
	case f.Governing != s.Pick:
		s.MoreBecause = "its worst over all that is in doubt, the rule set's figure and side forces among it"
	case f.SideForces != nil:
		s.MoreBecause = "wind and tag line; the worst case is " + f.GoverningCase
	default:
		s.MoreBecause = f.GoverningCase
	}
	return s
}

// balance fills in the legs that carry, and the sums.
func (s *StaticsWorking) balance(p *plan, pose rig.Pose, tension []float64) {
	at := places(p.picks)
	x := levelPart(geom.Vec{1, 0, 0}, pose.Up)
	if x.Len() < 0.1 {
		x = levelPart(geom.Vec{0, 1, 0}, pose.Up)
	}
	x = x.Mul(1 / x.Len())
	y := pose.Up.Cross(x)
	for i, t := range tension {
		if t <= 1e-9*pose.Load() {
			continue
		}
		out, rise := pose.Out(i, at)
		from := at[i].Sub(pose.Hook)
		sine := pose.Pull[i].Dot(pose.Up)
		one := StaticLeg{Pick: p.picks[i].Name, XM: from.Dot(x), YM: from.Dot(y), OutM: out, RiseM: rise,
			Deg: degrees(pose.FromHorizontal(i)), Sine: sine, TensionKN: t / 1000, VerticalKN: t * sine / 1000,
			LevelKN: t * math.Sqrt(max(0, 1-sine*sine)) / 1000}
		s.Legs = append(s.Legs, one)
		s.SumKN += one.VerticalKN
		s.LevelXKN += t * pose.Pull[i].Dot(x) / 1000
		s.LevelYKN += t * pose.Pull[i].Dot(y) / 1000
	}
}

func levelPart(v, up geom.Vec) geom.Vec { return v.Sub(up.Mul(v.Dot(up))) }

// sharedHow says in words how the load is shared among the legs that carry.
func (p *plan) sharedHow(s StaticsWorking, pose rig.Pose, tension []float64) string {
	var loose []string
	for i, t := range tension {
		if t <= 1e-9*pose.Load() {
			loose = append(loose, p.picks[i].Name)
		}
	}
	text := ""
	if len(loose) > 0 {
		text = "with nothing carried by " + strings.Join(loose, " and ") + ", as legs a little long leave it: "
	}
	switch {
	case p.geared != nil:
		return text + p.gear() + " pull alike by the gear between them; the balance of forces gives the rest"
	case len(s.Legs) == 1:
		return text + "one leg carries all"
	case len(s.Legs) == 2:
		return text + "two legs carry, and the levers of their picks about the plumb line give what each takes"
	case len(s.Legs) == 3:
		return text + "three legs carry: one set of vertical parts gives the weight and lets the level pulls cancel"
	}
	return text + "more legs carry than statics can settle: shared as legs of the same make, each cut to its length"
}

// levers works out two legs by hand, for the leg that the working is of.
func (s *StaticsWorking) levers() {
	if len(s.Legs) != 2 {
		return
	}
	own, other := s.Legs[0], s.Legs[1]
	if own.Pick != s.Pick {
		own, other = other, own
	}
	l := Levers{Own: own.OutM / own.RiseM, Other: other.OutM / other.RiseM}
	l.VerticalKN = s.LoadKN * l.Other / (l.Own + l.Other)
	if own.Pick == s.Pick && l.Own+l.Other > 1e-6 {
		s.Levers = &l
	}
}

// RatingWorking is how the required rating of the governing leg comes about.
type RatingWorking struct {
	TensionKN  float64 `json:"worst_tension_kn"`
	Dynamic    Factor  `json:"dynamic"`
	DynamicKN  float64 `json:"with_dynamic_kn"`
	Gravity    float64 `json:"gravity_m_s2"`
	LoadKg     float64 `json:"load_kg"` // that tension as a mass
	Hitch      Factor  `json:"hitch"`
	Parts      float64 `json:"basket_parts"` // 1: plumb, or no basket
	ByLegKg    float64 `json:"by_leg_kg"`
	SetLoadKg  float64 `json:"set_load_kg,omitempty"` // load × dynamic; 0: the rule set checks no set here
	Mode       *Factor `json:"mode,omitempty"`
	Choke      *Factor `json:"set_choke,omitempty"`
	BySetKg    float64 `json:"by_set_kg,omitempty"`
	RequiredKg float64 `json:"required_kg"` // the greater
}

// FamilyWorking is the size of one family.
type FamilyWorking struct {
	Family      string   `json:"family"`
	Material    string   `json:"material"`
	Leg         string   `json:"leg"` // that uses the size most
	LoadKg      float64  `json:"load_kg"`
	Hitch       Factor   `json:"hitch"`
	Parts       float64  `json:"basket_parts"`
	Factors     []Factor `json:"factors"` // of the family
	Product     float64  `json:"product"` // hitch × parts × factors
	ByFactorsKg float64  `json:"by_factors_kg"`
	RequiredKg  float64  `json:"required_kg"`
	More        string   `json:"more_because,omitempty"` // why more is required than the factors ask
	Size        string   `json:"size"`
	RatedKg     float64  `json:"rated_kg"`
	Utilisation float64  `json:"utilisation"`
	Source      string   `json:"source"`
	Basis       string   `json:"basis"`
}

// ratingOf puts the sizing of the governing leg down.
func ratingOf(w sling.Working, s Sizing) *RatingWorking {
	r := RatingWorking{TensionKN: s.Governing.TensionKN, Gravity: units.Gravity, LoadKg: float64(w.Load), Hitch: Factor(w.Hitch), Parts: w.Parts,
		ByLegKg: float64(w.ByFactors), RequiredKg: s.Governing.RequiredKg, Dynamic: s.Factors[0]}
	r.DynamicKN = r.TensionKN * r.Dynamic.Value
	if w.Set > 0 {
		mode, choke := Factor(w.Mode), Factor(w.Choke)
		r.SetLoadKg, r.Mode, r.Choke, r.BySetKg = float64(w.SetLoad), &mode, &choke, float64(w.Set)
	}
	return &r
}

// familyWorking puts down how a family's size came about.
func familyWorking(f Family) FamilyWorking {
	c, w := f.Choice, f.Choice.working
	out := FamilyWorking{Family: f.Family, Material: f.Material, Leg: w.Leg, LoadKg: float64(w.Load), Hitch: Factor(w.Hitch), Parts: w.Parts,
		ByFactorsKg: float64(w.ByFactors), RequiredKg: c.RequiredKg, Size: c.Size, RatedKg: c.RatedKg, Utilisation: c.Utilisation,
		Source: c.Source, Basis: c.Basis, Factors: []Factor{}, Product: w.Hitch.Value * w.Parts}
	for _, x := range f.Factors {
		if strings.HasPrefix(x.Name, "hitch:") {
			continue // it is Hitch already
		}
		out.Factors = append(out.Factors, x)
		out.Product *= x.Value
	}
	if out.RequiredKg > out.ByFactorsKg*(1+1e-9) {
		out.More = "the check of the set, or a rating that the table prints for this hitch or set, asks for more"
	}
	return out
}

// explain is the working for slings: of the governing leg, and of the first
// family that may be used, or of those asked for.
func (w line) explain(s Sizing, o Options) (*Working, error) {
	if s.working == nil || w.plan.poses == nil {
		return nil, nil
	}
	leg := -1
	for i, l := range w.legs.Legs {
		if l.Pick == s.Governing.Pick {
			leg = i
		}
	}
	if leg < 0 {
		return nil, fmt.Errorf("%w: the governing leg %q is none of the legs", ErrProgram, s.Governing.Pick)
	}
	out := Working{Statics: w.plan.statics(w.legs, leg, s.Governing.TensionKN), Sizing: ratingOf(*s.working, s)}
	if first := firstChoice(s.Families); first != nil && o.Family == "" {
		out.Chosen = append(out.Chosen, familyWorking(*first))
		return &out, nil
	}
	for _, f := range s.Families {
		if f.Choice != nil {
			out.Chosen = append(out.Chosen, familyWorking(f))
		}
	}
	return &out, nil
}

// unexplained says that a working was asked for and there is none.
func (h *Header) unexplained(so bool) {
	if so {
		h.assume("the working by hand is written out for legs straight to one hook: not under bars, nor on two hooks")
	}
}

// explainLegs is the working for the leg that carries most.
func (w line) explainLegs() *Working {
	if !w.legs.Solved || w.plan.poses == nil {
		return nil
	}
	for i, l := range w.legs.Legs {
		if l.Pick == w.legs.Governing {
			return &Working{Statics: w.plan.statics(w.legs, i, l.WorstTensionKN)}
		}
	}
	return nil
}
