package lift

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/takeoff"
)

// All but the weighing: boxes around the faces, places on the top and the ways to
// its edges, the sets, the best solved, three hung and looked at for clashes. With
// 40 lugs there are 91 390 sets of four, 9880 of three and 780 of two.
func BenchmarkProposeOnMesh(b *testing.B) {
	for _, faces := range []int{1e4, 1e6} {
		for _, lugs := range []int{0, 40} {
			l := slabLoad(faces)
			for i := range lugs {
				sin, cos := math.Sincos(float64(i) * 2.4)
				out := math.Sqrt((float64(i) + 1) / 40)
				l.Rigging.Candidates.Lugs = append(l.Rigging.Candidates.Lugs, takeoff.Pick{Name: fmt.Sprint("L", i), At: geom.Vec{3 + 2.8*out*cos, 2 + 1.8*out*sin, 0.6}})
			}
			h := newHeader(l)
			w, err := weigh(l, &h)
			require.NoError(b, err)
			b.Run(fmt.Sprintf("faces=%d/lugs=%d", len(slab(faces).Faces), lugs), func(b *testing.B) {
				for b.Loop() {
					found, err := propose(l, w, Options{})
					if err != nil || len(found) != 3 {
						b.Fatal(err, len(found))
					}
				}
			})
		}
	}
}
