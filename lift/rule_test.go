package lift_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// Three legs at 60°, two of them near the CG: by moments about the line of B and
// C leg A carries 0.6/1.2 of 1000 kg, and over sin 60° more than the 1000·g/2.1
// that the mode factor gives each. With the CG in the middle of the picks it
// carries a third, and the rule is on the safe side.
func TestRuleThatUndersizesIsWarnedOf(t *testing.T) {
	codes := func(x string) (list []string) {
		h, err := lift.Legs(read(t, `
load: block
units: mm
parts: [{name: block, weight: 1000 kg, at: [`+x+`, 0, 0], tolerance: 0.1 %}]
picks: [{name: A, at: [800, 0, 500]}, {name: B, at: [-400, -600, 500]}, {name: C, at: [-400, 600, 500]}]
rules: EN
`), lift.Options{})
		require.NoError(t, err)
		for _, w := range h.Warnings {
			list = append(list, w.Code)
		}
		return list
	}
	assert.Contains(t, codes("200"), "rule-undersizes")
	assert.NotContains(t, codes("0"), "rule-undersizes")
}
