package sling

import "plumbhook/units"

// Rules names the rule set that a lift is planned under.
type Rules string

// The rule sets. US: ASME B30.9 and 29 CFR 1910.184, 1926.251. EN: EN 818,
// EN 1492, EN 13414.
const (
	US Rules = "US"
	EN Rules = "EN"
)

// The answers to "may it be used here?", from best to worst.
const (
	Yes  = "yes"
	Care = "care"
	No   = "no"
)

// Surroundings is where the slings work. The zero value states nothing. Where
// temperature, chemicals or edges are not stated no family is better than care.
type Surroundings struct {
	Temperature *float64 // °C; nil: not stated
	// Chemicals are acid, alkali, bleach, oil, organic solvent, sea water or
	// phenolics, common synonyms of these, or "none". Another word is no error:
	// it makes every family care, "ask the maker". Words of strength may stand with
	// the name: "dilute acid", "hot bleach".
	Chemicals       []string
	ChemicalsStated bool
	EdgeRadius      *float64 // m, of the sharpest edge that the slings bear on; nil: not stated
	EdgesNone       bool     // stated: the slings bear on no edge
	EdgesStated     bool     // true with neither of the two above: edges of unknown radius, taken as sharp
	EdgeProtection  string   // what covers the edge, "" if nothing does; a sharp edge stays care with it
	Surface         string   // "" (not stated), rough, finished and words like them
	Outdoors        *bool
	// Conditions says by name, see [Conditions], what is expected (true) and what
	// is not (false). What is not in it is not judged, see [Surroundings.Unstated].
	Conditions map[string]bool
}

// Leg is one sling of the set as the hung load pulls it.
type Leg struct {
	Name    string
	Tension units.Force          // N, worst static
	Angle   units.FromHorizontal // rad, flattest, worst
	Length  float64              // m, bearing to bearing; 0: not known
	Hitch   string               // vertical, choker or basket; "" is taken as vertical
	// Contact is the diameter in m of what the sling takes hold of: the pin in
	// the eye of a vertical hitch, the body that a basket or choker goes round.
	// 0: not stated.
	Contact float64
	// Included is the angle in rad between the two parts of a basket, below half
	// a turn, and Choke the angle of choke of a choker, half a turn with both
	// parts in line; nil: not stated.
	Included, Choke *units.Turn
	// Uneven is what the part of a basket that carries more carries beside half,
	// 1 to 2; 0: the same as the other. It counts where Included is stated.
	Uneven float64
}

// Need is what the slings must do. All legs of a set take one size.
type Need struct {
	Rules   Rules
	Legs    []Leg
	Weight  units.Force // N, sizing weight of the load; EN sets of 2 to 4 legs are checked against it
	Dynamic float64     // factor on the load side, 1 or more; 0: none stated, 1 is taken
	// LeastAngle is the least angle from horizontal that the planner allows;
	// 0: that of the rule set.
	LeastAngle units.FromHorizontal
	// Apart: the legs hang from places of their own, as drops from a bar do, and
	// are no set on one hook: they take one size, and no rule for a set holds.
	Apart        bool
	Surroundings Surroundings
	Stock        *Stock // nil: none is listed
}

// Factor is one figure of the sizing and where it comes from.
type Factor struct {
	Name   string
	Value  float64
	Source string
	Basis  string // read, from memory, computed, common practice, stated, assumed
}

// AtAngle is what one leg holds up, standing at an angle.
type AtAngle struct {
	Angle units.FromHorizontal
	Holds units.Mass // kg of the load, plumb
}

// Choice is the smallest size of a family that is large enough.
type Choice struct {
	Size        string
	Rated       units.Mass // kg, of one leg in a vertical hitch, as the table prints it
	Required    units.Mass // kg, rating of one leg that this family must have, its own factors in
	Utilisation float64    // 0 to 1: the greatest of required/rated over the legs and the set
	Weight      units.Mass // kg, of all legs, without end fittings; 0: not known, see Note
	AtAngles    []AtAngle  // what one leg of it holds up at 60°, 45° and 30° from horizontal
	Source      string
	Basis       string // of Rated: read, from memory, computed, common practice
	Note        string
	Working     Working
}

// Working is how a required rating came about: Load ÷ (Hitch × Parts × the
// factors of the family) is ByFactors; the check of the set, or a rating that the
// table prints for the hitch itself, may ask for more.
type Working struct {
	Leg       string     // that uses the size most
	Load      units.Mass // kg, tension × dynamic
	Hitch     Factor
	Parts     float64 // what a basket's parts hold beside plumb ones; 1: plumb, or no basket
	ByFactors units.Mass
	Set       units.Mass // kg, what the check of the set asks of one leg; 0: no check
	SetLoad   units.Mass // kg, load of the set × dynamic
	Mode      Factor     // of the set
	Choke     Factor     // of the set; 1 where none of its legs chokes
}

// Verdict says whether a family may be used here, why, and in which size.
type Verdict struct {
	Family   string
	Material string
	Use      string // yes, care or no
	Reasons  []string
	Design   *Factor  // breaking strength when new over rated load; nil: the rule set has none for the family
	Against  []string // those of Reasons that make it less than a yes, the worst first
	ByTag    bool     // no table of capacities is published: there is no choice, and the tag of the sling says what it may carry
	Cautions []string // that go with the family wherever it is used
	Choice   *Choice  // nil: use is no, or no size is large enough; Reasons says which
	Factors  []Factor // of this family beyond the common ones, at its worst used leg
}

// Answer is what the slings must be rated for, and what may be used.
type Answer struct {
	// Required is, by leg, the vertical rating in kg that the common factors
	// ask for: dynamic, hitch and, under EN, the check of the set. Temperature,
	// bend and edge differ by family and come on top, see [Verdict].
	Required     map[string]units.Mass
	Governing    string             // the leg with the greatest of Required
	RequiredMass units.Mass         // kg, of the governing leg
	Working      Working            // of the governing leg, by the common factors
	Hitch        map[string]float64 // by leg: the hitch factor, with that of the parts of a basket
	SetFactor    float64            // of the check of the set: load × dynamic over it; 0: there is none
	SetRequired  units.Mass         // kg, what the check of the set asks of each leg
	Factors      []Factor
	Families     []Verdict
	Stock        []StockSet // from Need.Stock, by family and material: what makes a set first
	Warnings     []string
	TooFlat      []string // legs flatter than the least angle allows: not acceptable
	Reasons      []string // why else the lift is not acceptable; both empty if it is
}
