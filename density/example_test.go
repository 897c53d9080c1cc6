package density_test

import (
	"errors"
	"fmt"

	"plumbhook/density"
	"plumbhook/units"
)

func ExampleFind() {
	m, err := density.Find("Structural-Steel")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %s ± %g %%\n", m.Name, m.Density.Format(units.Both), m.Tolerance*100)

	_, err = density.Find("bronze")
	var unknown *density.UnknownError
	if errors.As(err, &unknown) {
		fmt.Println(unknown)
		fmt.Println(unknown.Fix())
	}
	// Output:
	// carbon steel: 7850 kg/m³ (490.1 lb/ft³) ± 0.5 %
	// "bronze" may be any of several materials
	// write which one: tin bronze, aluminium bronze; or give its density: {name: ..., density: 7850 kg/m3, tolerance: 1 %}
}

func ExampleFindSection() {
	for _, name := range []string{"HEA 200", "W 12 X 26", "HSS4x4x1/4", `6" sch 40`, "flat 100x10", "IPE 210"} {
		s, err := density.FindSection(name)
		var unknown *density.UnknownError
		switch {
		case errors.As(err, &unknown):
			fmt.Println(unknown, "near", unknown.Near)
		case err != nil:
			fmt.Println(err)
		default:
			fmt.Printf("%s (%s, %s): %.2f kg/m, %s\n", s.Name, s.Shape, s.Standard, s.PerLength, s.Basis)
		}
	}
	// Output:
	// HEA 200 (I section, EN 10365): 42.30 kg/m, read
	// W12x26 (I section, ASTM A6): 38.69 kg/m, read
	// HSS4x4x1/4 (rectangular hollow section, ASTM A500): 18.17 kg/m, computed
	// NPS 6 sch 40 (round hollow section, ASME B36.10M): 28.26 kg/m, computed
	// flat 100x10 (flat bar, EN 10058): 7.85 kg/m, computed
	// unknown section "IPE 210" near [IPE 220 IPE 200 IPE 240]
}

func ExamplePlateTolerance() {
	t, err := density.PlateTolerance(0.010, "A")
	fmt.Printf("%+.1f %% to %+.1f %% (%s) %v\n", 100*t.Low, 100*t.High, t.Source, err)
	// Output: -5.0 % to +12.0 % (EN 10029:1991, Table 1) <nil>
}
