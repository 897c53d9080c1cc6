package report

import (
	"plumbhook/lift"
)

// bending prints how a slender load bends between its picks.
func (p *page) bending(b *lift.LoadBending, wanted *lift.Attitude) {
	if b == nil {
		return
	}
	p.sub("Bending of the load between its picks, at the sizing weight")
	at := func(m float64) string { return b.Axis + glue + p.length(m) }
	p.field("Picks", at(b.PicksM[0])+" and "+at(b.PicksM[1])+"; the load is "+p.length(b.LengthM)+" long along "+b.Axis)
	p.field("Sagging", p.greatest(b.Sagging, at))
	p.field("Hogging", p.greatest(b.Hogging, at))
	p.field("Least", p.moment(b.BestKNm)+" with picks at "+at(b.BestM[0])+" and "+at(b.BestM[1])+", "+p.length(b.BestEnds[0])+" and "+p.length(b.BestEnds[1])+" from the ends")
	p.gap()
	rest := "level and at rest, on plumb pulls"
	if wanted != nil {
		rest = "at rest in the attitude wanted, by what of weight and plumb pulls is square to its length"
	}
	p.hang("  ", "As a beam of the parts' own weights, "+rest+". Sagging pulls the underside, hogging the top. The squeeze of legs that slope comes on top, and so does a dynamic factor. The strength of the load is not checked.")
}

func (p *page) greatest(m lift.Moment, at func(float64) string) string {
	if m.KNm == 0 {
		return "none"
	}
	return p.moment(m.KNm) + " at " + at(m.AtM)
}
