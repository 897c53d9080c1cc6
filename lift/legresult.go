package lift

import (
	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/sling"
)

// Hung answers: what does each leg carry, how does it hang, is it stable?
type Hung struct {
	Header
	Hanging
}

// Hanging is how the load hangs. Figures at the planning weight and best CG;
// the worst ones at the sizing weight over all that is in doubt.
type Hanging struct {
	Solved      bool        `json:"solved"` // false: no pose was found, and there are no figures; the verdict says why
	SizingKg    float64     `json:"sizing_kg"`
	PlanningKg  float64     `json:"planning_kg"`
	Lengths     string      `json:"lengths"` // how the legs' lengths were come by
	Stable      bool        `json:"stable"`
	StableWorst bool        `json:"stable_worst"`
	Legs        []Leg       `json:"legs"`
	States      []StateLegs `json:"states,omitempty"` // all states of the load; the figures are those of the governing one
	TwoHooks    *TwoHooks   `json:"two_hooks,omitempty"`
	*Posed                  // nil, and none of its keys in the JSON, where there is no pose, or two hooks
}

// Posed are the figures of a hung pose.
type Posed struct {
	HookM          geom.Vec    `json:"hook_m"`
	StaticsCGM     geom.Vec    `json:"statics_cg_m"` // that hangs plumb under the hook (under bars: with the bars): the best CG, but that free liquid counts at its metacentre
	Up             geom.Vec    `json:"up"`           // where up is as it hangs, in the load's axes
	HeadroomM      float64     `json:"headroom_m"`   // hook to the top of the load
	HeadroomWorstM float64     `json:"headroom_worst_m"`
	TiltDeg        float64     `json:"tilt_deg"` // from the attitude wanted; without one from that drawn
	TiltWorstDeg   float64     `json:"tilt_worst_deg"`
	Attitude       *Attitude   `json:"attitude,omitempty"` // that is wanted; null: as drawn
	LowCornerDropM float64     `json:"low_corner_drop_m"`  // of the load's box, below its highest bottom corner
	Stack          *Stack      `json:"headroom_stack"`     // null: no height of the hook is stated
	Stability      Stability   `json:"stability"`
	Governing      string      `json:"governing"`      // the pick of the leg with the greatest tension
	GoverningCase  string      `json:"governing_case"` // in words
	Basis          string      `json:"basis"`          // which sharing the worst tensions follow, and why
	LeastAngleDeg  float64     `json:"least_angle_deg"`
	Sharing        Sharing     `json:"sharing"`
	Squeeze        Forces      `json:"squeeze_kn"` // horizontal pull on each pick
	Liquid         *FreeLiquid `json:"free_liquid,omitempty"`
	Diagonals      []Diagonal  `json:"diagonals"`
	Gear           []GearWay   `json:"gear"`              // that would settle the sharing, where statics can't
	Stretch        *Stretched  `json:"stretch,omitempty"` // null: legs are taken not to stretch
	Between        *Between    `json:"cg_between_picks"`  // null for a single pick
	// Influences are those on the leg that carries most at the planning weight
	// and the best CG, which is named; without a name on weight and CG alone.
	Level       []LevelWay  `json:"level_ways"` // ways to hang it level, where it does not
	Influences  []Influence `json:"influences"`
	InfluenceOn string      `json:"influences_on"`
	CasesSolved int         `json:"cases_solved"`
	Others      []OtherPose `json:"other_poses,omitempty"` // in which it can come to rest as well
	SideForces  *SideForces `json:"side_forces,omitempty"` // wind and tag line; the worst figures hold what they add
	LiftOff     *LiftOff    `json:"lift_off,omitempty"`
	TrialLift   *TrialLift  `json:"trial_lift,omitempty"`
	Clearing
	Included
	Lugs       []LugPull    `json:"lugs"`
	Bending    *LoadBending `json:"bending,omitempty"` // null: not slender, or not on two lines of picks
	BarRigging              // of a load under bars; none of its keys in the JSON without
	Working    *Working     `json:"working,omitempty"` // by hand, where asked for

	corners []geom.Vec // of the box that headroom and drop are of, its bottom first, in the load's axes
}

// Forces are kN by pick.
type Forces map[string]float64

