package takeoff

import (
	"fmt"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// Stretch is how much the legs stretch: by their stiffness EA, by the part of
// its length that a leg gains at its rated load, or by a family of slings, whose
// stretch the program has to know. At most one of EA, Part and Family is there.
type Stretch struct {
	EA       float64    // N; 0: not stated so
	Part     float64    // of its length, under the weight At; 0: not stated so
	At       units.Mass // the rated load of a leg, vertical; 0: not stated
	Family   string     // of slings
	Material string     // of the family; empty: not stated
}

// Stated tells whether the load file says anything of stretch.
func (s Stretch) Stated() bool { return s != Stretch{} }

// Bounds on stretch. The least EA is far below that of any sling; half its length
// is more than any sling stretches at its rated load.
const (
	leastEA     = 1e3  // N
	greatestEA  = 1e12 // N
	mostStretch = 0.5
)

const stretchFix = "write `stretch: {EA: 40 MN}`, `stretch: {percent: 3 %, at: 10 t}`, or `stretch: {family: synthetic_web, material: nylon}`"

var stretchKeys = []key[Stretch]{
	{name: "EA", takes: "the stiffness of a leg times its length, a force such as 40 MN", read: readEA},
	{name: "percent", takes: "what a leg stretches at its rated load, such as 3 %", read: readStretchPart},
	{name: "at", takes: "the rated load of one leg, vertical, such as 10 t", read: func(r *reader, n *yaml.Node, s *Stretch) { s.At, _ = r.mass(n) }},
	{name: "family", takes: "a family of slings, such as synthetic_web", read: func(r *reader, n *yaml.Node, s *Stretch) { s.Family, _ = r.text(n) }},
	{name: "material", takes: "its material, such as nylon", read: func(r *reader, n *yaml.Node, s *Stretch) { s.Material, _ = r.text(n) }},
}

func readEA(r *reader, n *yaml.Node, s *Stretch) {
	f, ok := quantity(r, n, "a force, such as 40 MN", units.ParseForce)
	if ok && !(f >= leastEA && f <= greatestEA) {
		r.bad(n, fmt.Sprintf("EA of %s must be from 1 kN to 1 000 000 MN", short(n.Value)),
			"write the force that would stretch a leg to twice its length, such as 40 MN: look at its unit")
		return
	}
	s.EA = float64(f)
}

func readStretchPart(r *reader, n *yaml.Node, s *Stretch) {
	p, ok := quantity(r, n, "3 %", units.ParsePercent)
	if ok && !(p > 0 && p <= mostStretch) {
		r.bad(n, fmt.Sprintf("a stretch of %s must be more than 0 and at most %g %%", short(n.Value), 100*mostStretch), "write 3 %")
		return
	}
	s.Part = p
}

// readStretch reads how the legs stretch.
func readStretch(r *reader, n *yaml.Node, l *Legs) {
	before := r.faults
	var s Stretch
	if !walk(r, n, "stretch", stretchKeys, &s) || r.faults > before {
		return
	}
	ways := 0
	for _, stated := range []bool{s.EA > 0, s.Part > 0, s.Family != ""} {
		if stated {
			ways++
		}
	}
	switch {
	case ways == 0:
		r.bad(n, "the stretch is not stated", stretchFix)
	case ways > 1:
		r.bad(n, "the stretch is stated in more than one way", "keep one of them: "+stretchFix)
	case s.EA > 0 && s.At > 0:
		r.bad(n, "`at` beside `EA`: EA holds at any load", "take `at` away")
	case s.Part > 0 && s.At == 0:
		r.bad(n, "a stretch in percent says nothing without the load that it is at", "write `at:` with the rated load of one leg, such as {percent: 3 %, at: 10 t}")
	case s.Family == "" && s.Material != "":
		r.bad(n, "`material` without a `family`", stretchFix)
	default:
		l.Stretch = s
	}
}
