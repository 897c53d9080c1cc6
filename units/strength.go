package units

// Strength is the strength of a material in N/m², as a force on an area.
type Strength float64

// KSI is 1000 pound-force to the square inch, the exact pound-force over the
// exact inch squared.
//
// Source: NIST SP 811 (2008), appendix B.8.
const KSI Strength = 1000 * Strength(PoundForce) / (0.0254 * 0.0254)

var strengths = quantity{
	name: "strength",
	units: []unit{
		{name: "MPa", also: []string{"n/mm2", "mn/m2"}, num: "1000000"},
		{name: "ksi", also: []string{"kip/in2"}, num: "4448.2216152605", den: "0.00064516"},
		{name: "psi", also: []string{"lbf/in2", "lb/in2"}, num: "4.4482216152605", den: "0.00064516"},
	},
	fix: "write MPa, N/mm2, ksi or psi after it",
}

// ParseStrength reads a strength with its unit: 355 MPa, 50 ksi. A bare number is
// refused with a *[ParseError].
func ParseStrength(text string) (Strength, error) {
	q, err := strengths.parse(text)
	return Strength(q), err
}

// Format prints the strength to four significant figures: 355.0 MPa (51.49 ksi).
func (q Strength) Format(s Show) string {
	return s.join(figures(float64(q)/1e6, nearest, 4)+" MPa", figures(float64(q/KSI), nearest, 4)+" ksi")
}
