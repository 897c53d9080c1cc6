package lift

import "plumbhook/geom"

// HungBar is a bar of the rigging as it hangs.
type HungBar struct {
	Name            string   `json:"name"`
	Kind            string   `json:"kind"`
	WeightKg        float64  `json:"weight_kg"`
	TiltDeg         float64  `json:"tilt_deg"`
	TiltWorstDeg    float64  `json:"tilt_worst_deg"`
	AtM             geom.Vec `json:"at_m"` // the middle of its lower points, in the load's axes as drawn
	Along           geom.Vec `json:"along"`
	Ends            []BarEnd `json:"ends"`
	CompressionKN   float64  `json:"compression_kn"` // along it, at worst; of a frame the whole section
	AcrossKN        float64  `json:"compression_across_kn,omitempty"`
	MomentKNM       float64  `json:"moment_knm"`                 // greatest bending, at worst; of a frame the whole section
	HoldAtM         *float64 `json:"hold_at_m,omitempty"`        // from its middle toward its second end, for it to hang level; of a beam held at one point
	LeastHookM      *float64 `json:"least_hook_m,omitempty"`     // height of the hook above its upper points below which load or bars would roll, at worst
	HookM           *float64 `json:"hook_above_m,omitempty"`     // and the height that there is
	CompressionCase string   `json:"compression_case,omitempty"` // in words
	MomentCase      string   `json:"moment_case,omitempty"`      // in words
}

// BarEnd is what hangs from one end or corner of a bar.
type BarEnd struct {
	AtM      geom.Vec `json:"at_m"`       // as drawn
	HangsAtM geom.Vec `json:"hangs_at_m"` // as it hangs, in the axes of the load, which hangs as well
	Holds    []string `json:"holds"`
}

// UpperLeg is a leg that holds a bar.
type UpperLeg struct {
	Name                   string      `json:"name"`
	LengthM                float64     `json:"length_m"`
	FromHorizontalDeg      float64     `json:"from_horizontal_deg"`
	FromVerticalDeg        float64     `json:"from_vertical_deg"`
	WorstFromHorizontalDeg float64     `json:"worst_from_horizontal_deg"`
	TensionKN              float64     `json:"tension_kn"`
	WorstTensionKN         float64     `json:"worst_tension_kn"`
	Slack                  bool        `json:"slack"`
	EndsM                  [2]geom.Vec `json:"ends_m"` // as it hangs, the upper one first, in the axes of the load
	Case                   string      `json:"case"`   // in which it carries most, in words

	tier, bar int
	verticalN float64     // the most that it holds up
	ends      [2]geom.Vec // as drawn, the upper one first
}

// BarRigging is what a load under bars has beside the drops to its picks.
type BarRigging struct {
	Bars      []HungBar  `json:"bars,omitempty"`
	UpperLegs []UpperLeg `json:"upper_legs,omitempty"`
	// UpperGoverning is the leg above the bars with the greatest tension.
	UpperGoverning string  `json:"upper_governing,omitempty"`
	UpperCase      string  `json:"upper_governing_case,omitempty"` // in words
	BarsKg         float64 `json:"bars_kg,omitempty"`
}