// Stability is the stability of the pose at the best CG. The lengths hold no
// stiffness of any leg, unless a stretch of them is stated. Of round bodies that friction keeps from turning in their
// bights the margin is how much farther the CG could be from the line of their
// centres. Stable, at best and worst, means stable if Condition holds.
type Stability struct {
	MarginM           float64   `json:"margin_m"`               // how far the CG could rise before the load rolls; negative: how far it is too high
	FirstSlackShiftM  *float64  `json:"first_slack_cg_shift_m"` // level shift of the CG at which a leg goes slack; null: none does, or under bars: not sought
	FirstSlackPick    string    `json:"first_slack_pick"`
	Toward            *geom.Vec `json:"toward"` // direction of that shift in the load's axes; where the load rolls, of the roll
	AfterSlackTiltDeg *float64  `json:"after_slack_tilt_deg"`
	Condition         string    `json:"condition,omitempty"` // stable only if this holds
	Text              string    `json:"text"`
}

// Leg is one sling line as it hangs.
type Leg struct {
	Pick                   string    `json:"pick"`
	AtM                    geom.Vec  `json:"at_m"`
	LengthM                float64   `json:"length_m"` // bearing to bearing; without load, where a stretch is stated; 0: not stated, of a sling on one of two hooks
	FromHorizontalDeg      float64   `json:"from_horizontal_deg"`
	FromVerticalDeg        float64   `json:"from_vertical_deg"`
	WorstFromHorizontalDeg float64   `json:"worst_from_horizontal_deg"`
	TensionKN              float64   `json:"tension_kn"`
	WorstTensionKN         float64   `json:"worst_tension_kn"`
	Slack                  bool      `json:"slack"`
	TopM                   *geom.Vec `json:"top_m,omitempty"` // its upper end as it hangs, in the load's axes; null: the hook
	Hold                   *Hold     `json:"hitch,omitempty"` // nil: vertical, or not stated

	end       int       // under bars: drops from one end of one bar have the same
	verticalN float64   // and the most that the drop holds up
	upper     *geom.Vec // its upper end as drawn; nil: the hook
}

// Sharing shows the ways of counting side by side, in kN at the planning
// weight and best CG; null where a way does not apply.
type Sharing struct {
	Elastic     Forces `json:"elastic"`       // legs of the same EA, cut to length
	AnyLegSlack Forces `json:"any_leg_slack"` // each leg's most, whichever others are slack
	TwoOpposite Forces `json:"two_opposite"`  // one pair of opposite legs carries all
	RuleSet     Forces `json:"rule_set"`
	Equalised   Forces `json:"equalised,omitempty"` // by the gear that the load file states
	Rule        string `json:"rule"`                // which rule, with its source
}

// Diagonal is one pair of opposite legs that carries all.
type Diagonal struct {
	Picks         [2]string `json:"picks"`
	OffM          float64   `json:"off_m"` // how far the CG passes from the line between them
	AnEquilibrium bool      `json:"an_equilibrium"`
}

// Picked answers: where should I pick it up?
type Picked struct {
	Header
	SheetPicks
}

// Proposal is a set of picks: those of the load file, or found on its top.
type Proposal struct {
	Given    bool      `json:"given"` // by the load file
	Picks    []Pick    `json:"picks"`
	Score    float64   `json:"score"` // 0 to 1, see rig.Marks; 0 for given picks
	Reasons  []string  `json:"reasons"`
	TradeOff string    `json:"trade_off,omitempty"` // what it gains and costs beside the first
	Verdict  Verdict   `json:"verdict"`
	Warns    []Warning `json:"warnings"`
	Legs     Hanging   `json:"legs"`

	marks   rig.Marks
	clashes bool // a leg runs into the load
}

// Pick is a named place where a leg takes hold.
type Pick struct {
	Name string   `json:"name"`
	AtM  geom.Vec `json:"at_m"`
}

// Slung answers: what must each leg be rated for, and which slings may be used?
type Slung struct {
	Header
	Sizing
}

