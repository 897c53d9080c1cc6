package takeoff

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What was not on takes its contents along, in all copies; contents alone leave
// their vessel.
func TestWithoutInAWeighing(t *testing.T) {
	for _, tt := range []struct {
		without, part string
		off           bool
	}{
		{"tank", "tank", true}, {"tank", "tank contents", true}, {"tank", "tank contents, copy 2", true}, {"tank", "tank 2", false},
		{"tank contents", "tank", false}, {"tank contents", "tank contents", true}, {"tank contents", "tank contents, copy 2", true},
		{"skid", "skid / beam", true}, {"skid", "skids", false},
	} {
		assert.Equal(t, tt.off, Weighing{Without: []string{tt.without}}.off(tt.part), "%s without %s", tt.part, tt.without)
	}
}
