package units

// Area is an area in m².
type Area float64

const squareFoot Area = 0.3048 * 0.3048

var areas = quantity{
	name: "area",
	units: []unit{
		{name: "m2", also: []string{"sqm", "sq m"}, num: "1"},
		{name: "cm2", num: "0.0001"},
		{name: "mm2", num: "0.000001"},
		{name: "ft2", also: []string{"sq ft", "sqft"}, num: "0.09290304"},
		{name: "in2", also: []string{"sq in"}, num: "0.00064516"},
	},
	fix: "write m2, cm2, mm2, ft2 or in2 after it",
}

// ParseArea reads an area with its unit: 6 m2, 65 ft2. A bare number is refused
// with a *[ParseError].
func ParseArea(text string) (Area, error) {
	a, err := areas.parse(text)
	return Area(a), err
}

// Format prints the area to four significant figures: 6.000 m² (64.58 ft²).
func (a Area) Format(s Show) string {
	return s.join(figures(float64(a), nearest, 4)+" m²", figures(float64(a/squareFoot), nearest, 4)+" ft²")
}
