package takeoff

import (
	"fmt"
	"strings"

	"plumbhook/geom"
	"plumbhook/units"
)

// longestRolled is the length above which a rolled section is asked about: mills
// and lorries seldom go beyond it. Common practice, no source.
const longestRolled = 30 // m

// frown warns of what an expert would look at twice in a solid that can stand:
// a size of the wrong unit, and words that a planner may mean otherwise.
func (r *reader) frown(k kind, size dims, placed placing, p Part) {
	odd := func(code, text, fix string) { r.warn(code, p.Name, text, fix) }
	switch {
	case k.name == "plate" && size.size != nil && size.size[2] > 1.001*min(size.size[0], size.size[1]):
		r.note("plate-on-edge", p.Name, fmt.Sprintf("its sizes %s are along x, y and z, and the last is not the least: the plate stands on edge", p.Written),
			"write its thickness last and turn it by `along` or `turn`; or write it as `box` if it is meant so")
	case k.name == "wedge" && size.named["top"] == 0:
		odd("wedge-point", "a wedge whose top edge has no length ends in a point, as a pyramid does",
			"for a taper plate or a gusset write `top` as long as `base`, or a `prism` with `top: 0`; if a point is meant, write it as `pyramid`")
	case k.named && size.named["length"] > longestRolled && size.drawing == nil:
		odd("section-long", fmt.Sprintf("%s long, more than a section is rolled or carried", metres(size.named["length"])), "look at the unit of its length")
	}
	if k.named && !size.twoAxes() && !size.round() && placed.from == nil && placed.turned == "" {
		odd("section-turned", "it stands upright, and how it is turned about its line is not said: its depth was taken along y, its back or heel toward -x",
			"place it by `from`, `to` and `up`, or turn it by `turn`")
	}
	if side := geom.ExtentOf(p.Solid, geom.Still()).Size(); max(side[0], side[1], side[2]) > oddlyLarge {
		odd("part-large", fmt.Sprintf("it reaches over %s, out of the ordinary for a lifted thing", metres(max(side[0], side[1], side[2]))), "look at the unit of its sizes")
	}
}

// frownWeighed warns of a part that says weighed and gives no weight. In a sheet
// that is an error, or the weight is in its row.
func (r *reader) frownWeighed(p Part) {
	if p.Status == "weighed" && !p.weight() && !r.cells {
		r.warn("weighed-computed", p.Name, "it says `status: weighed` and gives no weight: what it comes to is computed from size and material",
			"write `weight:` with what was read, and `box:` with its size; or `status: calculated`, or none")
	}
}

// leastReal is the density in kg/m³ below which a material is asked about:
// foams are from 10 upward. From memory.
const leastReal = 10

// warnReinforced warns of bars within concrete whose density has their steel in
// it already.
func (r *reader) warnReinforced(parts []Part) {
	for _, slab := range parts {
		if !strings.HasPrefix(slab.Material.Name, "reinforced") || slab.Solid == nil {
			continue
		}
		var inside units.Mass
		for _, bar := range parts {
			if bar.Kind == "bar" && holds(slab.Extent(), bar.Extent()) {
				best, _, _ := bar.Mass()
				inside += best
			}
		}
		if inside > 0 {
			r.warn("bars-twice", slab.Name, fmt.Sprintf("%s of bars lie within it, and the density of %s has bars in it already", inside.Format(units.Both), slab.Material.Name),
				"leave the bars out, or write the part as `material: concrete`")
		}
	}
}

// holds tells whether a box lies within another.
func holds(outer, inner geom.Extent) bool {
	for i := range inner.Min {
		if inner.Min[i] < outer.Min[i]-cutSlack || inner.Max[i] > outer.Max[i]+cutSlack {
			return false
		}
	}
	return true
}
