package lift_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// What is open and empty, and an allowance that a state is without, stand among the
// assumptions.
func TestOpenHollowsAndAllowancesLeftOutAreAssumed(t *testing.T) {
	l := read(t, `
load: frame
units: mm
material: carbon steel
parts:
  - {name: column, tube: {outside: 200, wall: 8, height: 2000}, at: [0, 0, 0]}
  - {name: drain, pipe: NPS 6 sch 40, length: 900, turn: [z 0], at: [900, 0, 0], contents: {fluid: water, fill: 50 %}}
allowances: [{name: paint, weight: 5 kg}]
states: {bare: {without: [paint, drain contents]}}
`)
	const open = "hollow parts that are open at an end, or closed by other parts, and say nothing of what is in them, are empty and drained: column"
	w, err := lift.Weigh(l, lift.Options{})
	require.NoError(t, err)
	assert.Contains(t, w.Assumptions, open)
	assert.Len(t, w.Assumptions, 2)
	w, err = lift.Weigh(l, lift.Options{State: "bare"})
	require.NoError(t, err)
	assert.Contains(t, w.Assumptions, open)
	assert.Contains(t, w.Assumptions, `the allowance paint is not on in the state "bare", and its weight is left out`)
	assert.Contains(t, w.Assumptions, `drain is empty and drained in the state "bare"`)
	assert.Len(t, w.Assumptions, 4)
}
