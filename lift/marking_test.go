package lift_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// A block of 1000 kg on four lugs of its top: what is painted on it is read off
// the load file, the datum being 500 mm inside its edges.
const marked = `load: block
units: mm
parts:
  - {name: block, weight: 1000 kg, tolerance: 10 %, box: 2000 x 1000 x 800, corner: [-500, -500, 100]}
rules: US
picks:
  - {name: A, at: [-400, -400, 900]}
  - {name: B, at: [1400, -400, 900]}
  - {name: C, at: [1400, 400, 900]}
  - {name: D, at: [-400, 400, 900]}
hook: {above: picks, height: 1800}
`

func TestMarkingOfABlock(t *testing.T) {
	s, err := lift.Sheet(read(t, marked), lift.Options{})
	require.NoError(t, err)
	require.True(t, s.Verdict.Acceptable, "%v", s.Verdict.Reasons)
	m := s.Marking
	require.NotNil(t, m)
	assert.InDelta(t, 1100, m.WeightKg, 1e-9, "kg: the high weight")
	assert.Equal(t, []string{
		"WEIGHT 1 100 kg (2 426 lb)", // 1100/0.45359237 = 2425.08 lb, rounded up
		`CG 1.000 m (3' 3-3/8") from the edge of least x, 500 mm (1' 7-11/16") from the edge of least y, 400 mm (1' 3-3/4") above the underside`,
		`PICK A 100 mm (3-15/16") from the edge of least x, 100 mm (3-15/16") from the edge of least y, 800 mm (2' 7-1/2") above the underside`,
		`PICK B 1.900 m (6' 2-13/16") from the edge of least x, 100 mm (3-15/16") from the edge of least y, 800 mm (2' 7-1/2") above the underside`,
		`PICK C 1.900 m (6' 2-13/16") from the edge of least x, 900 mm (2' 11-7/16") from the edge of least y, 800 mm (2' 7-1/2") above the underside`,
		`PICK D 100 mm (3-15/16") from the edge of least x, 900 mm (2' 11-7/16") from the edge of least y, 800 mm (2' 7-1/2") above the underside`,
	}, m.Lines)
	assert.Len(t, m.Picks, 4)
}

// TestNoPicksArePaintedForARefusedLift: weight and CG stay true, the picks do not.
func TestNoPicksArePaintedForARefusedLift(t *testing.T) {
	s, err := lift.Sheet(read(t, marked+"limits: {headroom: 100 mm}\n"), lift.Options{Draw: true})
	require.NoError(t, err)
	require.False(t, s.Verdict.Acceptable)
	assert.Empty(t, s.Marking.Picks)
	assert.Len(t, s.Marking.Lines, 2)
	for _, d := range s.Drawings {
		assert.Contains(t, d.Title, "NOT ACCEPTABLE")
	}
}
