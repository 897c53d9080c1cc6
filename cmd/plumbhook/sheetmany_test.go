package main

import (
	"bytes"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"

	"plumbhook/lift"
)

// TestWorstCodeCounts: of several loads 1, then 3, then 4, as the help says.
func TestWorstCodeCounts(t *testing.T) {
	order := []int{codeProgram, codeInput, codeNotAcceptable, codeFine}
	for i, a := range order {
		for _, b := range order[i:] {
			assert.Equal(t, a, worse(a, b))
			assert.Equal(t, a, worse(b, a))
		}
	}
}

// TestFaultStaysWithItsLoad: a panic in one load ends no other, and is told with
// the name of the load.
func TestFaultStaysWithItsLoad(t *testing.T) {
	one := oneSheet{load: "-"}
	one.takeoff.As = "yaml"
	one.make(nil) // there is no standard input to ask for
	assert.ErrorIs(t, one.err, lift.ErrProgram)
	var errOut bytes.Buffer
	cmd := &cobra.Command{Use: "plumbhook"}
	cmd.SetErr(&errOut)
	one.load = "jobs/a.yaml"
	assert.Equal(t, codeProgram, one.tell(cmd))
	assert.Contains(t, errOut.String(), "jobs/a.yaml: the program failed: please report it with the input")
	problems := one.problems()
	assert.Len(t, problems, 1)
	assert.Equal(t, "jobs/a.yaml", problems[0].File)
	code, text := ended(errTold)
	assert.Equal(t, codeProgram, code)
	assert.Empty(t, text, "told once")
}
