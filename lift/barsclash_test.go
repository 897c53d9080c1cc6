package lift_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// A slab on two plumb drops below a bar that runs 1 m above its picks, along x in
// its middle plane; the legs above it go up to a hook 2 m higher.
func underBar(t *testing.T, part string) lift.Hung {
	t.Helper()
	h, err := lift.Legs(read(t, `
load: slab with something on it
units: m
material: structural steel
parts:
  - {name: slab, box: 4 x 2 x 0.1, center: [0, 0, 0.05], position: 0.00001, tolerance: 0.0001 %}
  - {name: ballast, weight: 2 t, at: [0, 0, -0.5], tolerance: 0.0001 %}
  - `+part+`
picks:
  - {name: left, at: [-1.5, 0, 0.1]}
  - {name: right, at: [1.5, 0, 0.1]}
rig:
  bar: {name: beam, kind: spreader, weight: 100 kg, length: 3, height: 1, hook: 2, length tolerance: 0.0001 %, holds: [left, right]}
rules: EN
`), lift.Options{})
	require.NoError(t, err)
	require.True(t, h.Solved, h.Verdict.Reasons)
	return h
}

// By hand: the bar's line is at z 1.1; the mast's top at 1.101 is in it, at 1.099 a
// millimetre below. The legs above run in from (±1.5, 0, 1.1) to the hook at z 3.1.
func TestBarsHeldAgainstTheLoad(t *testing.T) {
	mast := func(top float64) string {
		return fmt.Sprintf("{name: mast, box: 0.1 x 0.1 x %g, corner: [-0.05, -0.05, 0.1], tolerance: 0.0001 %%}", top-0.1)
	}
	high := underBar(t, mast(1.101))
	require.Len(t, high.Clashes, 1, "%v", high.Clashes)
	assert.Equal(t, "bar beam", high.Clashes[0].Pick)
	assert.Equal(t, "mast", high.Clashes[0].With)
	assert.False(t, high.Verdict.Acceptable)
	assert.Contains(t, strings.Join(high.Verdict.Reasons, "\n"), "bar beam runs into mast")
	low := underBar(t, mast(1.099))
	assert.Empty(t, low.Clashes)
	require.Len(t, low.NearMisses, 1)
	assert.InDelta(t, 0.001, low.NearMisses[0].GapM, 5e-5)
	assert.True(t, low.Verdict.Acceptable, low.Verdict.Reasons)
	free := underBar(t, mast(1.06))
	assert.Empty(t, free.Clashes)
	assert.Empty(t, free.NearMisses)
	assert.Equal(t, 2, free.Looked-len(free.NotLooked), "slab and mast: the ballast has no shape")
}

// A drop is a leg like another: it may touch what it takes hold of at its pick and
// nothing else; and so are the legs above the bar.
func TestDropsAndUpperLegsHeldAgainstTheLoad(t *testing.T) {
	post := underBar(t, "{name: post, box: 0.1 x 0.1 x 0.5, corner: [1.45, -0.05, 0.3], tolerance: 0.0001 %}")
	require.NotEmpty(t, post.Clashes)
	assert.Equal(t, "right", post.Clashes[0].Pick)
	assert.InDelta(t, 0.2, post.Clashes[0].AlongM, 0.3, "from its underside at z 0.3 on")
	// Half way up, the leg to the hook is at x 0.75, z 2.1: a chimney beside the bar's line
	// reaches in there.
	chimney := underBar(t, "{name: chimney, box: 0.1 x 0.1 x 0.4, corner: [0.7, -0.05, 1.9], tolerance: 0.0001 %}")
	require.NotEmpty(t, chimney.Clashes)
	assert.Equal(t, "leg hook–beam 2", chimney.Clashes[0].Pick)
	assert.Contains(t, strings.Join(chimney.Verdict.Reasons, "\n"), "hang the bars higher, or move the picks")
}
