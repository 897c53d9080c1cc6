package units

// Gravity is the standard acceleration of free fall in m/s², exact.
//
// Source: 3rd CGPM (1901), declaration on the unit of mass and the definition
// of weight; ISO 80000-3.
const Gravity = 9.80665

// Force is a force in newtons: a tension, a weight as gravity's pull.
type Force float64

// The pound-force is the weight of a pound at [Gravity], 4.4482216152605 N,
// exact; a kip is 1000 lbf.
//
// Source: NIST SP 811 (2008), appendix B.8.
const (
	PoundForce Force = pound * Gravity
	Kip        Force = 1000 * pound * Gravity
)

var forces = quantity{
	name: "force",
	units: []unit{
		{name: "N", also: []string{"newton", "newtons"}, num: "1"},
		{name: "daN", num: "10"},
		{name: "MN", num: "1000000"},
		{name: "kN", also: []string{"kilonewton", "kilonewtons"}, num: "1000"},
		{name: "lbf", also: []string{"pound-force", "pounds-force"}, num: "4.4482216152605"},
		{name: "kip", also: []string{"kips"}, num: "4448.2216152605"},
		{name: "kgf", num: "9.80665"},
		{name: "tf", num: "9806.65"},
	},
	fix:     "write N, daN, kN, MN, lbf, kip, kgf or tf after it",
	instead: map[string]string{"mass": "; 1 kg weighs 9.80665 N, 1 lb weighs 1 lbf"},
}

// ParseForce reads a force with its unit: 12 kN, 2700 lbf, 5 kip. A minus is
// allowed. A bare number and a unit of mass are refused with a *[ParseError].
func ParseForce(text string) (Force, error) {
	n, err := forces.parse(text)
	return Force(n), err
}

// Mass returns the mass in kilograms that has this weight at [Gravity].
func (f Force) Mass() Mass { return Mass(float64(f) / Gravity) }

// Format prints the force to four significant figures: 12.10 kN (2 720 lbf).
func (f Force) Format(s Show) string { return f.format(s, nearest) }

// FormatUp is Format rounded up, in each unit on its own: for what is needed.
func (f Force) FormatUp(s Show) string { return f.format(s, up) }

// FormatDown is Format rounded down, in each unit on its own: for capacities.
func (f Force) FormatDown(s Show) string { return f.format(s, down) }

func (f Force) format(s Show, r rounding) string {
	return s.join(figures(float64(f)/1000, r, 4)+" kN", figures(float64(f/PoundForce), r, 4)+" lbf")
}
