package lift

import (
	"fmt"

	"plumbhook/rig"
	"plumbhook/units"
)

// judgeComesUp looks at how the load would hang while it is still held down. Where
// what holds it is far to one side of the picks, no legs balance it as it lies: one
// side comes up first, and the legs of the other have most of the pull until it lets
// go there. The limits are those of the free load.
func (p *plan) judgeComesUp(f *Hanging, o LiftOff, worst rig.Worst, h *Header) {
	const fix = "break it loose first: jacks, wedges, water or air under it, the side that is held last begun with; or pick it up about the middle of what holds it"
	pull := fmt.Sprintf("%s of %s", o.Kind, units.Force(o.PullKN*1000).FormatUp(units.Both))
	if !worst.Stable && f.Stable && f.StableWorst {
		h.refuse("unstable at lift-off: with %s the load does not come up as it lies, it turns about what holds it; %s", pull, fix)
		return
	}
	limit := greatestTilt
	if t := p.load.Rigging.Limits.Tilt; t != nil {
		limit = max(units.Degrees(*t), usualTilt)
	}
	switch tilt := degrees(worst.Tilt); {
	case tilt <= usualTilt+1e-9 || tilt <= f.TiltWorstDeg+1e-9: // no more than it hangs free
	case tilt > limit+1e-9:
		h.refuse("at lift-off, with %s, the load would have to tilt by %.1f° to be in balance on its legs, more than %.4g°: it comes up on one side first and lets go there all at once; %s", pull, tilt, limit, fix)
	default:
		h.warn("tilt-at-lift-off", fmt.Sprintf("at lift-off, with %s, the load would have to tilt by %.1f° to be in balance on its legs: one side comes up first", pull, tilt), fix)
	}
}
