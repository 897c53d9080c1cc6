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

// TestBarsArePrintedAsBefore holds what the program makes of the samples under
// bars: their figures are held to hand calculations elsewhere, here none of them
// may move unseen.
func TestBarsArePrintedAsBefore(t *testing.T) {
	for _, name := range []string{"conveyor-spreader", "roof-two-tiers"} {
		load, err := takeoff.Read(os.DirFS("."), name+".yaml", takeoff.Options{})
		require.NoError(t, err)
		legs, err := lift.Legs(load, lift.Options{})
		require.NoError(t, err)
		var b strings.Builder
		require.NoError(t, report.Text(&b, legs, report.Options{Show: units.Metric}))
		file := filepath.Join("testdata", name+"-legs.golden.txt")
		if *update {
			require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o644))
		}
		want, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, string(want), b.String(), "if this is meant: go test ./samples -update, and look at the difference")
	}
}
