package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// cubic holds the area moments of a plane figure up to the third degree, as
// far as a turn of the figure about its y axis needs them.
type cubic struct {
	flat
	xxx, xxy, xyy float64 // ∫x³ dA, ∫x²y dA, ∫xy² dA
}

// add counts in a piece dp of the figure's outline at p, where the figure is
// to the left of dp. Summed around the outline the pieces give, for every
// product f of n coordinates,
//
//	∫f dA = 1/(n + 2) · ∮ f·(x dy − y dx)
//
// Source: derived here from the triangle between dp and the origin, over which
// f is f(p)·2/(n + 2) on average.
func (c *cubic) add(p, dp mgl64.Vec2) {
	x, y := p[0], p[1]
	twice := x*dp[1] - y*dp[0]
	c.area += twice / 2
	c.x += twice * x / 3
	c.y += twice * y / 3
	c.xx += twice * x * x / 4
	c.yy += twice * y * y / 4
	c.xy += twice * x * y / 4
	c.xxx += twice * x * x * x / 5
	c.xxy += twice * x * x * y / 5
	c.xyy += twice * x * y * y / 5
}

// shifted returns the moments of the figure moved along x.
func (c cubic) shifted(by float64) cubic {
	s := c
	s.x = c.x + by*c.area
	s.xx = c.xx + by*(2*c.x+by*c.area)
	s.xy = c.xy + by*c.y
	s.xxx = c.xxx + by*(3*c.xx+by*(3*c.x+by*c.area))
	s.xxy = c.xxy + by*(2*c.xy+by*c.y)
	s.xyy = c.xyy + by*c.yy
	return s
}

// turned returns the moments of the solid that the figure sweeps when its x
// axis is turned about z by angle α (rad) from x towards y, its y axis lying
// along z. With r and z for the figure's coordinates:
//
//	V = α·∫r dA
//	∫x dV = sin α·∫r² dA    ∫y dV = (1 − cos α)·∫r² dA    ∫z dV = α·∫r·z dA
//	∫x² dV = (α + sin α·cos α)/2·∫r³ dA    ∫y² dV = (α − sin α·cos α)/2·∫r³ dA
//	∫xy dV = sin²α/2·∫r³ dA    ∫z² dV = α·∫r·z² dA
//	∫xz dV = sin α·∫r²·z dA    ∫yz dV = (1 − cos α)·∫r²·z dA
//
// The first is the theorem of Pappus. Source: derived here with
// x = r·cos θ, y = r·sin θ, dV = r dA dθ, θ from 0 to α.
func (c cubic) turned(angle float64) Moments {
	sin, cos := math.Sincos(angle)
	half := math.Sin(angle / 2)
	if angle >= fullTurn {
		sin, cos, half = 0, 1, 0
	}
	rise := 2 * half * half // 1 − cos α, to all its digits
	return Moments{
		Volume: angle * c.x,
		First:  Vec{sin * c.xx, rise * c.xx, angle * c.xy},
		Second: symmetric((angle+sin*cos)/2*c.xxx, (angle-sin*cos)/2*c.xxx, angle*c.xyy,
			sin*sin/2*c.xxx, rise*c.xxy, sin*c.xxy),
	}
}
