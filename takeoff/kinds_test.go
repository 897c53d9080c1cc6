package takeoff

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// TestEachKindIsItsSolid: one of each kind of solid, its volume by hand from
// plane and solid geometry, in litres, and the top of its box.
func TestEachKindIsItsSolid(t *testing.T) {
	for _, tt := range []struct {
		part         string
		litres, high float64 // high in m
		working      string
	}{
		{"wedge: {base: 300, depth: 200, height: 150, top: 100}", 3.5, 0.15, "b·h·(2a + c)/6 = 200·150·700/6"},
		{"pyramid: {bottom: 300 x 200, height: 150}", 3, 0.15, "a third of 300·200·150"},
		{"pyramid: {bottom: 300 x 200, top: 300 x 200, height: 150}", 9, 0.15, "300·200·150"},
		{"hemisphere: {diameter: 600}", 56.548668, 0.3, "2π/3·0.3³"},
		{"hemisphere: {diameter: 600, wall: 100}", 39.793507, 0.3, "2π/3·(0.3³ − 0.2³)"},
		{"cap: {sphere: 600, height: 300}", 56.548668, 0.3, "half a ball"},
		{"ring: {mean: 1000, thickness: 100}", 24.674011, 0.1, "2π²·0.5·0.05²"},
		{"bend: {outside: 100, radius: 300, angle: 90}", 3.7011017, 0.35, "π/2·0.3·π·0.05²"},
		{"cone: {bottom: 600, top: 0, height: 500}", 47.123890, 0.5, "π·0.3²·0.5/3"},
		{"cone: {bottom: 600, top: 600, height: 500, wall: 100}", 78.539816, 0.5, "π·(0.3² − 0.2²)·0.5"},
		{"cone: {bottom: 600, top: 0, height: 500, offset: 300}", 47.123890, 0.5, "a slanted cone is as large as a straight one"},
		{"revolve: {outline: [[100, 0], [200, 0], [200, 50], [100, 50]]}", 4.7123890, 0.05, "π·(0.2² − 0.1²)·0.05"},
		{"revolve: {outline: [[100, 0], [200, 0], [200, 50], [100, 50]], angle: 90}", 1.1780972, 0.05, "a quarter of it"},
		{"revolve: {outline: [[0, 0], {to: [0, 600], bulge: 1}]}", 113.09734, 0.6, "a ball: 4π/3·0.3³"},
		{"polygon: {outline: [[0, 0], [100, 0], {to: [100, 50], radius: 25, side: right}, [0, 50], {to: [0, 0], bulge: 1}], length: 20}", 0.13926991, 0.02, "a slot: (100·50 + π·25²)·20"},
		{"polygon: {outline: [[0, 0], [100, 0], [100, 50], [0, 50]], holes: [[[30, 25], {to: [50, 25], bulge: 1}, {to: [30, 25], bulge: 1}]], length: 20}", 0.093716815, 0.02, "(100·50 − π·10²)·20"},
		{"head: {kind: hemispherical, inside: 400, wall: 100}", 39.793507, 0.3, "2π/3·(0.3³ − 0.2³)"},
		{"head: {kind: flat, outside: 600, wall: 50}", 14.137167, 0.05, "π·0.3²·0.05"},
		{"vessel: {inside: 400, wall: 100, length: 500, heads: hemispherical}", 158.12683, 1.1, "two such heads and π·(0.3² − 0.2²)·0.5"},
	} {
		t.Run(tt.part, func(t *testing.T) {
			w := weighed(t, head+"- {"+tt.part+", at: [0, 0, 0]}\n")
			assert.InEpsilon(t, tt.litres, w.Volume*1000, 1e-7, "litres: %s", tt.working)
			assert.InDelta(t, tt.high, w.Extent.Max[2], 1e-9, "m")
		})
	}
}

// TestHeadsByTheirKind: inside depths of dished heads of 2 m. Half an ellipsoid
// 2:1 is 500 deep; R = Da, a = 0.1·Da is 0.1935·Da − 0.455·s deep (DIN 28011,
// from memory), R = 0.8·Da, a = 0.154·Da 0.255·Da − 0.635·s (DIN 28013, from
// memory), factors rounded to three digits: 1 mm here. The top of the head is its depth and the wall.
func TestHeadsByTheirKind(t *testing.T) {
	for _, tt := range []struct {
		head      string
		high, off float64
	}{
		{"kind: 'ellipsoidal 2:1', inside: 2000, wall: 10", 0.510, 1e-9},
		{"kind: DIN 28011, outside: 2000, wall: 10", 0.3870 - 0.00455 + 0.010, 0.0003},
		{"kind: torispherical DIN 28013, outside: 2000, wall: 10", 0.5100 - 0.00635 + 0.010, 0.0011},
		{"kind: torispherical, crown: 2000, knuckle: 200, outside: 2000, wall: 10, flange: 35", 0.3870 - 0.00455 + 0.045, 0.0003},
		{"kind: ASME flanged and dished, inside: 2000, wall: 10", 0.3388 + 0.010, 0.0003}, // 0.1694·D (common practice, no source)
	} {
		w := weighed(t, head+"- {head: {"+tt.head+"}, at: [0, 0, 0]}\n")
		assert.InDelta(t, tt.high, w.Extent.Max[2], tt.off, "%s: m", tt.head)
	}
}

