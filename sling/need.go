package sling

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"plumbhook/units"
)

// The hitches.
const (
	vertical = "vertical"
	choker   = "choker"
	basket   = "basket"
)

// greatest is the force in N above which an input is taken for a slip: a
// hundred thousand tonnes hang on no hook.
const greatest = 1e9

func hitchOf(leg Leg) string {
	if leg.Hitch == "" {
		return vertical
	}
	return leg.Hitch
}

// check refuses a need that cannot be answered, and says how to mend it.
func (n Need) check() error {
	if n.Rules != US && n.Rules != EN {
		return fmt.Errorf("sling: rule set %q, want US or EN: state the rules, there is no default", n.Rules)
	}
	if len(n.Legs) == 0 {
		return fmt.Errorf("sling: no legs, want at least one")
	}
	if n.Dynamic != 0 && !(n.Dynamic >= 1 && n.Dynamic < 100) {
		return fmt.Errorf("sling: dynamic factor %g, want 1 to 100: leave it out where none is taken", n.Dynamic)
	}
	if !within(float64(n.Weight), 0, greatest) || (n.Weight == 0 && n.Rules == EN && len(n.Legs) > 1) {
		return fmt.Errorf("sling: load of %g N, want more than 0 up to %g N: EN checks a set against its load", float64(n.Weight), greatest)
	}
	if !within(float64(n.LeastAngle), 0, math.Pi/2) {
		return fmt.Errorf("sling: least angle %g° from horizontal, want 0° to 90°", units.Degrees(n.LeastAngle))
	}
	if t := n.Surroundings.Temperature; t != nil && !within(*t, float64(units.AbsoluteZero), 1e5) {
		return fmt.Errorf("sling: temperature %g °C, want a number above absolute zero", *t)
	}
	if r := n.Surroundings.EdgeRadius; r != nil && !within(*r, 0, 1e6) {
		return fmt.Errorf("sling: edge radius %g m, want 0 (sharp) or more", *r)
	}
	for name := range n.Surroundings.Conditions {
		if !slices.Contains(conditions, name) {
			return fmt.Errorf("sling: condition %q, want %s", name, strings.Join(conditions, ", "))
		}
	}
	return n.checkLegs()
}

func (n Need) checkLegs() error {
	names, total := map[string]bool{}, 0.0
	for _, leg := range n.Legs {
		angle := units.Degrees(leg.Angle)
		switch h := hitchOf(leg); {
		case names[leg.Name]:
			return fmt.Errorf("sling: two legs named %q, want a name of its own for each", leg.Name)
		case h != vertical && h != choker && h != basket:
			return fmt.Errorf("sling: leg %s: hitch %q, want vertical, choker or basket", leg.Name, leg.Hitch)
		case !within(float64(leg.Tension), 0, greatest):
			return fmt.Errorf("sling: leg %s: tension %g N, want 0 to %g N", leg.Name, float64(leg.Tension), greatest)
		case !(angle > 0 && angle <= 90+1e-6):
			return fmt.Errorf("sling: leg %s: angle %g° from horizontal, want above 0° up to 90°", leg.Name, angle)
		case !within(leg.Length, 0, 1e6):
			return fmt.Errorf("sling: leg %s: length %g m, want 0 (not known) or more", leg.Name, leg.Length)
		case leg.Included != nil && !within(float64(*leg.Included), 0, math.Pi-1e-9):
			return fmt.Errorf("sling: leg %s: %g° between the parts of its basket, want 0° to below 180°", leg.Name, units.Degrees(*leg.Included))
		case leg.Uneven != 0 && !within(leg.Uneven, 1, 2):
			return fmt.Errorf("sling: leg %s: one part of its basket carries %g times half, want 1 to 2", leg.Name, leg.Uneven)
		case leg.Choke != nil && !within(float64(*leg.Choke), 1e-9, math.Pi+1e-9):
			return fmt.Errorf("sling: leg %s: angle of choke %g°, want above 0° up to 180°", leg.Name, units.Degrees(*leg.Choke))
		case !within(leg.Contact, 0, 1e6):
			return fmt.Errorf("sling: leg %s: contact diameter %g m, want 0 (not stated) or more", leg.Name, leg.Contact)
		}
		names[leg.Name] = true
		total += float64(leg.Tension)
	}
	if total == 0 {
		return fmt.Errorf("sling: no leg carries anything, want a tension above 0 on at least one")
	}
	return nil
}

// within is written so that NaN fails.
func within(x, low, high float64) bool { return x >= low && x <= high }
