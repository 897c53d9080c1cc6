package geom

import "github.com/go-gl/mathgl/mgl64"

// Moments are what a uniform solid comes to, about the origin of the frame
// that it is given in. They add, a cut subtracts, and a density scales them.
type Moments struct {
	Volume float64    // V = ∫dV, m³
	First  Vec        // ∫r dV, m⁴
	Second mgl64.Mat3 // ∫r rᵀ dV, m⁵, symmetric
}

// Plus returns the moments of both solids together.
func (m Moments) Plus(n Moments) Moments {
	return Moments{m.Volume + n.Volume, m.First.Add(n.First), m.Second.Add(n.Second)}
}

// Minus returns the moments of m with n taken away. It is right where n lies
// wholly inside m; what of n lies outside counts as negative.
func (m Moments) Minus(n Moments) Moments {
	return Moments{m.Volume - n.Volume, m.First.Sub(n.First), m.Second.Sub(n.Second)}
}

// Times returns the moments scaled by s: with s a density in kg/m³, the mass
// moments in kg, kg·m, kg·m²; with s a count, that many copies in one place.
func (m Moments) Times(s float64) Moments {
	return Moments{m.Volume * s, m.First.Mul(s), m.Second.Mul(s)}
}

// Posed returns the moments about the origin of the outer frame of a solid
// that is turned and moved by p. With r' = R·r + t, V, F, S before and after:
//
//	V' = V
//	F' = R·F + V·t
//	S' = R·S·Rᵀ + (R·F)·tᵀ + t·(R·F)ᵀ + V·t·tᵀ
//
// Exact for any turn, and for a mirrored one.
// Source: derived here by putting r' in the integrals.
func (m Moments) Posed(p Pose) Moments {
	turned, t := p.Turn.Mul3x1(m.First), p.Move
	cross := turned.OuterProd3(t)
	second := p.Turn.Mul3(m.Second).Mul3(p.Turn.Transpose()).
		Add(cross).Add(cross.Transpose()).Add(t.OuterProd3(t).Mul(m.Volume))
	return Moments{m.Volume, turned.Add(t.Mul(m.Volume)), second}
}

// Centroid returns ∫r dV / V in metres, or the zero vector when the volume is
// zero.
func (m Moments) Centroid() Vec {
	if m.Volume == 0 {
		return Vec{}
	}
	return m.First.Mul(1 / m.Volume)
}

// Central returns the second moments about the solid's own centroid, m⁵:
// S − V·c·cᵀ.
//
// The further the centroid is from the origin the fewer digits are left, as
// two great numbers are subtracted: at a distance of n sizes about 16 − 2·log₁₀(n) digits.
// [Mesh.MomentsAbout] measures from a near point instead.
func (m Moments) Central() mgl64.Mat3 {
	return m.Second.Sub(m.First.OuterProd3(m.Centroid()))
}

// Inertia turns second moments ∫r rᵀ dV into the inertia tensor about the
// same point, tr(S)·1 − S: on the diagonal ∫(y² + z²) dV and so on, off it the
// products with a minus sign, −∫xy dV. The unit is that of second.
func Inertia(second mgl64.Mat3) mgl64.Mat3 {
	return mgl64.Ident3().Mul(second.Trace()).Sub(second)
}
