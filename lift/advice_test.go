package lift_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// A machine of 3800 kg that may weigh a quarter more needs a larger sling than
// one that is known to; a bracket of 20 kg ± 25 % makes no difference. Two level
// legs at 60° carry W/2/sin 60° each.
func TestAdviceToWeigh(t *testing.T) {
	const load = `
load: machine
units: mm
parts:
  - {name: machine, weight: 3800 kg, at: [0, 0, 0], tolerance: %s}
  - {name: bracket, weight: 20 kg, at: [0, 0, 100], status: estimated}
picks: [{name: A, at: [-600, 0, 500]}, {name: B, at: [600, 0, 500]}]
rules: EN
limits: {crane: {capacity: %s, block: 100 kg}}
`
	s, err := lift.Slings(read(t, fmt.Sprintf(load, "25 %", "20 t")), lift.Options{})
	require.NoError(t, err)
	require.NotEmpty(t, s.Advice)
	assert.Contains(t, s.Advice[0], `weigh "machine": if it comes to the 3 800 kg`)
	assert.Contains(t, s.Advice[0], "will do in place of")

	s, err = lift.Slings(read(t, fmt.Sprintf(load, "0.1 %", "20 t")), lift.Options{})
	require.NoError(t, err)
	require.Len(t, s.Advice, 1)
	assert.Contains(t, s.Advice[0], "weighing no single part would save")

	s, err = lift.Slings(read(t, fmt.Sprintf(load, "25 %", "4.2 t")), lift.Options{})
	require.NoError(t, err)
	assert.False(t, s.Verdict.Acceptable)
	assert.True(t, strings.HasSuffix(s.Advice[0], "the crane lifts it"), s.Advice)
}
