package lift_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
)

// Two pans of 2 × 2 × 1 m, each of 500 kg and half full of water, whose level is
// not measured: both may stand low at once. Each surface has ρI = 1000·2·2³/12 =
// 1333.3 kg·m. With the pans' middle at z = 0 the CG as drawn is at 2·2000·(−0.25)/5000 =
// −0.2 m. At a twentieth each holds 200 kg at −0.475 m: the load is 1400 kg, its CG at
// 2·200·(−0.475)/1400 = −0.1357 m, 0.0643 m higher, and the surfaces raise it by
// 2·1333.3/1400 = 1.9048 m: 1.9690 m together. No other levels do more: the mass
// under the sum grows with each. One low at a time, with 2000 kg still in the other,
// is 0.4307 m each: adding those up would be short by more than half.
func TestWorstLevelsOfSeveralTanksAtOnce(t *testing.T) {
	pans := func(second string) float64 {
		const pan = `  - {name: pan %s, weight: 500 kg, box: 2000 x 2000 x 1000, center: [%d, 0, 0], tolerance: 0 %%,
     contents: {fluid: {name: w, density: 1000 kg/m3, tolerance: 0 %%}, fill: 50 %%, tolerance: 0 %%, inside: {box: 2000 x 2000 x 1000, center: [%d, 0, 0]}%s}}
`
		h, err := lift.Legs(read(t, "load: pans\nunits: mm\nparts:\n"+fmt.Sprintf(pan, "A", -1500, -1500, "")+fmt.Sprintf(pan, "B", 1500, 1500, second)+`
picks: [{name: A, at: [-2000, 0, 1000]}, {name: B, at: [2000, 0, 1000]}]
hook: {above: picks, height: 4000}
`), lift.Options{})
		require.NoError(t, err)
		require.NotNil(t, h.Liquid)
		return h.Liquid.RiseWorstM
	}
	const least = 2*200*(-0.475)/1400 + 0.2 + 2*1000.0*4/3/1400 // 1.9690 m
	assert.InDelta(t, least, pans(""), 1e-6)
	// The second measured: 2000 kg in it, and its surface counted as well. The load
	// is 3200 kg, its CG at (200·(−0.475) − 2000·0.25)/3200.
	const measured = (200*(-0.475)-2000*0.25)/3200 + 0.2 + 2*1000.0*4/3/3200
	assert.InDelta(t, measured, pans(", measured: true"), 1e-6)
	// Baffled: no surface, and its mass stays.
	const baffled = (200*(-0.475)-2000*0.25)/3200 + 0.2 + 1000.0*4/3/3200
	assert.InDelta(t, baffled, pans(", baffled: true"), 1e-6)
}
