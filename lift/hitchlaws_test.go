package lift_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/lift"
)

// drawHitch writes a hitch that the reader takes, of any kind and size.
func drawHitch(t *rapid.T, name string) (text string, free bool) {
	kind := rapid.SampledFrom([]string{"basket", "choker", "vertical"}).Draw(t, name)
	keys := []string{"kind: " + kind}
	maybe := func(key, format string, low, high float64) bool {
		if !rapid.Bool().Draw(t, name+" has "+key) {
			return false
		}
		keys = append(keys, key+": "+fmt.Sprintf(format, rapid.Float64Range(low, high).Draw(t, name+" "+key)))
		return true
	}
	if kind == "vertical" {
		maybe("pin", "%.4f", 0.001, 0.2)
		return "{" + strings.Join(keys, ", ") + "}", false
	}
	if rapid.Bool().Draw(t, name+" square") {
		maybe("around", "%.4f x 0.5", 0.01, 5)
	} else {
		maybe("around", "%.4f", 0.01, 5)
	}
	maybe("friction", "%.3f", 0.001, 1)
	if kind == "basket" {
		maybe("included angle", "%.2f", 0, 150)
	} else {
		maybe("choke angle", "%.2f", 0.01, 180)
	}
	keys = append(keys, "along: "+rapid.SampledFrom([]string{"x", "y", "z", "[1, 0, 0.2]"}).Draw(t, name+" along"))
	free = true
	if rapid.Bool().Draw(t, name+" restrained") {
		keys, free = append(keys, "restrained: cleats"), false
	}
	return "{" + strings.Join(keys, ", ") + "}", free
}

// A load in bights that nothing restrains is never called stable without the
// condition, every figure is a number, and nothing of a hitch makes the program fail.
func TestNeverPlainlyStableInFreeBights(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var picks string
		free := false
		x := []float64{-2, 2, 0}
		for i := range rapid.IntRange(1, 3).Draw(t, "legs") {
			hitch, slides := drawHitch(t, string(rune('A'+i)))
			free = free || slides
			picks += fmt.Sprintf("  - {name: %c, at: [%g, %g, 0], hitch: %s}\n", 'A'+i, x[i], float64(i/2), hitch)
		}
		z := rapid.Float64Range(-1, 0.2).Draw(t, "cg z")
		yaml := fmt.Sprintf("load: a\nunits: m\nparts:\n  - {name: w, weight: 2 t, at: [0, 0.05, %.3f], status: weighed, box: 5 x 0.6 x 0.6}\npicks:\n%slegs: {lengths: %.2f}\nrules: %s\n",
			z, picks, rapid.Float64Range(1, 9).Draw(t, "length"), rapid.SampledFrom([]string{"US", "EN"}).Draw(t, "rules"))
		s, err := lift.Sheet(read(t, yaml), lift.Options{})
		require.NoError(t, err, yaml)
		_, err = json.Marshal(s)
		require.NoError(t, err, yaml)
		if !s.Legs.Solved || !free {
			return
		}
		for _, leg := range s.Legs.Legs {
			if leg.Hold != nil && leg.Hold.Restrained == "" && leg.Hold.Kind != "vertical" && leg.WorstTensionKN > 0 && leg.Hold.FrictionNeeded != nil {
				assert.NotEmpty(t, s.Legs.Stability.Condition, yaml)
				assert.False(t, strings.HasPrefix(s.Legs.Stability.Text, "stable:"), "%s\n%s", s.Legs.Stability.Text, yaml)
			}
		}
	})
}
