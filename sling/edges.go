package sling

import "slices"

// edge returns the radius in m of the sharpest edge that the slings bear on.
// bears is false where no edge is stated; edges stated without a radius are
// sharp, and a radius stated beside "no edges" counts.
func (s Surroundings) edge() (radius float64, bears bool) {
	switch {
	case s.EdgeRadius != nil:
		return *s.EdgeRadius, true
	case s.EdgesStated && !s.EdgesNone:
		return 0, true
	}
	return 0, false
}

// edges judges what does not depend on the size: edges not stated, no edges, and
// a textile sling on an edge. Chain and rope on an edge wait for the size.
func (l *lift) edges(f familyRow, o *opinion) {
	radius, bears := l.need.Surroundings.edge()
	switch {
	case !bears && l.need.Surroundings.EdgesNone:
		o.add(Yes, "stated: no edges")
	case !bears:
		o.add(Care, "not stated: edges")
	case f.body == "mesh":
		for _, row := range l.book.rows(f, "edge", "") {
			o.add(Care, "edge radius %.3g mm: pad it where it is sharp (%s)", radius*1000, row.cite)
		}
		l.protection(f, o)
	case f.body == "textile":
		mm := radius * 1000
		row, ok := l.book.at(f, "edge", "", mm)
		switch sharp := !ok || row.value == 0; {
		case sharp && l.need.Surroundings.EdgeProtection == "":
			o.add(No, "edge radius %.3g mm cuts it, unless the edge is made round or covered (%s)", mm, row.cite)
		case sharp:
			o.add(Care, "edge radius %.3g mm cuts it wherever it is not covered (%s)", mm, row.cite)
		default:
			o.add(Care, "edge radius %.3g mm: protect the sling (%s)", mm, row.cite)
		}
		l.protection(f, o)
	}
}

// finish are the words for a surface that must not be marked; plain are those
// for one that may. Another word is taken as finished.
var (
	finish = []string{"finished", "painted", "machined", "polished", "coated", "galvanised", "galvanized", "stainless"}
	plain  = []string{"rough", "raw", "bare", "unfinished", "mill", "as rolled", "as cast"}
)

// surface judges what the slings do to the load.
func (l *lift) surface(f familyRow, o *opinion) {
	word := tidy(l.need.Surroundings.Surface)
	if word == "" || slices.Contains(plain, word) {
		return
	}
	for _, row := range l.book.rows(f, "surface", "finished") {
		if slices.Contains(finish, word) {
			o.add(Care, "%s surface (%s)", word, row.cite)
		} else {
			o.add(Care, "surface %q is not a word of the table (finished, rough): taken as finished (%s)", word, row.cite)
		}
	}
}
