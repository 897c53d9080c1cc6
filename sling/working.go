package sling

import "plumbhook/units"

// own keeps how much a leg needs by its own factors.
func (w *Working) own(leg demand, hitch factorRow, need units.Mass) {
	w.Leg, w.Load, w.Hitch, w.Parts, w.ByFactors = leg.name, leg.load, hitch.as("hitch: "+leg.hitch), leg.parts, need
}
