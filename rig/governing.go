package rig

import (
	"slices"

	"plumbhook/geom"
)

// Load is what the legs balance together, N, along up.
func (p Pose) Load() float64 { return p.load().Len() }

func (p Pose) load() geom.Vec {
	sum := geom.Vec{}
	for i, u := range p.Pull {
		sum = sum.Add(u.Mul(p.Tension[i]))
	}
	return sum
}

// WithMost returns the tensions in N of all legs while leg i has the most that it
// can have in this pose: as the legs share it, or with others loose.
func (p Pose) WithMost(i int) []float64 {
	if p.Greatest[i] <= p.Tension[i]*(1+1e-9) {
		return slices.Clone(p.Tension)
	}
	alike := [Most]float64{1, 1, 1, 1, 1, 1, 1, 1}
	load := p.load()
	t, _ := leastWork(p.Pull, alike[:], mostSet(p.Pull, p.Near, load, i), load)
	return slices.Clone(t[:len(p.Pull)])
}

// Out is how far in m, level, pick i hangs from the hook's plumb line, and Rise
// how far the hook is above it.
func (p Pose) Out(i int, picks []geom.Vec) (out, rise float64) {
	line := p.Hook.Sub(picks[i])
	return level(line, p.Up).Len(), line.Dot(p.Up)
}
