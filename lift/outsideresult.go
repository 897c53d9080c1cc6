package lift

import "plumbhook/geom"

// SideForces is what wind and tag line do to the hung load, at worst over their
// directions and over where the CG may be.
type SideForces struct {
	Wind        *WindPush `json:"wind,omitempty"`
	TagLine     *TagPull  `json:"tag_line,omitempty"`
	MostKN      float64   `json:"most_kn"`       // the greatest level force
	LeanDeg     float64   `json:"lean_deg"`      // of the hoist line out of plumb, at the least weight
	SwingPerM   float64   `json:"swing_m_per_m"` // m level, for each m of hoist line
	MoreTiltDeg float64   `json:"more_tilt_deg"` // on the tilt in calm air
	TurnKNM     float64   `json:"turn_knm"`      // about the plumb line: what tag lines have to hold
	Legs        []SideLeg `json:"legs"`          // what they add to each leg
	HoldPullKN  float64   `json:"hold_pull_kn"`  // level, to hold the load where it hangs in calm air
	TurnPullKN  *float64  `json:"turn_pull_kn"`  // on the tag line, to keep the load from turning; null: no place or no lever
	TurnLeverM  float64   `json:"turn_lever_m"`  // of the tag line about the plumb line
	CasesSolved int       `json:"cases_solved"`  // poses
	CraneFactor *float64  `json:"crane_factor"`  // by which the crane's own wind speed limit is to be lowered; null: it is not
	SailM2PerT  float64   `json:"sail_m2_per_t"` // area × shape factor over the best weight
}

// WindPush is the wind on the load.
type WindPush struct {
	SpeedMS     float64  `json:"speed_m_s"` // 0: a pressure is given
	PressureNM2 float64  `json:"pressure_n_m2"`
	ShapeFactor float64  `json:"shape_factor"`
	AreaM2      float64  `json:"area_m2"` // the greatest across any of the winds
	ForceKN     float64  `json:"force_kn"`
	CentreM     geom.Vec `json:"centre_m"`
	From        string   `json:"from"` // in words
	Area        string   `json:"area"` // which area it is, in words
}

// TagPull is the stated pull of a tag line.
type TagPull struct {
	PullKN float64  `json:"pull_kn"`
	Toward string   `json:"toward"`
	AtM    geom.Vec `json:"at_m"`
}

// SideLeg is what side forces do to a leg.
type SideLeg struct {
	Pick         string  `json:"pick"`
	MoreKN       float64 `json:"more_kn"`        // on the worst tension
	LessAngleDeg float64 `json:"less_angle_deg"` // off the worst angle from horizontal
	Slack        string  `json:"slack,omitempty"`
}

// LiftOff is what the legs and the crane carry while the ground or the form still
// holds the load.
type LiftOff struct {
	Kind        string   `json:"kind"` // suction or adhesion
	PressureNM2 float64  `json:"pressure_n_m2"`
	AreaM2      float64  `json:"area_m2"`
	CentreM     geom.Vec `json:"centre_m"`
	PullKN      float64  `json:"pull_kn"`
	HookKg      float64  `json:"hook_kg"` // what a load cell at the hook reads before it lets go, at the sizing weight
	Tension     Forces   `json:"tension_kn"`
	WithDynamic bool     `json:"with_dynamic"` // the dynamic factor is taken on top
	Governs     bool     `json:"governs"`      // for some leg it is more than the dynamic factor on the hung load
	perLeg      []float64
}

// TrialLift is what to look for when the load is lifted a hand's breadth.
type TrialLift struct {
	BestKg        float64   `json:"best_kg"`
	LowKg         float64   `json:"low_kg"`
	HighKg        float64   `json:"high_kg"`
	StopAboveKg   float64   `json:"stop_above_kg"` // of the load alone
	Legs          []Reading `json:"legs"`
	Indeterminate bool      `json:"indeterminate"` // the lengths of the legs decide what each reads
	TiltDeg       float64   `json:"tilt_deg"`
	TiltWorstDeg  float64   `json:"tilt_worst_deg"` // in calm air
	FirstCorner   string    `json:"first_corner"`   // of the underside, to leave level ground; empty: all at once
	LastCorner    string    `json:"last_corner"`
	DropM         float64   `json:"drop_m"`    // how far the first is up when the last leaves
	HookOver      string    `json:"hook_over"` // where the hook is set before it is raised; empty: neither corners nor order are known, of a load that is to hang otherwise than drawn
	Tight         []Tight   `json:"tight"`     // the legs in the order in which they come tight
}

// Reading is what a load cell in a leg reads.
type Reading struct {
	Pick   string  `json:"pick"`
	BestKN float64 `json:"best_kn"`
	LowKN  float64 `json:"low_kn"`
	HighKN float64 `json:"high_kn"`
}

// Tight is when a leg comes tight, the hook rising plumb over HookOver and the load
// standing as drawn.
type Tight struct {
	Pick  string  `json:"pick"`
	RiseM float64 `json:"rise_m"` // of the hook since the first came tight
}
