package lift

import (
	"math"

	"plumbhook/takeoff"
)

// slingLength is the length in m of the sling of a leg, in how many parts it comes
// up, and whether that is what it takes or only the least that will do: a basket
// whose body is stated is known, a choker bites where it will.
//
// The least of a choker, derived here: its leg is reckoned from the centre of the
// body. The sling goes all round the body, no less than its girth, and from the
// choke, no lower than the top of the body, to the hook: L − R + 2πR, or of a square
// body L − deep/2 + 2·(across + deep).
func slingLength(leg Leg, hitch takeoff.Hitch) (length, parts float64, exact bool) {
	switch {
	case hitch.Kind == "basket" && leg.Hold != nil && leg.Hold.SlingLengthM != nil:
		return *leg.Hold.SlingLengthM, 2, true
	case hitch.Kind == "basket":
		return 2 * leg.LengthM, 2, false
	case hitch.Kind == "choker" && hitch.Round:
		return leg.LengthM + (2*math.Pi-1)*hitch.Across/2, 1, false
	case hitch.Kind == "choker":
		return leg.LengthM - hitch.Deep/2 + 2*(hitch.Across+hitch.Deep), 1, false
	}
	return leg.LengthM, 1, true
}

// oneLength tells whether all legs are of one length, by one kind of hitch: then
// slings of one length, whatever it is, keep the load as it was reckoned.
func oneLength(legs []Leg, g takeoff.Rigging) bool {
	for _, leg := range legs {
		if math.Abs(leg.LengthM-legs[0].LengthM) > leastMatch || g.HitchOf(leg.Pick).Kind != g.HitchOf(legs[0].Pick).Kind {
			return false
		}
	}
	return true
}
