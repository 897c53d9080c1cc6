package geom

import "fmt"

// HeadForm is the shape of a vessel's head, without its size. The zero value
// is no form: take one of [Ellipsoidal], [Torispherical],
// [ASMEFlangedAndDished], [DIN28011], [DIN28013], [Hemispherical], [FlatHead].
type HeadForm struct {
	kind           headKind
	ratio          float64 // ellipsoidal
	crown, knuckle float64 // torispherical: m, or parts of the diameter
	of             headBasis
}

type headKind int

const (
	noHead headKind = iota
	ellipsoidal
	torispherical
	hemispherical
	flatHead
)

// headBasis is what crown and knuckle are given in.
type headBasis int

const (
	inMetres headBasis = iota
	ofInside
	ofOutside
)

// Ellipsoidal returns a head whose inside is half an ellipsoid: the ratio is
// that of its half axes, inside radius to inside depth, 2 for a 2:1 head. The
// outside runs parallel to it, as far away as the wall is thick.
func Ellipsoidal(ratio float64) HeadForm { return HeadForm{kind: ellipsoidal, ratio: ratio} }

// Torispherical returns a head of a crown and a knuckle with the given inside
// radii in metres. The outside has both radii greater by the wall.
func Torispherical(crown, knuckle float64) HeadForm {
	return HeadForm{kind: torispherical, crown: crown, knuckle: knuckle}
}

// ASMEFlangedAndDished returns the torispherical head with inside crown radius
// R = D and inside knuckle radius a = 0.06·D, D its inside diameter.
//
// ASME BPVC VIII-1, UG-32 (from memory) allows no crown radius above the
// outside diameter of the skirt, and no knuckle radius below 6 % of that or
// three walls. A head that was ordered to its outside diameter is a little
// larger in both: give them to [Torispherical].
func ASMEFlangedAndDished() HeadForm {
	return HeadForm{kind: torispherical, crown: 1, knuckle: 0.06, of: ofInside}
}

// DIN28011 returns the torispherical head with inside crown radius R = Da and
// inside knuckle radius a = 0.1·Da, Da its outside diameter.
// Source: DIN 28011 (from memory).
func DIN28011() HeadForm { return HeadForm{kind: torispherical, crown: 1, knuckle: 0.1, of: ofOutside} }

// DIN28013 returns the deeper torispherical head with inside crown radius
// R = 0.8·Da and inside knuckle radius a = 0.154·Da, Da its outside diameter.
// Source: DIN 28013 (from memory).
func DIN28013() HeadForm {
	return HeadForm{kind: torispherical, crown: 0.8, knuckle: 0.154, of: ofOutside}
}

// Hemispherical returns half a ball.
func Hemispherical() HeadForm { return HeadForm{kind: hemispherical} }

// FlatHead returns a flat plate as thick as the head's wall.
func FlatHead() HeadForm { return HeadForm{kind: flatHead} }

// greatestRatio limits how flat an ellipsoidal head may be.
const greatestRatio = 10

// domes returns the inner and the outer surface of a head of this form with
// the given inside diameter and wall. A flat head is as wide as the given
// skirt, the outside diameter of what it closes.
func (f HeadForm) domes(inside, wall, skirt float64) (inner, outer dome, err error) {
	r := inside / 2
	switch f.kind {
	case ellipsoidal:
		if !(f.ratio >= 1 && f.ratio <= greatestRatio) { // true for NaN too
			return nil, nil, &ShapeError{
				fmt.Sprintf("an ellipsoidal head of %.4g:1", f.ratio),
				fmt.Sprintf("write its inside radius to its inside depth, from 1 to %d: 2 for the usual head", greatestRatio),
			}
		}
		b := r / f.ratio
		if f.ratio == 1 {
			return ellipse{a: r, b: r}, ellipse{a: r + wall, b: r + wall}, nil
		}
		return ellipse{a: r, b: b}, ellipse{r, b, wall}, nil
	case torispherical:
		t, err := f.torisphere(inside, wall)
		return t, torisphere{t.radius + wall, t.crown + wall, t.knuckle + wall}, err
	case hemispherical:
		return ellipse{a: r, b: r}, ellipse{a: r + wall, b: r + wall}, nil
	case flatHead:
		return disc{radius: r}, disc{skirt / 2, wall}, nil
	}
	return nil, nil, &ShapeError{"a head without a form", "say whether it is ellipsoidal, torispherical, hemispherical or flat"}
}

// torisphere returns the inner surface.
func (f HeadForm) torisphere(inside, wall float64) (torisphere, error) {
	part := map[headBasis]float64{inMetres: 1, ofInside: inside, ofOutside: inside + 2*wall}[f.of]
	t := torisphere{inside / 2, f.crown * part, f.knuckle * part}
	if err := checkSizes(size{"crown radius", t.crown}, size{"knuckle radius", t.knuckle}); err != nil {
		return t, err
	}
	if t.crown <= t.radius {
		return t, &ShapeError{
			"crown radius " + millimetres(t.crown) + " is not above half of the inside diameter " + millimetres(inside),
			"write a crown radius above " + millimetres(t.radius) + ", or use a hemispherical head",
		}
	}
	if t.knuckle >= t.radius {
		return t, &ShapeError{
			"knuckle radius " + millimetres(t.knuckle) + " is not below half of the inside diameter " + millimetres(inside),
			"write a knuckle radius below " + millimetres(t.radius) + ", or use a hemispherical head",
		}
	}
	return t, nil
}
