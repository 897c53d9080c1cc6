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
