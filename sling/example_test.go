package sling_test

import (
	"fmt"

	"plumbhook/sling"
	"plumbhook/units"
)

// Two legs at 60° from horizontal carry 2000 lb in a clean, cool place.
func ExampleChoose() {
	tension, err := units.ParseForce("1155 lbf")
	if err != nil {
		fmt.Println(err)
		return
	}
	sixty := units.FromHorizontal(units.Radians(60))
	cool := 20.0
	answer, err := sling.Choose(sling.Need{
		Rules: sling.US,
		Legs: []sling.Leg{
			{Name: "A", Tension: tension, Angle: sixty, Length: 2, Hitch: "vertical"},
			{Name: "B", Tension: tension, Angle: sixty, Length: 2, Hitch: "vertical"},
		},
		Surroundings: sling.Surroundings{Temperature: &cool, Chemicals: []string{"none"}, ChemicalsStated: true, EdgesNone: true, EdgesStated: true},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("each leg: %.0f lb\n", float64(answer.RequiredMass/units.Pound))
	for _, v := range answer.Families {
		fmt.Printf("%s, %s: %s, %s, used %.2f\n", v.Family, v.Material, v.Use, v.Choice.Size, v.Choice.Utilisation)
	}
	// Output:
	// each leg: 1155 lb
	// alloy_chain, grade 80: yes, 7/32 in, used 0.55
	// alloy_chain, grade 100: yes, 7/32 in, used 0.43
	// wire_rope, EIPS IWRC, mechanical splice: yes, 1/4 in, used 0.89
	// synthetic_web, nylon: yes, class 7, 1 ply, 1 in, used 0.72
	// synthetic_web, polyester: yes, class 7, 1 ply, 1 in, used 0.72
	// round_sling, polyester: yes, size 1, used 0.44
}
