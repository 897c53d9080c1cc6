package takeoff_test

import (
	"fmt"
	"strings"

	"plumbhook/takeoff"
	"plumbhook/units"
)

// A plate with a hole, weighed.
func ExampleReadFrom() {
	const file = `
load: plate
units: mm
parts:
  - name: plate
    box: 2000 x 1000 x 20
    corner: [0, 0, 0]
    material: structural steel
    cuts:
      - {cylinder: {diameter: 500, height: 20}, at: [500, 500, 0]}
`
	load, err := takeoff.ReadFrom(strings.NewReader(file), "plate.yaml", nil, takeoff.Options{As: "yaml"})
	if err != nil {
		fmt.Println(err)
		return
	}
	w, err := load.Weigh()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(w.Best.Format(units.Metric))
	fmt.Printf("CG %.4f %.4f %.4f m\n", w.CG[0], w.CG[1], w.CG[2])
	// Output:
	// 283.2 kg
	// CG 1.0544 0.5000 0.0100 m
}
