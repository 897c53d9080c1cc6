package geom

// Vessel is a closed round vessel: the metal of a straight shell and of a head
// on each end. It stands upright, its axis along z, the lowest point of its
// lower head at the origin.
type Vessel struct{ walled }

// VesselSize is what a vessel is made from, in metres.
type VesselSize struct {
	Inside, Outside float64 // diameters of the shell: one of the two, the other zero
	Wall            float64 // of the shell
	Length          float64 // from tangent line to tangent line, flanges of the heads included
	Heads           HeadForm
	HeadWall        float64 // 0: that of the shell
}

// NewVessel returns the vessel of the given size. Its heads have the inside
// diameter of the shell, whatever their wall: where the walls differ, the
// step is on the outside. Flat heads are as wide as the shell outside and lie
// on its ends. For the wall of heads see [NewHead].
func NewVessel(s VesselSize) (Vessel, error) {
	inside, err := bore(s.Inside, s.Outside, s.Wall)
	if err != nil {
		return Vessel{}, err
	}
	if err := checkSizes(size{"length", s.Length}); err != nil {
		return Vessel{}, err
	}
	if err := checkSize(size{"head wall", s.HeadWall}, true); err != nil {
		return Vessel{}, err
	}
	wall := s.HeadWall
	if wall == 0 {
		wall = s.Wall
	}
	inner, outer, err := s.Heads.domes(inside, wall, inside+2*s.Wall)
	if err != nil {
		return Vessel{}, err
	}
	body := func(radius float64, end dome) dished {
		return dished{radius: radius, base: outer.depth(), straight: s.Length, lower: end, upper: end}
	}
	return Vessel{walled{body(inside/2+s.Wall, outer), body(inside/2, inner), false}}, nil
}

// TangentLines returns the heights of the lower and of the upper tangent
// line, where the heads meet the shell, in metres.
func (s Vessel) TangentLines() (lower, upper float64) { return s.inside.base, s.inside.top() }

// Moments returns the moments of what the outside holds less those of what the
// inside holds: each a cylinder between the tangent lines and two domes, as
// for [Head.Moments].
func (s Vessel) Moments() Moments { return s.walled.Moments() }
