package lift

import (
	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// held puts what is known of how a leg takes hold into the sling's terms. Half
// the sling of a basket is the length of one of its two parts. The corners of a
// square body count as edges, see [corners]; its lesser side is what it bends round
// besides, where the corners are stated.
func held(leg sling.Leg, hitch takeoff.Hitch, hold *Hold) sling.Leg {
	if hold == nil {
		if hitch.Kind == "vertical" {
			leg.Contact = hitch.Pin // under a bar or on two hooks
		}
		return leg
	}
	switch {
	case hitch.Round || hitch.Kind == "vertical":
		leg.Contact = hold.ContactM
	case hitch.EdgeRadius != nil:
		leg.Contact = min(hitch.Across, hitch.Deep)
	}
	turn := func(degrees *float64) *units.Turn {
		if degrees == nil {
			return nil
		}
		t := units.Turn(units.Radians(*degrees))
		return &t
	}
	leg.Included, leg.Choke = turn(hold.PartsIncludedDeg), turn(hold.ChokeDeg)
	leg.Uneven = hold.Uneven
	if hold.SlingLengthM != nil {
		leg.Length = *hold.SlingLengthM / 2
	}
	return leg
}

// corners lets the corners of square bodies count as edges, the sharpest of all
// for the set: a body with corners has edges, whatever the surroundings say.
func corners(g takeoff.Rigging, n *sling.Need, h *Header) {
	for _, leg := range n.Legs {
		hitch := g.HitchOf(leg.Name)
		if !hitch.Bight() || hitch.Round || hitch.Across == 0 {
			continue
		}
		at := &n.Surroundings
		switch radius := hitch.EdgeRadius; {
		case radius != nil && (at.EdgeRadius == nil || *radius < *at.EdgeRadius):
			at.EdgeRadius, at.EdgesNone, at.EdgesStated = radius, false, true
		case radius == nil && at.EdgesNone:
			at.EdgesNone, at.EdgesStated = false, false
			h.assume("the surroundings say that there are no edges, but leg %s goes round a square body whose edges are not stated: counted as not stated", leg.Name)
		}
	}
}
