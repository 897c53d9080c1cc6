package lift

import (
	"fmt"
	"slices"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/sling"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Link is what gathers the legs at the hook.
type Link struct {
	Eyes           int     `json:"eyes"`                     // that come together: one of a leg, two of a basket
	RequiredKg     float64 `json:"required_kg"`              // of the master link: sizing weight × dynamic
	IntermediateKg float64 `json:"intermediate_required_kg"` // of each intermediate link; 0: no rule is known
	StatedKg       float64 `json:"stated_kg"`                // as the load file states; 0: not stated
	IncludedDeg    float64 `json:"included_worst_deg"`       // the widest angle between two legs, or the parts of a basket
	HookDeg        float64 `json:"hook_limit_deg"`
	ShackleDeg     float64 `json:"shackle_limit_deg"`
	Text           string  `json:"text"`
	Source         string  `json:"source"` // of the limits on the angle and of the intermediate link
	Basis          string  `json:"basis"`
}

// link says what the gathering at the hook must be rated for, and judges the angle
// between the legs and the link that is stated.
func (w line) link(l *takeoff.Load, s *Sizing, hw *Hardware, hooks []geom.Vec, h *Header) error {
	n := w.need(l, &Header{}) // for the weight; what it assumes has been said
	eyes := 0
	for _, leg := range n.Legs {
		if eyes++; leg.Hitch == "basket" {
			eyes++
		}
	}
	if eyes < 2 {
		return nil
	}
	master, each, rule, err := sling.LinkNeeds(w.plan.rules, n.Weight, n.Dynamic, eyes, units.Mass(s.Governing.RequiredKg))
	if err != nil {
		return err
	}
	k := &Link{Eyes: eyes, RequiredKg: float64(master), IntermediateKg: float64(each), StatedKg: float64(l.Rigging.Legs.Link), IncludedDeg: w.included(hooks)}
	hook, onHook, _ := sling.IncludedLimit(w.plan.rules, "hook")
	bow, inBow, _ := sling.IncludedLimit(w.plan.rules, sling.Shackle)
	k.HookDeg, k.ShackleDeg = degrees(float64(hook)), degrees(float64(bow))
	k.Source, k.Basis = "hook: "+onHook.Source+"; shackle: "+inBow.Source, weaker(onHook.Basis, inBow.Basis)
	if each > 0 {
		k.Source, k.Basis = k.Source+"; intermediate link: "+rule.Source, weaker(k.Basis, rule.Basis)
	}
	k.Text = linkText(*k)
	hw.Link = k
	k.judge(h)
	return nil
}

// weaker is the basis that is less sure.
func weaker(a, b string) string {
	order := []string{"read", "computed", "from memory", "common practice"}
	if slices.Index(order, a) > slices.Index(order, b) {
		return a
	}
	return b
}

// included is the widest angle in degrees between two legs that pull.
func (w line) included(hooks []geom.Vec) (widest float64) {
	var at []geom.Vec
	for _, leg := range w.legs.Legs {
		if leg.WorstTensionKN == 0 {
			continue
		}
		at = append(at, leg.AtM)
		if leg.Hold != nil && leg.Hold.PartsIncludedDeg != nil {
			widest = max(widest, *leg.Hold.PartsIncludedDeg)
		}
	}
	for _, hook := range hooks {
		angles, err := rig.IncludedAngles(hook, at)
		if err != nil {
			continue // a pick at the hook: refused for that
		}
		for _, a := range angles {
			widest = max(widest, degrees(a.Angle))
		}
	}
	return widest
}

func linkText(k Link) string {
	switch {
	case k.Eyes > 3:
		return fmt.Sprintf("%d eyes: a master link with intermediate links, two eyes in each; no more than two eyes straight on a hook", k.Eyes)
	case k.Eyes == 3:
		return "3 eyes: a master link, one or two eyes in each intermediate link; no more than two eyes straight on a hook"
	case k.IncludedDeg > k.HookDeg+1e-6:
		return "2 eyes, too wide for the hook itself: a master link or a shackle, its pin on the hook"
	}
	return "2 eyes: may go straight on the hook, or in a master link"
}

// judge refuses a stated link that is too small, and warns of legs that need one.
func (k *Link) judge(h *Header) {
	need := units.Mass(k.RequiredKg)
	switch {
	case k.StatedKg > 0 && k.StatedKg < k.RequiredKg*(1-1e-9):
		h.refuse("the link that gathers the legs is rated %s, and %s hangs on it with the dynamic factor", units.Mass(k.StatedKg).FormatDown(units.Both), need.FormatUp(units.Both))
	case k.StatedKg == 0 && k.Eyes > 2:
		h.warn("no-link", fmt.Sprintf("%d eyes come together on one hook, and no link is stated: no more than two eyes go straight on a hook", k.Eyes),
			fmt.Sprintf("gather them in a master link rated %s or more, and state it: `legs: {link: ...}`", need.FormatUp(units.Both)))
	}
	if slices.ContainsFunc(h.Warnings, func(w Warning) bool { return w.Code == "included-angle" }) {
		return // said already
	}
	switch {
	case k.IncludedDeg > k.ShackleDeg+1e-6:
		h.warn("included-angle", fmt.Sprintf("two legs open %.1f° at the hook at worst, more than the %g° that slings in one shackle or link may (%s)", k.IncludedDeg, k.ShackleDeg, k.Source), "use longer legs or a bar")
	case k.Eyes == 2 && k.StatedKg == 0 && k.IncludedDeg > k.HookDeg+1e-6:
		h.warn("included-angle", fmt.Sprintf("the two legs open %.1f° at the hook at worst: more than %g° is not for eyes straight on a hook (%s)", k.IncludedDeg, k.HookDeg, k.Source),
			"bring them together in a link or a shackle and state it, `legs: {link: ...}`, or use longer legs")
	}
}
