package geom

import (
	"math"
	"strconv"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
)

// Vec is a point or a direction in space, in metres: x, y, z.
type Vec = mgl64.Vec3

// axes are the directions of x, y and z.
var axes = [3]Vec{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}

// symmetric builds a symmetric matrix from its six different terms.
func symmetric(xx, yy, zz, xy, yz, zx float64) mgl64.Mat3 {
	return mgl64.Mat3FromRows(Vec{xx, xy, zx}, Vec{xy, yy, yz}, Vec{zx, yz, zz})
}

// within tells whether value is between low and high, to tol.
func within(value, low, high, tol float64) bool {
	return value >= low-tol && value <= high+tol
}

// millimetres prints a length in mm, to a thousandth, without trailing zeros.
func millimetres(metres float64) string {
	mm := metres * 1000
	if a := math.Abs(mm); math.IsInf(mm, 0) || math.IsNaN(mm) || a >= 1e12 || (a != 0 && a < 0.001) {
		return strconv.FormatFloat(mm, 'g', 4, 64) + " mm"
	}
	text := strconv.FormatFloat(mm, 'f', 3, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	return text + " mm"
}
