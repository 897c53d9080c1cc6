package rig

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"plumbhook/geom"
)

// randomRig is a load a few metres across, on 1 to 8 legs, some cut for level
// and some of lengths of their own; its CG may be above its picks.
func randomRig(dice *rand.Rand) Rig {
	r := Rig{Weight: math.Exp(dice.Float64()*7 + 7), CG: geom.Vec{dice.Float64() - 0.5, dice.Float64() - 0.5, 3*dice.Float64() - 2}}
	for range 1 + dice.IntN(Most) {
		r.Picks = append(r.Picks, geom.Vec{6*dice.Float64() - 3, 6*dice.Float64() - 3, dice.Float64() - 0.5})
	}
	if len(r.Picks) == 2 && dice.IntN(2) == 0 { // balanced as drawn, whether it stays so or not
		f := dice.Float64()
		over := r.Picks[0].Mul(f).Add(r.Picks[1].Mul(1 - f))
		r.CG[0], r.CG[1] = over[0], over[1]
	}
	r.Lengths = LevelLengths(r.Picks, HookAbove(r.CG, r.Picks, 0.5+5*dice.Float64()))
	if dice.IntN(2) == 0 {
		for i := range r.Lengths {
			r.Lengths[i] *= 1 + 0.2*dice.Float64()
		}
	}
	return r
}

// A load that is called stable stays when it is kicked, all six freedoms of it free;
// one that is called unstable by more than a hair does not, and a false claim is found
// out. Where a leg that hangs loose is nearly taut it may hold the load after a little
// movement, which the verdict does not count on: that is not asked.
func TestStableLoadsStayWithAllSixFreedoms(t *testing.T) {
	dice := rand.New(rand.NewPCG(6, 6))
	stayed, left := 0, 0
	for range 2000 {
		r := randomRig(dice)
		h, err := r.Hang()
		if err != nil {
			continue
		}
		switch size := r.size(); {
		case h.Stable && !h.RollsOver:
			assert.NoError(t, r.stays(h), "margin %v m of %v: %+v", h.Margin, size, r)
			stayed++
		case !h.Stable && !h.Neutral && h.Margin < -0.05*size && h.First.Shift > 0.01*size && !nearlyHeld(r, h):
			claimed := h
			claimed.Stable, claimed.Margin = true, math.Abs(h.Margin)
			assert.ErrorIs(t, r.stays(claimed), ErrDisagree, "a false claim is found out: margin %v m of %v: %+v", h.Margin, size, r)
			left++
		}
	}
	t.Log(stayed, left)
	assert.Greater(t, stayed, 800)
	assert.Greater(t, left, 20)
}

// nearlyHeld says that a leg that carries nothing is nearly taut.
func nearlyHeld(r Rig, h Hang) bool {
	for i := range h.Taut {
		if h.Slack(i) && h.Hook.Sub(r.Picks[i]).Len() > r.Lengths[i]-0.05*r.size() {
			return true
		}
	}
	return false
}

// ΣF to 1e-9 of the weight and ΣM to 1e-9 of weight × size on ten thousand
// rigs, none of which the two methods may disagree on.
func TestTenThousandRigsBalance(t *testing.T) {
	dice := rand.New(rand.NewPCG(10, 4))
	solved := 0
	for range 10_000 {
		r := randomRig(dice)
		h, err := r.Hang()
		var input *InputError
		var reach *ReachError
		if errors.As(err, &input) || errors.As(err, &reach) {
			continue
		}
		if err != nil {
			t.Fatalf("%v: %+v", err, r)
		}
		force := h.Up.Mul(-r.Weight)
		var moment geom.Vec // about the CG
		for i, p := range r.Picks {
			pull := h.Pull[i].Mul(h.Tension[i])
			force = force.Add(pull)
			moment = moment.Add(p.Sub(r.CG).Cross(pull))
		}
		if !(force.Len() <= 1e-9*r.Weight) || !(moment.Len() <= 1e-9*r.Weight*r.size()) {
			t.Fatalf("force left over %g N, moment %g N·m, of %g N: %+v", force.Len(), moment.Len(), r.Weight, r)
		}
		solved++
	}
	assert.Greater(t, solved, 8000)
}

