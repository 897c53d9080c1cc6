package lift

// TwoHooks is how the load hangs on two hooks, and what they carry while it
// turns. The curve is at the planning weight and the best CG; the worst of each
// hook at the sizing weight over all that is in doubt.
type TwoHooks struct {
	FromDeg float64     `json:"from_deg"`
	ToDeg   float64     `json:"to_deg"`
	Curve   []HookShare `json:"curve"`
	Events  []HookEvent `json:"events"`
	Head    Hook        `json:"head"`
	Tail    Hook        `json:"tail"`
	Out     string      `json:"out"` // in words, how far hooks and lines may be out

	// RollMarginM is how far the CG is below the line through the picks,
	// measured square to it; negative: above. Null where a hook is slack all the
	// way. RollHeld: lugs side by side hold the load from rolling about it.
	RollMarginM      *float64 `json:"roll_margin_m"`
	RollMarginWorstM *float64 `json:"roll_margin_worst_m"`
	RollHeld         bool     `json:"roll_held"`
	RollDeg          float64  `json:"roll_deg"` // by which the load rolls until its CG is plumb below that line
	RollText         string   `json:"roll_text"`

	// HandOverDeg is from where on, or up to where, one hook is let go or takes
	// up. Errors of heights and lines are not in its pull there.
	HandOverDeg []float64 `json:"hand_over_deg"`
	NotChecked  string    `json:"not_checked"`

	fine []HookShare // the curve in small steps, to be drawn
}

// HookShare is what the hooks carry in one attitude.
type HookShare struct {
	TurnedDeg float64 `json:"turned_deg"` // from the attitude drawn
	HeadKN    float64 `json:"head_kn"`
	TailKN    float64 `json:"tail_kn"`
	HeadPart  float64 `json:"head_part"` // of the weight, 0 to 1
	RiseM     float64 `json:"head_pick_above_tail_m"`
	ApartM    float64 `json:"lines_apart_m"` // level, between the hoist lines
}

// HookEvent is what happens on the way.
type HookEvent struct {
	TurnedDeg float64 `json:"turned_deg"`
	Kind      string  `json:"kind"`
	Text      string  `json:"text"`
	Through   bool    `json:"falls_through"`
	CG        string  `json:"cg"` // where the CG is taken
}

// Hook is what one of the two hooks carries.
type Hook struct {
	Picks       []string   `json:"picks"`
	MostKN      float64    `json:"most_kn"` // at the planning weight and the best CG
	MostAtDeg   float64    `json:"most_at_deg"`
	WorstKN     float64    `json:"worst_kn"`
	WorstKg     float64    `json:"worst_kg"`
	WorstAtDeg  float64    `json:"worst_at_deg"`
	WorstCase   string     `json:"worst_case"` // in words
	Crane       *HookCrane `json:"crane"`      // null: none stated
	LugsApartM  float64    `json:"lugs_apart_m,omitempty"`
	SlingAngled bool       `json:"sling_lengths_given"`
}

// HookCrane is the worst load on a crane, block in, against what it lifts.
type HookCrane struct {
	CapacityKg float64 `json:"capacity_kg"`
	BlockKg    float64 `json:"block_kg"`
	ShareLimit float64 `json:"share_limit"` // 0: none stated
	LoadKg     float64 `json:"load_kg"`     // with the block, without slings
	Used       float64 `json:"used"`        // of the capacity
}

// HookSizing is the sizing of the slings of one of two hooks.
type HookSizing struct {
	Hook string `json:"hook"`
	Sizing
}
