package rig

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"plumbhook/geom"
)

// benchRig is a load with its picks on an ellipse and its CG a little off the
// middle, on legs that hang it as drawn, or all of one length.
func benchRig(legs int, level bool) Rig {
	r := Rig{Weight: 100e3, CG: geom.Vec{0.2, 0, -0.5}}
	if legs > 2 {
		r.CG[1] = 0.1
	}
	for i := range legs {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(legs))
		r.Picks = append(r.Picks, geom.Vec{2 * c, 1.2 * s, 0})
	}
	if level {
		r.Lengths = LevelLengths(r.Picks, geom.Vec{r.CG[0], r.CG[1], 3})
		return r
	}
	for range legs {
		r.Lengths = append(r.Lengths, 4)
	}
	return r
}

func BenchmarkHang(b *testing.B) {
	for _, legs := range []int{2, 3, 4, 8} {
		for _, level := range []bool{true, false} {
			r, as := benchRig(legs, level), "as drawn"
			if !level {
				as = "tilted"
			}
			b.Run(strconv.Itoa(legs)+" legs "+as, func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, err := r.Hang(); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// aroundCG are 16 places in a ring of 50 mm about the CG.
func aroundCG(r Rig) []Place {
	var places []Place
	for i := range 16 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 16)
		places = append(places, Place{r.CG.Add(geom.Vec{0.05 * c, 0.05 * s, 0.02 * c * s}), fmt.Sprintf("CG %d", i+1)})
	}
	return places
}

// BenchmarkWorst solves four legs at 17 places of the CG on 17 sets of lengths.
func BenchmarkWorst(b *testing.B) {
	for _, level := range []bool{true, false} {
		r, as := benchRig(4, level), "as drawn"
		if !level {
			as = "tilted"
		}
		doubt := Doubt{CGs: aroundCG(r), Lengths: []float64{0.01, 0.01, 0.01, 0.01}, Body: r.Picks}
		b.Run(as, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := r.Worst(doubt); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
