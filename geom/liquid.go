package geom

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Liquid is what part of an inside is filled, with a level plane across a
// given up.
type Liquid struct {
	Moments Moments // of the liquid, about the frame's origin
	Level   float64 // height of the surface, r·up of its points, m, up of length 1
	Depth   float64 // from the lowest point of the inside to the surface, along up, m
	Surface Surface // the free surface; none where it is empty or full
}

// Surface is the free surface of a liquid: one piece or several.
type Surface struct {
	Area     float64    // m²
	Centroid Vec        // m; the zero vector where there is no surface
	Second   mgl64.Mat3 // ∫s sᵀ dA about the surface's own centroid, s in its plane, m⁴, in the frame's axes
}

// Inside is something that can be filled. It is made once and asked many
// times; the zero value holds nothing.
//
// A small tilt of the liquid shows in its surface: as up turns by the small
// vector w, across up, at constant volume, the liquid's centroid moves by
//
//	−Second·w/V
//
// which is the rule BM = I/V of a floating body's metacentre: for one turn
// about a line in the surface, I is the second moment about that line through
// its centroid. Source: standard hydrostatics; derived here from the wedges
// that change sides.
type Inside struct {
	whole Moments
	form  filled
	doubt float64
}

// filled is how an inside is cut by a level; up is of length 1.
type filled interface {
	// span returns the heights of the lowest and of the highest point.
	span(up Vec) (low, high float64)
	// at returns the liquid and its surface at a level within the span.
	at(level float64, up Vec) (Moments, Surface)
	// column returns the volume up to a level and the area there. From call to
	// call, low to high may only narrow; the level is between them.
	column(up Vec) func(level, low, high float64) (volume, area float64)
}

// NewInside returns a solid as something to be filled.
//
// A cylinder, a cone, a cap, a solid sphere or hemisphere and what fills a
// vessel or a head ([Vessel.Inside]) are cut as they are, slice by slice, to
// about 1e-8 of the full volume in any attitude; chord does not matter.
//
// Any other solid is cut as a mesh to the chord (m): exact for one with flat
// sides. One with curves is then scaled about its centroid by the cube root of
// full volume to that of the mesh, and shifted, so that full volume and full
// first moments are those of [Solid.Moments]; full second moments are so only
// of the full inside. [Inside.Error] says what is left. A chord of zero is
// chosen: from 2 % of the cube root of the volume it is quartered until that
// error is no more than 1e-4, or the mesh gets no finer, or has over 100 000
// facets.
//
// A mesh that is not sound is refused, as what it holds is not known.
func NewInside(s Solid, chord float64) (Inside, error) {
	whole := s.Moments()
	if !(whole.Volume > 0) || math.IsInf(whole.Volume, 0) {
		return Inside{}, &ShapeError{"an inside without volume", "give a closed solid with its faces outward"}
	}
	if girths := girthsOf(s); girths != nil {
		return Inside{whole: whole, form: round{girths}}, nil
	}
	if math.IsNaN(chord) || math.IsInf(chord, 0) || chord < 0 {
		return Inside{}, &ShapeError{"a chord of " + millimetres(chord), "write it above zero, or zero to have it chosen"}
	}
	form, doubt := chosenMesh(s, chord, whole)
	if health := Examine(form.mesh); !health.Sound() {
		return Inside{}, &ShapeError{
			fmt.Sprintf("the inside's surface is not sound: %v", health.Faults()),
			"close and mend it: only a closed surface holds a liquid",
		}
	}
	return Inside{whole, form, doubt}, nil
}

// Volume returns the full volume in m³: that of the closed form.
func (in Inside) Volume() float64 { return in.whole.Volume }

// Error estimates how far the volume of a partial fill may be off, as a part
// of the full volume: zero or rounding where no curve was cut into facets. It
// is a third of what the mesh and one of four times its chord differ by, at
// levels along the axes: the error goes with the chord.
func (in Inside) Error() float64 { return in.doubt }

