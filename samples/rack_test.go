package samples_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/takeoff"
)

// TestMotorRackSlings: what a rigger finds in the rack on 4 May 2026. Of the 8 mm
// chains one is out of date, so that the next larger four are taken; of the ropes
// all but one are 100 mm short of 2660 − 160; of the webs there are two.
func TestMotorRackSlings(t *testing.T) {
	load, err := takeoff.Read(os.DirFS("."), "motor-rack.yaml", takeoff.Options{})
	require.NoError(t, err)
	s, err := lift.Slings(load, lift.Options{Date: "2026-05-04"})
	require.NoError(t, err)
	assert.Empty(t, s.Warnings)
	complete, size := map[string]bool{}, map[string]string{}
	for _, set := range s.Stock.Sets {
		complete[set.Family], size[set.Family] = set.Complete, set.Size
	}
	assert.Equal(t, map[string]bool{"round_sling": true, "two_path_round_sling": true, "alloy_chain": true, "wire_rope": false, "synthetic_web": false}, complete)
	assert.Equal(t, "10 mm", size["alloy_chain"])
	assert.Equal(t, "3 t", size["round_sling"])
}
