package units_test

import (
	"fmt"

	"plumbhook/units"
)

// A planner's length is read exactly and printed in both systems.
func Example() {
	length, err := units.ParseLength(`12' 6-1/2"`, units.LengthUnit{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(length.Format(units.Both))

	_, err = units.ParseMass("5 ton")
	fmt.Println(err)
	// Output:
	// 3.823 m (12' 6-1/2")
	// ton is ambiguous: 1000 kg, 2000 lb or 2240 lb: "5 ton"
}

// What a leg needs is rounded up, what a sling bears is rounded down.
func ExampleMass_FormatUp() {
	need := units.Mass(1234.1)
	fmt.Println(need.FormatUp(units.Both))
	fmt.Println(need.FormatDown(units.Both))
	// Output:
	// 1 235 kg (2 721 lb)
	// 1 234 kg (2 720 lb)
}