// AtLevel returns the liquid up to a level, r·up in metres for an up of length
// 1; up may be given at any length. At or below the lowest point it is empty,
// at or above the highest full, and Level and Depth are then those of that
// point. An up of zero or a level that is no number gives nothing.
func (in Inside) AtLevel(level float64, up Vec) Liquid {
	up, ok := direction(up)
	if !ok || in.form == nil || math.IsNaN(level) {
		return Liquid{}
	}
	low, high := in.form.span(up)
	switch {
	case level <= low:
		return Liquid{Level: low}
	case level >= high:
		return Liquid{Moments: in.whole, Level: high, Depth: high - low}
	}
	moments, surface := in.form.at(level, up)
	return Liquid{moments, level, level - low, surface}
}

// AtDepth returns the liquid that stands to a depth (m) over the lowest point.
// A depth from zero to the height of the inside along up is wanted.
func (in Inside) AtDepth(depth float64, up Vec) (Liquid, error) {
	up, err := in.checkUp(up)
	if err != nil {
		return Liquid{}, err
	}
	low, high := in.form.span(up)
	if tol := surfaceTolerance * (high - low); !(depth >= -tol && depth <= high-low+tol) { // true for NaN too
		return Liquid{}, &ShapeError{
			"a liquid " + millimetres(depth) + " deep does not fit inside",
			"write a depth from 0 to " + millimetres(high-low) + ", the height of the inside in this attitude",
		}
	}
	return in.AtLevel(low+depth, up), nil
}

// AtVolume returns the liquid of a volume (m³), from zero to the full one,
// where it comes to rest below a level across up. It is right to 1e-12 of the
// full volume.
//
// The level is found between the lowest and the highest point by Newton's
// steps, as the volume grows with the level by the area of the surface, and
// by halves where a step would leave what is known to hold the level.
func (in Inside) AtVolume(volume float64, up Vec) (Liquid, error) {
	up, err := in.checkUp(up)
	if err != nil {
		return Liquid{}, err
	}
	full := in.whole.Volume
	if tol := surfaceTolerance * full; !(volume >= -tol && volume <= full+tol) { // true for NaN too
		return Liquid{}, &ShapeError{
			fmt.Sprintf("%.6g m³ of liquid do not fit inside", volume),
			fmt.Sprintf("write a volume from 0 to %.6g m³", full),
		}
	}
	low, high := in.form.span(up)
	switch {
	case volume <= 0:
		return in.AtLevel(low, up), nil
	case volume >= full:
		return in.AtLevel(high, up), nil
	}
	return in.AtLevel(levelOf(volume, full, low, high, in.form.column(up)), up), nil
}

// levelOf returns the level between low and high at which the column holds
// the volume.
func levelOf(volume, full, low, high float64, column func(level, low, high float64) (volume, area float64)) float64 {
	const most = 200 // steps: by halves alone, 60 use up all digits
	least := 1e-15 * (high - low)
	level := low + (high-low)*volume/full
	for range most {
		got, area := column(level, low, high)
		if got < volume {
			low = level
		} else {
			high = level
		}
		if math.Abs(got-volume) <= 1e-14*full || high-low <= least {
			break
		}
		next := level + (volume-got)/area
		if !(next > low && next < high) { // true for NaN too
			next = (low + high) / 2
		}
		level = next
	}
	return level
}

func (in Inside) checkUp(up Vec) (Vec, error) {
	unit, ok := direction(up)
	switch {
	case in.form == nil:
		return unit, &ShapeError{"an inside that was not made", "make it with NewInside"}
	case !ok:
		return unit, &ShapeError{fmt.Sprintf("up (%g, %g, %g) points nowhere", up[0], up[1], up[2]), "write a direction of any length but zero"}
	}
	return unit, nil
}

// DipTable returns the liquid at equal steps of depth, from empty to full:
// steps + 1 of them. Nothing for an up of zero or less than one step.
func (in Inside) DipTable(up Vec, steps int) []Liquid {
	up, ok := direction(up)
	if !ok || in.form == nil || steps < 1 {
		return nil
	}
	low, high := in.form.span(up)
	table := make([]Liquid, steps+1)
	for i := range table {
		table[i] = in.AtLevel(low+(high-low)*float64(i)/float64(steps), up)
	}
	table[steps] = in.AtLevel(high, up) // full, whatever the rounding
	return table
}
