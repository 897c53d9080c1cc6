package lift

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"plumbhook/geom"
	"plumbhook/units"
)

// judge says what was found.
func (c *clashing) judge(h *Header) {
	thick := "of no thickness (none is stated by `thickness` under `legs`)"
	if c.side > 0 {
		thick = units.Length(2*c.side).Format(units.Both) + " thick"
	}
	h.assume("legs that touch the load are looked for with the legs straight and %s, at the best CG and all round its region, lengths as stated, parts where they are drawn; over the first %s from its pick, the lug and shackle, a leg may touch what it takes hold of; bought-in parts count as their boxes",
		thick, units.Length(c.fittings).Format(units.Both))
	if c.anyRound() {
		h.assume("a choked or basket sling lies round the part that its pick is in or on: it is not held against that part")
	}
	if len(c.out.NotLooked) > 0 {
		h.assume("not looked at for legs that touch: %s", strings.Join(c.out.NotLooked, "; "))
	}
	last := ""
	if n := len(c.out.Clashes); n > 0 {
		last = c.out.Clashes[n-1].Pick
	}
	for _, pick := range c.picks {
		c.tell(pick.Name, "leg "+pick.Name, pick.Name == last, h) // what clears is told once for all
	}
	for _, name := range c.others {
		c.tell(name, name, name == last, h)
	}
}

// tell says how one leg or bar passes the load, and what would clear.
func (c *clashing) tell(name, label string, clears bool, h *Header) {
	if found := of(name, c.out.Clashes); len(found) > 0 {
		fix := ""
		if clears {
			fix = "; " + c.clears()
		}
		h.refuse("%s %s%s", label, clashText(found, "runs into"), fix)
	}
	if found := of(name, c.out.NearMisses); len(found) > 0 {
		h.warn("clash-near", label+" "+clashText(found, "passes close to"), "see that it hangs clear, and pad it or lead it wider if it does not")
	}
	if found := of(name, c.out.ThroughCuts); len(found) > 0 {
		h.warn("clash-hole", label+" "+clashText(found, "passes through a hole in"), "see that it can't bear on the rim, and that it can be threaded there")
	}
}

// of are those of a pick, the worst first.
func of(pick string, all []Clash) []Clash {
	found := slices.DeleteFunc(slices.Clone(all), func(c Clash) bool { return c.Pick != pick })
	slices.SortStableFunc(found, func(a, b Clash) int {
		switch {
		case a.GapM < b.GapM:
			return -1
		case a.GapM > b.GapM:
			return 1
		}
		return 0
	})
	return found
}

// clashText tells the worst in full and the others by name.
func clashText(found []Clash, does string) string {
	one := found[0]
	both := func(m float64) string { return units.Length(m).Format(units.Both) }
	with := one.With
	if one.Box {
		with = "the box of " + with
	}
	text := fmt.Sprintf("%s %s, %s along it from its lower end, at x %s, y %s, z %s", does, with, both(one.AlongM), both(one.AtM[0]), both(one.AtM[1]), both(one.AtM[2]))
	switch {
	case one.GapM > touches:
		text += fmt.Sprintf(", %s clear", both(one.GapM))
	case one.GapM < -touches && does == "runs into":
		text += fmt.Sprintf(", %s deep", both(-one.GapM))
	}
	if one.Case != "" {
		text += " (worst with the " + one.Case + ")"
	}
	if others := found[1:]; len(others) > 0 {
		var names []string
		for _, o := range others {
			if len(names) == 4 {
				names = append(names, fmt.Sprintf("%d more", len(others)-4))
				break
			}
			names = append(names, o.With)
		}
		text += ", and " + strings.Join(names, ", ")
	}
	return text
}

// spare in m is added to what clears, so that it still does as it is printed: to
// the millimetre or the sixteenth of an inch.
const spare = 1e-3

// up is the next whole millimetre.
func up(m float64) float64 { return math.Ceil(m*1000-1e-6) / 1000 }

// apart is how far two picks are apart, level.
func (c *clashing) apart(names [2]string) float64 {
	var at [2]geom.Vec
	for _, pick := range c.picks {
		for i, name := range names {
			if pick.Name == name {
				at[i] = pick.AtM
			}
		}
	}
	return math.Hypot(at[1][0]-at[0][0], at[1][1]-at[0][1])
}

// clears says what would clear.
func (c *clashing) clears() string {
	var ways []string
	if h := c.out.LeastHookM; h != nil {
		ways = append(ways, fmt.Sprintf("a hook at least %s above the highest pick, legs to suit", units.Length(*h).Format(units.Both)))
	}
	var bars []string
	for _, b := range c.out.LeastBars {
		text := fmt.Sprintf("at least %s long over %s and %s", units.Length(b.LengthM).Format(units.Both), b.Picks[0], b.Picks[1])
		if b.LengthM > c.apart(b.Picks)+2*spare {
			text += fmt.Sprintf(", which are to be moved out as far (now they are %s apart)", units.Length(c.apart(b.Picks)).Format(units.Both))
		}
		bars = append(bars, text)
	}
	if len(bars) > 0 {
		ways = append(ways, "plumb drops from a bar "+strings.Join(bars, " and one "))
	}
	switch {
	case c.load.Rigging.Bar != nil:
		ways = append(ways, "hang the bars higher, or move the picks")
	case len(ways) == 0:
		ways = append(ways, "no higher hook was found that clears: move the picks")
	default:
		ways = []string{strings.Join(ways, ", or ") + ", would clear the load"}
	}
	for _, clash := range c.out.Clashes {
		if clash.AlongM <= c.fittings {
			ways = append(ways, "where a leg takes hold of the part itself, draw a lug with its hole as a cut, or say under `legs` how far the `fittings` reach")
			break
		}
	}
	return strings.Join(ways, "; ")
}
