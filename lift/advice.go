package lift

import (
	"fmt"
	"slices"
	"strings"

	"plumbhook/takeoff"
	"plumbhook/units"
)

// mostAdvised is how many lines of the take-off are looked at as to whether
// weighing them would pay.
const mostAdvised = 3

// advise says whether weighing one line of the take-off would pay: whether a
// smaller sling would do, or the crane's limit be kept, if the line weighed
// what the take-off says at best and nothing else changed. The lines that move
// the governing leg most are tried, each by going the whole way again.
func (w line) advise(l *takeoff.Load, s Sizing, o Options) ([]string, error) {
	advice := []string{}
	if w.legs.Posed == nil || o.tried {
		return advice, nil
	}
	tried := 0
	for _, one := range w.legs.Influences {
		i := slices.IndexFunc(l.Parts, func(p takeoff.Part) bool { return p.Name == one.Name })
		if i < 0 || tried == mostAdvised { // an allowance can't be weighed by itself
			continue
		}
		tried++
		known := *l
		known.Parts = slices.Clone(l.Parts)
		known.Parts[i].Low, known.Parts[i].High = 0, 0
		known.Rigging.Picks = w.takeoffPicks(l)
		h, way, err := follow(&known, o)
		if err != nil {
			return advice, err
		}
		then, err := way.size(&known, o, &h)
		if err != nil {
			return advice, err
		}
		for _, other := range w.others {
			then.atLeast(other.sizing, stateName(other.load)) // what another state needs is needed still
		}
		if text := saved(s, then); text != "" {
			best, _, _ := l.Parts[i].Mass()
			advice = append(advice, fmt.Sprintf("weigh %q: if it comes to the %s of the take-off, %s", one.Name, best.Format(units.Both), text))
		}
	}
	if len(advice) == 0 && tried > 0 {
		advice = append(advice, "weighing no single part would save a sling size or decide on the crane: the steps between sizes are wider than what each part leaves in doubt")
	}
	return advice, nil
}

// takeoffPicks are the picks that the legs are on, as those of a load file.
func (w line) takeoffPicks(l *takeoff.Load) []takeoff.Pick {
	if len(l.Rigging.Picks) > 0 {
		return l.Rigging.Picks
	}
	var picks []takeoff.Pick
	for _, p := range w.plan.picks {
		picks = append(picks, takeoff.Pick{Name: p.Name, At: p.AtM})
	}
	return picks
}

// saved says what a second sizing needs less than a first; "" for nothing.
func saved(now, then Sizing) string {
	if over := now.Gross.CapacityKg > 0 && now.Gross.TotalKg > now.Gross.CapacityKg; over && then.Gross.TotalKg <= then.Gross.CapacityKg {
		return "the crane lifts it"
	}
	for i, f := range now.Families {
		if f.Use == "no" || i >= len(then.Families) || f.Choice == nil || then.Families[i].Choice == nil {
			continue
		}
		if a, b := f.Choice, then.Families[i].Choice; b.RatedKg < a.RatedKg {
			return fmt.Sprintf("%s of %s will do in place of %s", strings.ReplaceAll(f.Family, "_", " "), b.Size, a.Size)
		}
	}
	return ""
}
