package lift

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"plumbhook/takeoff"
)

// manyParts is a load file of so many parts of five kinds, each in a place of its
// own, as a drawing of a large frame would give them.
func manyParts(n int) string {
	var b strings.Builder
	b.WriteString("load: large frame\nunits: mm\nmaterial: structural steel\nparts:\n")
	sections := []string{"IPE 200", "HEB 160", "UPN 140", "L 100 x 100 x 10", "SHS 100 x 5", "IPE 120", "HEA 140", "CHS 114.3 x 5"}
	for i := range n {
		what := []string{
			fmt.Sprintf("plate: %d x %d x %d", 200+i%600, 150+i%700, []int{6, 8, 10, 12, 20}[i%5]),
			fmt.Sprintf("box: %d x %d x %d", 20+i%80, 30+i%70, 10+i%90),
			fmt.Sprintf("section: %s\n    length: %d", sections[i%len(sections)], 300+i%600),
			fmt.Sprintf("cylinder: {diameter: %d, height: %d}", 30+i%100, 50+i%800),
			fmt.Sprintf("weight: %d kg\n    status: weighed", 1+i%90),
		}[i%5]
		fmt.Fprintf(&b, "  - %s\n    name: part %d\n    at: [%d, %d, %d]\n", what, i, 1000*(i%20), 1000*(i/20%25), 1000*(i/500))
	}
	return b.String()
}

func BenchmarkTenThousandParts(b *testing.B) {
	folder := fstest.MapFS{"frame.yaml": {Data: []byte(manyParts(10_000))}}
	for b.Loop() {
		load, err := takeoff.Read(folder, "frame.yaml", takeoff.Options{})
		require.NoError(b, err)
		w, err := Weigh(load, Options{})
		require.NoError(b, err)
		require.Len(b, w.Parts, 10_000)
	}
}