func TestVesselWithoutContentsIsAssumedEmpty(t *testing.T) {
	l := good(t, head+"- {name: tank, vessel: {inside: 2000, wall: 12, length: 5000, heads: 'ellipsoidal 2:1'}, along: x, center: [0, 0, 1200], material: carbon steel}\n")
	require.Len(t, l.Warnings, 1)
	assert.Equal(t, "vessel-empty", l.Warnings[0].Code)
	assert.Contains(t, l.Warnings[0].Text, "assumed empty and drained")
	near3(t, geom.Vec{0, 0, 1.2}, l.Parts[0].CG(), 1e-9, "CG")
}

// badKinds are sizes and designations that can't be; line 5 on.
var badKinds = []struct{ name, file, at, text, fix string }{
	{"section that is not listed", "- {section: HEA 205, length: 9, at: [0, 0, 0]}\n", "5:13", `unknown section "HEA 205"`, "HEA 200"},
	{"designation of several", "- {section: HEA, length: 9, at: [0, 0, 0]}\n", "5:13", `"HEA"`, "sections"},
	{"hollow section without a hollow", "- {section: SHS 10x10x9, length: 9, at: [0, 0, 0]}\n", "5:13", "the wall is too thick", "the outside size, then the wall"},
	{"section with its sizes", "- {section: {depth: 200, width: 100}, length: 9, at: [0, 0, 0]}\n", "5:13", "named by its designation alone", "`length:`"},
	{"pipe that is a beam", "- {pipe: HEA 200, length: 9, at: [0, 0, 0]}\n", "5:10", "HEA 200 is not a pipe but a I section", "`section: HEA 200`"},
	{"length of a section in words", "- {section: HEA 200, length: long, at: [0, 0, 0]}\n", "5:30", `"long"`, "write mm"},
	{"length of zero", "- {section: HEA 200, length: 0, at: [0, 0, 0]}\n", "5:30", "must be more than zero", "a length"},
	{"kind of head", "- {head: {kind: conical, inside: 9, wall: 1}, at: [0, 0, 0]}\n", "5:17", `"conical" is not a kind of head`, "ellipsoidal 2:1"},
	{"ratio of a head", "- {head: {kind: ellipsoidal 2, inside: 9, wall: 1}, at: [0, 0, 0]}\n", "5:17", `the ratio "2"`, "ellipsoidal 2:1"},
	{"head without a diameter", "- {head: {kind: flat, wall: 1}, at: [0, 0, 0]}\n", "5:10", "one diameter, inside or outside", "`inside:`"},
	{"torispherical without radii", "- {head: {kind: torispherical, inside: 9, wall: 1}, at: [0, 0, 0]}\n", "5:10", "without its radii", "DIN 28011"},
	{"radii of a flat head", "- {head: {kind: flat, inside: 9, wall: 1, crown: 9}, at: [0, 0, 0]}\n", "5:10", "belong to a torispherical head", "take them away"},
	{"vessel with both diameters", "- {vessel: {inside: 9, outside: 11, wall: 1, length: 30, heads: flat}, at: [0, 0, 0]}\n", "5:12", "one diameter", "`outside:`"},
	{"bend that is too tight", "- {bend: {outside: 90, wall: 5, radius: 20, angle: 90}, at: [0, 0, 0]}\n", "5:10", "radius", ""},
	{"bend of no angle", "- {bend: {outside: 90, wall: 5, radius: 200, angle: 0}, at: [0, 0, 0]}\n", "5:53", "above 0 and at most 360", "such as 90"},
	{"arc without a way", "- {polygon: {outline: [[0, 0], {to: [9, 0], radius: 9}, [9, 9]], length: 5}, at: [0, 0, 0]}\n", "5:32", "by its bulge, or by its radius and side", "side: left"},
	{"arc too small to reach", "- {polygon: {outline: [[0, 0], {to: [90, 0], radius: 9, side: right}, [9, 90]], length: 5}, at: [0, 0, 0]}\n", "5:32", "radius", ""},
	{"arc of two ways", "- {polygon: {outline: [[0, 0], {to: [9, 0], radius: 9, side: left, bulge: 1}, [9, 9]], length: 5}, at: [0, 0, 0]}\n", "5:32", "by its bulge", "bulge: 0.4142"},
	{"revolve across its axis", "- {revolve: {outline: [[-1, 0], [9, 0], [9, 9]]}, at: [0, 0, 0]}\n", "5:13", "", ""},
	{"pyramid with three sizes", "- {pyramid: {bottom: 3 x 2 x 1, height: 5}, at: [0, 0, 0]}\n", "5:22", "", ""},
}

func TestBadKindsSayWhereWhatAndHowToMend(t *testing.T) {
	for _, tt := range badKinds {
		t.Run(tt.name, func(t *testing.T) {
			p := problemsOf(t, head+tt.file)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
			assert.NotEmpty(t, p[0].Fix)
		})
	}
}
