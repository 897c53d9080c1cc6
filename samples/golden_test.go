package samples_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// TestRinseTankIsPrintedAsBefore holds what the program makes of the sample with
// states and contents: its figures are held to hand calculations elsewhere, here
// none of them may move unseen.
func TestRinseTankIsPrintedAsBefore(t *testing.T) {
	load, err := takeoff.Read(os.DirFS("."), "rinse-tank.yaml", takeoff.Options{})
	require.NoError(t, err)
	weigh, err := lift.Weigh(load, lift.Options{})
	require.NoError(t, err)
	dip, err := lift.DipTable(load, "tank", 20, lift.Options{})
	require.NoError(t, err)
	legs, err := lift.Legs(load, lift.Options{})
	require.NoError(t, err)
	for name, result := range map[string]any{"weigh": weigh, "dip": dip, "legs": legs} {
		printed(t, "rinse-tank-"+name, result)
	}
}

// TestStackSectionIsPrintedAsBefore does the same for two hooks.
func TestStackSectionIsPrintedAsBefore(t *testing.T) {
	load, err := takeoff.Read(os.DirFS("."), "stack-section.yaml", takeoff.Options{})
	require.NoError(t, err)
	legs, err := lift.Legs(load, lift.Options{})
	require.NoError(t, err)
	printed(t, "stack-section-legs", legs)
}

func printed(t *testing.T, name string, result any) {
	t.Helper()
	var b strings.Builder
	require.NoError(t, report.Text(&b, result, report.Options{Show: units.Metric}))
	file := filepath.Join("testdata", name+".golden.txt")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), b.String(), "if this is meant: go test ./samples -update, and look at the difference")
}
