// Package rig answers how a load hangs: where the hook stands over it, what
// each leg carries, how far it tilts and whether it stays so.
//
// The frame is the load's own. The load is held still and the hook moves:
// with the hook at h, the centre of gravity (CG) at c and a leg of length Lᵢ
// from each pick pᵢ, the load's weight W pulls the hook away from the CG as
// far as the legs allow, because gravity turns the load until the CG is
// straight below the hook. The energy of that is
//
//	U(h) = Σ ½ kᵢ · max(0, |h − pᵢ| − Lᵢ)² − W · |h − c|
//
// and its minima are the poses in which the load can hang. The gradient is
// the balance of forces at the hook; the direction from c to h is up.
//
// Lengths are in metres, forces in newtons, stiffnesses in newtons a metre,
// angles in radians. The package knows no material, no sling and no capacity.
package rig
