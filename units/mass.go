package units

// Mass is an amount of matter in kilograms: what the trade calls weight.
type Mass float64

// The pound is 0.45359237 kg, exact; a short ton is 2000 lb, a long ton 2240 lb,
// a tonne 1000 kg.
//
// Source: international yard and pound agreement, 1959; NIST SP 811 (2008),
// appendix B.8; BIPM SI Brochure, 9th edition, table 8 (tonne).
const (
	Pound    Mass = pound
	ShortTon Mass = 2000 * pound
	LongTon  Mass = 2240 * pound
	Tonne    Mass = 1000

	pound = 0.45359237 // without a type, so that products of it are exact
)

var masses = quantity{
	name: "mass",
	units: []unit{
		{name: "kg", also: []string{"kgs", "kilogram", "kilograms"}, num: "1"},
		{name: "g", also: []string{"gram", "grams"}, num: "0.001"},
		{name: "t", also: []string{"tonne", "tonnes", "metric ton", "metric tons"}, num: "1000"},
		{name: "lb", also: []string{"lbs", "pound", "pounds", "lbm", "lb.", "lbs."}, num: "0.45359237"},
		{name: "short ton", also: []string{"short tons"}, num: "907.18474"},
		{name: "long ton", also: []string{"long tons"}, num: "1016.0469088"},
	},
	fix:     "write kg, g, t, lb, short ton or long ton after it",
	instead: map[string]string{"force": "; 1 kN is the weight of 101.97 kg, 1 lbf of 1 lb"},
}

// ParseMass reads a mass with its unit: 260 kg, 1.2 t, 500 lb, 2 short ton. A
// bare number, the word ton alone (three tons exist), a unit of force and a
// negative mass are refused with a *[ParseError].
func ParseMass(text string) (Mass, error) {
	kg, err := masses.parse(text)
	if err == nil && kg < 0 {
		err = wrong(text, "a mass below zero", "write the mass without a minus")
	}
	if err != nil {
		return 0, err
	}
	return Mass(kg), nil
}

// Weight returns the force of gravity on the mass, in newtons, at [Gravity].
func (m Mass) Weight() Force { return Force(float64(m) * Gravity) }

// Format prints the mass to four significant figures: 1 234 kg (2 721 lb).
func (m Mass) Format(s Show) string { return m.format(s, nearest) }

// FormatUp is Format rounded up, in each unit on its own: for what is needed.
func (m Mass) FormatUp(s Show) string { return m.format(s, up) }

// FormatDown is Format rounded down, in each unit on its own: for capacities.
func (m Mass) FormatDown(s Show) string { return m.format(s, down) }

func (m Mass) format(s Show, r rounding) string {
	return s.join(figures(float64(m), r, 4)+" kg", figures(float64(m/Pound), r, 4)+" lb")
}
