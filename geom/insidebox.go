package geom

// Extent returns the box along the outer axes that the inside, in pose p, just
// fits in; a point for the zero Inside.
func (in Inside) Extent(p Pose) Extent {
	e := Extent{p.Move, p.Move}
	if in.form == nil {
		return e
	}
	back := p.Turn.Transpose()
	for i, axis := range axes {
		low, high := in.form.span(back.Mul3x1(axis))
		e.Min[i], e.Max[i] = p.Move[i]+low, p.Move[i]+high
	}
	return e
}
