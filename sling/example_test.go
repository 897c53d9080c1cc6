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
		if v.Choice == nil || v.Family == "metal_mesh" {
			continue
		}
		fmt.Printf("%s, %s: %s, %s, used %.2f\n", v.Family, v.Material, v.Use, v.Choice.Size, v.Choice.Utilisation)
	}
	// Output:
	// each leg: 1155 lb
	// alloy_chain, grade 80: yes, 7/32 in, used 0.55
	// alloy_chain, grade 100: yes, 7/32 in, used 0.43
	// wire_rope, EIPS IWRC, mechanical splice: yes, 1/4 in, used 0.89
	// wire_rope, EEIPS IWRC, mechanical splice: yes, 1/4 in, used 0.81
	// wire_rope, IPS IWRC, hand-tucked splice: yes, 5/16 in, used 0.71
	// wire_rope, IPS IWRC, mechanical splice: yes, 5/16 in, used 0.66
	// wire_rope, IPS IWRC, swaged or poured socket: yes, 1/4 in, used 0.98
	// wire_rope, IPS fibre core, mechanical splice: yes, 5/16 in, used 0.72
	// wire_rope, IPS fibre core, strand-laid grommet: yes, 1/4 in, used 0.69
	// synthetic_web, nylon: yes, class 7, 1 ply, 1 in, used 0.72
	// synthetic_web, polyester: yes, class 7, 1 ply, 1 in, used 0.72
	// synthetic_web, nylon, endless: yes, 1600 lb/in class, 1 ply, 1 in, used 0.44
	// synthetic_web, polyester, endless: yes, 1600 lb/in class, 1 ply, 1 in, used 0.44
	// round_sling, polyester: yes, size 1, used 0.44
	// synthetic_rope, nylon, three-strand: yes, 9/16 in, used 0.90
	// synthetic_rope, polyester, three-strand: yes, 5/8 in, used 0.83
	// synthetic_rope, polypropylene, three-strand: yes, 3/4 in, used 0.84
}