// Stable rigs on which a kick once raised a false alarm: legs so long that a step
// downhill leapt over the top, legs so flat that their give turned the load, and legs
// that went slack and taut again in steps of time too long. Drawn at random over picks
// from 0.05 to 200 m apart.
func TestTheKickRaisesNoFalseAlarm(t *testing.T) {
	for name, r := range map[string]Rig{
		"long legs, high CG": {Weight: 3882.2749716912813, CG: geom.Vec{0.28600951099669614, 0.16321744961781656, 6.1666438898101354},
			Picks: []geom.Vec{{-26.939412962458253, 9.494859199821802, -0.9482173084642536}, {19.06784296354109, 22.936871345416925, 0.06940992781119089},
				{-6.155379270783168, 34.55210430189873, -1.9782900391820872}, {20.31963780791593, 5.7477248578655065, -1.2168217959022707},
				{39.11490423631643, -31.911286441157277, -2.190239307943123}, {9.25554833948118, -1.1302213212893886, 0.8626342058504989},
				{-21.245767352024764, -14.436718912879526, 0.6995608487797668}, {1.0504972032969173, 17.72944334087566, 1.0725219838836608}},
			Lengths: []float64{86.32246843896961, 85.61577840426669, 89.53253714304901, 84.25906742209436, 96.76479182615651, 80.08697465493898, 83.87223848665475, 81.28712108771313}},
		"flat legs": {Weight: 86983.37005569568, CG: geom.Vec{-0.2272087149269133, 0.14818847378208932, -0.0014742701299132563},
			Picks: []geom.Vec{{0.8020606537380234, 0.23639227697849605, -0.0303645418886119}, {-0.8245025042347749, 0.09700305483691811, 0.018332472527395868},
				{0.23504597534846364, 0.29607439647922745, 0.020298940048101222}, {-0.4840583429436495, -0.270858936001862, -0.006044169078834102}},
			Lengths: []float64{1.03745795172808, 0.6013955998212919, 0.48741251085067977, 0.4966451979213496}},
		"flat legs on a small load": {Weight: 46337.351907216194, CG: geom.Vec{-0.0032071639505047655, -0.008776935697211205, -0.0777013907249395},
			Picks: []geom.Vec{{-0.2305722491585349, 0.014719829753951644, -0.003531888714566973}, {0.027794846354511914, -0.01892729781082222, -0.0059770759442339646},
				{0.16684499261764757, -0.010544548317539931, -0.0020407754446040254}},
			Lengths: []float64{0.22871442904852943, 0.034239671255959586, 0.17018420916735102}},
		"seven taut legs, three of which carry": {Weight: 161.53490050848603, CG: geom.Vec{-0.258783893725215, -0.08688644590484562, -3.517992761702493},
			Picks: []geom.Vec{{-1.6599444150223177, -2.6726070755892772, 0.22217480526165526}, {-3.26987382017293, -3.984201748458046, -0.0763585283443716},
				{-1.4837260443619948, 0.8239192529676382, 0.08236292104417196}, {-0.8207451449970058, -1.2393743956485208, 0.05414465646310784},
				{-0.8858482230518883, -3.4127655315724024, 0.09471220298331423}, {4.045893842028161, 2.425216916071592, 0.00417156767285338},
				{-4.198394114002777, -3.641941763057928, -0.1840130250529612}},
			Lengths: []float64{2.9844676585682257, 4.990578900343876, 1.658140986243757, 1.4493979883518213, 3.4435766876030396, 5.036633968156713, 5.384634866171777}},
	} {
		t.Run(name, func(t *testing.T) {
			h, err := r.Hang()
			assert.NoError(t, err)
			assert.True(t, h.Stable)
			assert.NoError(t, r.stays(h))
		})
	}
}
