package lift

import (
	"errors"
	"fmt"
	"strings"

	"plumbhook/rig"
	"plumbhook/units"
)

// fromStock makes the legs from the lengths in the rack: the set on which the
// load hangs most nearly level, each set hung and solved, within the limits on
// angle, headroom and tilt.
func (p *plan) fromStock(h *Header) {
	legs := p.load.Rigging.Legs
	stock := rig.Stock{Step: legs.Shortener.Step, MostSteps: legs.Shortener.Most}
	for _, sling := range legs.Stock {
		stock.Slings = append(stock.Slings, sling+legs.Hardware)
	}
	at := places(p.picks)
	want, _ := p.unloaded(rig.LevelLengths(at, p.hookAtAngle(at, p.weight.CGM)))
	h.assume("legs from stock: sought near the lengths on which the flattest leg would stand at %s", p.drawnAngle().Format())
	limits := rig.FitLimits{LeastAngle: float64(p.limit.Least), MostTilt: units.Radians(greatestTilt)}
	box := p.weight.extent()
	corners := box.Corners()
	limits.Body = corners[:]
	if t := p.load.Rigging.Limits.Tilt; t != nil {
		limits.MostTilt = float64(*t)
	}
	if room, stated := p.mostHeadroom(); stated {
		limits.MostHeadroom = max(room, 1e-6) // 0 would be no limit
	}
	r := p.rig(p.weight.planning())
	r.Lengths = want
	if p.elastic != nil {
		r.Stiffness = p.stiffness(p.elastic.ea, want)
	}
	fits, err := r.FitStock(want, stock, limits)
	if err == nil && len(fits) == 0 {
		err = errors.New("no set of them fits")
	}
	if err != nil {
		h.refuse("no legs from stock: %s", p.named(err.Error()))
		return
	}
	best := fits[0]
	var made []string
	for i, one := range best.Legs {
		p.lengths = append(p.lengths, one.Length)
		made = append(made, p.picks[i].Name+": "+p.madeOf(one))
	}
	p.how = fmt.Sprintf("from stock, the set that hangs most nearly %s (%.2f°): %s", p.asWanted(), degrees(best.Tilt), strings.Join(made, "; "))
	if best.Loose > loose {
		h.warn("stock-loose", fmt.Sprintf("on the best set from stock a leg is %s longer than the way to the hook: it hangs loose", units.Length(best.Loose).Format(units.Both)),
			"add a shortener or other lengths to the stock, or a turnbuckle in that leg")
	}
}

// loose in m is how much longer than its way a leg may be without a word.
const loose = 1e-4

// madeOf says what a leg from stock is made of.
func (p *plan) madeOf(one rig.Made) string {
	legs := p.load.Rigging.Legs
	text := "sling of " + units.Length(legs.Stock[one.Sling]).Format(units.Both)
	if legs.Hardware > 0 {
		text += " and hardware of " + units.Length(legs.Hardware).Format(units.Both)
	}
	if one.Steps > 0 {
		text += fmt.Sprintf(", shortened by %d × %s", one.Steps, units.Length(legs.Shortener.Step).Format(units.Both))
	}
	return text
}
