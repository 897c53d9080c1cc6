package report

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"plumbhook/lift"
	"plumbhook/units"
)

// TestAtAnglesNamesBothAngles: a leg at 60° from horizontal is at 30° from
// vertical. The two swapped are a factor of 1.7.
func TestAtAnglesNamesBothAngles(t *testing.T) {
	p := &page{opt: Options{Width: 120, Show: units.Metric}}
	p.atAngles([]lift.AtAngle{{FromHorizontalDeg: 60, FromVerticalDeg: 30, HoldsKg: 866}})
	assert.Contains(t, p.text(), "60.0° from horizontal (30.0° from vertical)")
}