// Sizing is the sizing of the slings.
type Sizing struct {
	Rules     string             `json:"rules"`
	Required  map[string]float64 `json:"required_kg"`
	Governing Governing          `json:"governing"`
	Hitch     map[string]float64 `json:"hitch_factor"`        // by leg: of its hitch, and of the parts of a basket
	Set       *SetCheck          `json:"set_check,omitempty"` // null: there is none
	Factors   []Factor           `json:"factors"`
	Families  []Family           `json:"families"`
	Sets      []SlingSet         `json:"sets,omitempty"`  // under bars, the drops first; the figures above are theirs
	Stock     *SlingStock        `json:"stock,omitempty"` // the user's own slings; nil: no list of them is named
	Hardware  *Hardware          `json:"hardware"`        // null: no pose, or a leg as good as level
	Gross     Gross              `json:"gross"`
	Heights   *HeightCurve       `json:"height_curve"`      // null: nothing to trade
	Working   *Working           `json:"working,omitempty"` // by hand, where asked for
	working   *sling.Working
	Advice    []string `json:"advice"` // whether weighing a part would pay

	// ByHook are the sizings of two hooks; the figures above are then those of
	// the hook that needs more. Left out for one hook.
	ByHook []HookSizing `json:"by_hook,omitempty"`
}

// Governing is the leg that sets the size of all.
type Governing struct {
	Pick       string  `json:"pick"`
	RequiredKg float64 `json:"required_kg"`
	TensionKN  float64 `json:"worst_tension_kn"`
	State      string  `json:"state,omitempty"`       // that needs it, where it is not the one whose legs are shown
	LiftOffKN  float64 `json:"lift_off_kn,omitempty"` // lift-off governs: the tension then, from which worst_tension_kn follows
}

// SetCheck is what the rule set asks of all legs together: no leg rated less
// than load × dynamic ÷ factor.
type SetCheck struct {
	LoadKg     float64 `json:"load_kg"` // without the dynamic factor
	Factor     float64 `json:"factor"`
	RequiredKg float64 `json:"required_kg"`
}

// Factor is one factor of the sizing.
type Factor struct {
	Name   string  `json:"name"`
	Value  float64 `json:"value"`
	Source string  `json:"source"`
	Basis  string  `json:"basis"`
}

// Family is one sling family and what is said of it.
type Family struct {
	Family   string   `json:"family"`
	Material string   `json:"material"`
	Use      string   `json:"use"` // yes, care or no
	Reasons  []string `json:"reasons"`
	Against  []string `json:"-"` // those of Reasons that make it less than a yes
	Factors  []Factor `json:"factors"`
	Design   *Factor  `json:"design_factor"` // breaking strength when new over rated load; null: not known here
	Cautions []string `json:"cautions"`
	ByTag    bool     `json:"by_tag"` // no table of capacities is published: the tag of the sling says what it may carry
	Choice   *Choice  `json:"choice"`
}

// AtAngle is what one leg holds up, standing at an angle.
type AtAngle struct {
	FromHorizontalDeg float64 `json:"from_horizontal_deg"`
	FromVerticalDeg   float64 `json:"from_vertical_deg"`
	HoldsKg           float64 `json:"holds_kg"` // of the load, plumb
}

// Choice is the smallest size that is large enough.
type Choice struct {
	Size        string    `json:"size"`
	RatedKg     float64   `json:"rated_kg"`    // of one leg, vertical
	RequiredKg  float64   `json:"required_kg"` // of one leg, this family's own factors in
	Utilisation float64   `json:"utilisation"`
	WeightKg    float64   `json:"weight_kg"` // of all legs together, without fittings; 0: not known
	AtAngles    []AtAngle `json:"at_angles"` // what one leg of it holds up, at the usual angles
	Source      string    `json:"source"`
	Basis       string    `json:"basis"`
	Note        string    `json:"note"`
	working     sling.Working
}

// LiftSheet is the whole line on one sheet.
type LiftSheet struct {
	Header
	Date     string      `json:"date,omitempty"`
	Weigh    Weight      `json:"weigh"`
	Picks    SheetPicks  `json:"picks"`
	Legs     Hanging     `json:"legs"`
	Slings   *Sizing     `json:"slings"` // null: no rule set was chosen
	Cautions []string    `json:"cautions"`
	Marking  *Marking    `json:"marking,omitempty"`     // what to paint on the load
	Tilts    []TiltCurve `json:"tilt_curves,omitempty"` // tilt for an error of the CG; made with the drawings
	Drawings []Drawing   `json:"drawings,omitempty"`
	Plots    []Drawing   `json:"plots,omitempty"`
	Solids   []Solid3D   `json:"solids,omitempty"`
	Coarser  string      `json:"solids_note,omitempty"` // which of them are drawn coarser than they are
}

// SheetPicks are the picks that the sheet goes by, the first of the proposals.
type SheetPicks struct {
	Proposals []Proposal `json:"proposals"`
}
