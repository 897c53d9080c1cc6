package rig

// HangBeside hangs the tree as Hang does, but seeks its rest from that of nearly
// the same tree, which is close by, so that it is found sooner: with the same legs
// taut at first, and checked for balance and for holding like any other. Where
// that finds none, or began from a pose that does not hold, the bodies are let go
// as drawn.
func (t Tree) HangBeside(before *TreePose) (TreePose, error) {
	if before == nil || !before.Stable || len(before.Bodies) != len(t.Bodies) || len(before.Links) != len(t.Links) {
		return t.Hang()
	}
	if err := t.Check(); err != nil {
		return TreePose{}, err
	}
	m, s := t.model()
	for b := range s.at {
		place := before.Bodies[b].Place
		s.at[b], s.turn[b] = place.Point(t.Bodies[b].CG).Sub(t.Hook).Mul(1/m.size), place.Turn
	}
	pulls := make([]bool, len(t.Links))
	for i, l := range before.Links {
		pulls[i] = m.rigid[i] && l.Tension > 1e-9*m.whole
	}
	at, ok := m.sharpen(s, pulls)
	if !ok || !m.reaches(at) {
		return t.Hang()
	}
	p, _, err := t.pose(m, at)
	if err != nil || !p.Stable {
		return t.Hang()
	}
	return p, nil
}
