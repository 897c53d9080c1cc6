package lift

import (
	"fmt"
	"strings"

	"plumbhook/takeoff"
	"plumbhook/units"
)

// notLookedAt says what is looked at for legs straight to one hook, and is not where
// the load hangs in another way: under bars, or on two hooks.
func (p *plan) notLookedAt(where, what string, h *Header) {
	h.assume("%s: %s is not looked at; no wind, and no suction or adhesion at lift-off, is taken into account", where, what)
	var lugs []string
	for _, pick := range p.load.Rigging.Picks {
		if pick.Lug != nil {
			lugs = append(lugs, pick.Name)
		}
	}
	if len(lugs) > 0 {
		h.warn("lug-not-used", fmt.Sprintf("%s the pull on the plate of the lug at pick %s is not worked out: what the file says of how it stands is not used", where, strings.Join(lugs, ", ")),
			"hold the angles of the legs against the way that the lugs stand: a pull out of the plate bends a lug about its foot")
	}
}

// whyNoneProposed says why no other picks are proposed than those of the load file;
// empty where they are.
func whyNoneProposed(l *takeoff.Load) string {
	switch g := l.Rigging; {
	case g.Bar != nil:
		return "under bars"
	case g.TwoHooks != nil:
		return "on two hooks"
	case g.Legs.Mode == "given":
		return "with a length of its own for each leg"
	case g.Legs.Up != nil:
		return "in an attitude of its own"
	}
	return ""
}

// heaviest in kg is the greatest load that is taken for meant, with the bars that
// it hangs from: ten thousand tonnes hang on no hook.
const heaviest = 1e7

// tooHeavy is the error of a load, or of bars, that no lift is planned for; nil for
// others.
func tooHeavy(l *takeoff.Load, w Weight) error {
	what, total, fix := "the load comes", w.Weight.SizingKg, "look at the units of the parts"
	if bar := l.Rigging.Bar; bar != nil && total <= heaviest {
		what, total, fix = "load and bars come", total+float64(bar.Mass()), "look at the units of the bars' weights"
	}
	if total <= heaviest {
		return nil
	}
	return bad(l, 0, fmt.Sprintf("%s to %s, more than the %s that any lift is planned for here",
		what, units.Mass(total).Format(units.Both), units.Mass(heaviest).Format(units.Both)), fix)
}
