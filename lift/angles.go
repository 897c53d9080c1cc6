package lift

import (
	"fmt"
	"math"
	"strings"

	"plumbhook/geom"
	"plumbhook/rig"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Included is the greatest angle at the hook between two legs.
type Included struct {
	Deg      float64   `json:"included_angle_deg"` // 0: a single leg
	Picks    [2]string `json:"included_between"`
	WorstDeg float64   `json:"included_angle_worst_deg"` // wherever the CG may be
}

// LugPull is how a leg pulls at the plate of its lug, in degrees: in plane from
// the lug's axis, out of plane from the plate.
type LugPull struct {
	Pick        string  `json:"pick"`
	InDeg       float64 `json:"in_plane_deg"`
	OutDeg      float64 `json:"out_of_plane_deg"`
	WorstInDeg  float64 `json:"worst_in_plane_deg"`
	WorstOutDeg float64 `json:"worst_out_of_plane_deg"`
	SideKN      float64 `json:"side_kn"` // worst tension × sin of the worst out of plane
}

// Limits on the angle between legs. ASME B30.10 for two legs straight on a hook
// (from memory); ASME B30.26 for several slings in the bow of a shackle (as
// reprinted).
const (
	mostOnHook    = 90.0  // degrees
	mostInShackle = 120.0 // degrees
)

// mostOutOfPlane in degrees is how far out of its plate a leg may pull without a
// word. WAC 296-155-33905 (read): a shackle pulled up to 5° from the line of its
// bow carries its whole rated load, from there to 45° 30 % less, to 90° half. Of
// the lug itself: common practice, no source.
const mostOutOfPlane = 5.0

// angles tells the angles between the legs at the hook, and of each leg at a lug
// whose plate the load file states, in the hung pose and wherever the CG may be.
func (p *plan) angles(f *Hanging, r rig.Rig, best rig.Hang, h *Header) {
	f.Lugs = []LugPull{}
	if best.RollsOver && !best.Drawn {
		return
	}
	c := clashing{plan: p}
	cases := c.hooks(r, best.Hook)
	for i, at := range cases {
		p.included(f, at.hook, i == 0)
	}
	switch {
	case f.Included.WorstDeg > mostInShackle+1e-6:
		h.warn("included-angle", fmt.Sprintf("legs %s and %s open %.1f° at the hook at worst, more than the %g° that slings in one shackle or link may (ASME B30.26, as reprinted)",
			f.Included.Picks[0], f.Included.Picks[1], f.Included.WorstDeg, mostInShackle), "use longer legs or a bar")
	case f.Included.WorstDeg > mostOnHook+1e-6 && p.load.Rigging.Legs.Link == 0:
		h.warn("included-angle", fmt.Sprintf("legs %s and %s open %.1f° at the hook at worst: more than %g° is not for eyes straight on a hook (ASME B30.10, from memory)",
			f.Included.Picks[0], f.Included.Picks[1], f.Included.WorstDeg, mostOnHook), "bring them together in a link or a shackle, or use longer legs")
	}
	p.lugs(f, cases, h)
}

// included takes the widest angle between two legs, loose ones with them: they hang
// in the same hook.
func (p *plan) included(f *Hanging, hook geom.Vec, best bool) {
	angles, err := rig.IncludedAngles(hook, places(p.picks))
	if err != nil {
		return // a pick at the hook: refused for that
	}
	for _, a := range angles {
		wide := degrees(a.Angle)
		if best && wide > f.Included.Deg {
			f.Included.Deg = wide
		}
		if wide > f.Included.WorstDeg {
			f.Included.WorstDeg, f.Included.Picks = wide, [2]string{p.picks[a.Legs[0]].Name, p.picks[a.Legs[1]].Name}
		}
	}
}

// lugs tells how the legs pull at lugs whose plates are stated.
func (p *plan) lugs(f *Hanging, cases []hookCase, h *Header) {
	var out []string
	for i, pick := range p.picks {
		lug := p.lugOf(pick.Name)
		if lug == nil {
			continue
		}
		l := LugPull{Pick: pick.Name}
		for k, at := range cases {
			in, side, err := rig.LugAngles(p.stance.own(at.hook.Sub(pick.AtM)), lug.Normal, lug.Axis)
			if err != nil {
				continue
			}
			if k == 0 {
				l.InDeg, l.OutDeg = degrees(in), degrees(side)
			}
			l.WorstInDeg, l.WorstOutDeg = max(l.WorstInDeg, degrees(in)), max(l.WorstOutDeg, degrees(side))
		}
		l.SideKN = f.Legs[i].WorstTensionKN * math.Sin(units.Radians(l.WorstOutDeg))
		f.Lugs = append(f.Lugs, l)
		if l.WorstOutDeg > mostOutOfPlane+1e-6 {
			out = append(out, fmt.Sprintf("%s by %.1f°", pick.Name, l.WorstOutDeg))
		}
	}
	if len(out) > 0 {
		h.warn("lug-side-pull", fmt.Sprintf("legs pull out of the plate of their lugs at worst: %s; past %g° a shackle carries less than its rated load (WAC 296-155-33905), and a lug bends about its foot", strings.Join(out, ", "), mostOutOfPlane),
			"turn the lug toward the hook, use a bar with plumb drops, or have lug and shackle proved for it")
	}
	if len(f.Lugs) > 0 {
		h.assume("lugs: the angles of the pull are told; the strength of lug, weld and what they stand on is not checked")
	}
}

// lugOf is the lug that the load file states at a pick; nil: none.
func (p *plan) lugOf(pick string) *takeoff.Lug {
	for _, given := range p.load.Rigging.Picks {
		if given.Name == pick {
			return given.Lug
		}
	}
	return nil
}
