package takeoff

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sound is a part that is right, for tests of what comes after the parts. It
// takes lines 5 to 7.
const sound = "- name: plate\n  box: 2000 x 1000 x 10\n  at: [0, 0, 0]\n"

// fourPicks is a sound part with four picks, lines 5 to 8.
const fourPicks = sound + "picks: [{name: A, at: [0, 0, 9]}, {name: B, at: [2, 0, 9]}, {name: C, at: [2, 1, 9]}, {name: D, at: [0, 1, 9]}]\n"

// badFiles are files with exactly one fault each. What is not a whole file
// stands after head, from line 5 on. The places were counted by hand.
var badFiles = []struct {
	name, file string
	at         string // line:column
	text, fix  string // pieces of what must be said
}{
	// The text as a whole.
	{"empty file", "FILE", "1:1", "says nothing", "write at least `load`"},
	{"only a comment", "FILE# nothing yet\n", "1:1", "says nothing", "`parts`"},
	{"no group at all", "FILEjust words\n", "1:1", `a load file must be a group of keys; this is "just words"`, "`key: value`"},
	{"not UTF-8", "FILEload: caf\xe9\n", "1:10", "byte 0xe9 is not UTF-8", "UTF-8"},
	{"UTF-16", "FILE\xff\xfel\x00o\x00", "1:1", "UTF-16", "UTF-8"},
	{"control character", "FILEload: a\nunits: \x01mm\n", "2:8", "control character 0x01", "delete it"},
	{"two documents", "FILEload: a\n---\nload: b\n", "2:1", "a second document", "'---'"},
	{"indented with a tab", "- name: a\n\tbox: 1 x 2 x 3\n", "6:2", "indented with a tab", "spaces, not tabs"},
	{"indented too far", "- name: a\n   box: 1 x 2 x 3\n", "6:4", "indented further", "own line"},
	{"list not closed", "- name: a\n  at: [0, 0, 0\n  box: 1 x 2 x 3\n", "6:3", "a list is not closed", "end it with ]"},
	{"quote not closed", "- name: \"a\n  box: 1 x 2 x 3\n", "5:1", "a quote is not closed", "close the quote"},
	{"colon without space", "- name: a\n  tube:{outside: 3}\n", "6:3", `unknown key "tube:{outside"`, "a space after the colon: `tube: ...`"},

	// What YAML knows and a load file does not.
	{"anchor", "- &one {name: a, box: 1 x 1 x 1, at: [0, 0, 0]}\n", "5:3", "the anchor &one", "write values out"},
	{"tag", "- {name: a, box: !size 1 x 1 x 1, at: [0, 0, 0]}\n", "5:18", "the tag !size", "take the tag away"},
	{"key twice", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  box: 2 x 2 x 2\n", "8:3", `the key "box" is here twice, first on line 6`, "keep one"},
	{"key spelt twice", "- name: a\n  box: 1 x 1 x 1\n  centre: [0, 0, 0]\n  center: [0, 0, 0]\n", "8:3", "`center` means the same as `centre`", "keep one"},
	{"key that is a list", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  [a, b]: 3\n", "8:3", "a key must be a plain word", "`key: value`"},

	// Keys.
	{"unknown key at the top", sound + "colour: red\n", "8:1", `unknown key "colour" in a load file`, "a load file takes: load, drawing"},
	{"misspelt key", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  tolerence: 5 %\n", "8:3", `unknown key "tolerence" in a part`, "did you mean `tolerance`?"},
	{"misspelt field", "- name: a\n  rod: {diamter: 10, height: 5}\n  at: [0, 0, 0]\n", "6:9", `unknown key "diamter" in a rod`, "did you mean `diameter`?"},
	{"key without value", "- name: a\n  box:\n  at: [0, 0, 0]\n", "6:3", "`box` has no value", "2400 x 1200 x 20"},
	{"no name of the load", "FILEunits: mm\nmaterial: concrete\nparts:\n" + sound, "1:1", "a load file has no `load`", "write `load:` with what is lifted"},
	{"no parts", "FILEload: a\nunits: mm\n", "1:1", "a load file has no `parts`", "a list of parts"},
	{"empty list of parts", "FILEload: a\nunits: mm\nparts: []\n", "3:8", "found an empty list", "beginning with '- '"},
	{"part that is a word", sound + "- spare plate\n", "8:3", "a part must be a group of keys", "a part takes: name, box"},
	{"bar and two hooks", sound + "picks: [{name: A, at: [0, 0, 1]}, {name: B, at: [1, 0, 1]}]\nrig:\n  bar: {kind: spreader, weight: 9 kg, length: 1 m, hook: 1 m, height: 1 m, holds: [[A], [B]]}\n  two hooks: {head: A, tail: B}\n", "10:3", "a `bar` and `two hooks` in one file", "keep one of the two"},
	{"rig of another kind", sound + "rig: {hook: A}\n", "8:7", "unknown key \"hook\" in `rig`", "two hooks"},
	{"two things at once", "- name: a\n  box: 1 x 1 x 1\n  rod: {diameter: 3, height: 2}\n  at: [0, 0, 0]\n", "5:3", "several things at once: box, rod", "make a part of each"},
	{"nothing at all", "- name: a\n  at: [0, 0, 0]\n", "5:3", "no solid and no weight", "write what it is"},

	// Numbers: never YAML's reading of them.
	{"zero before a digit", numberAt("012"), "7:8", `zero before another digit: "012"`, "12"},
	{"hexadecimal", numberAt("0x10"), "7:8", "hexadecimal", "decimal"},
	{"to base 60", numberAt("12:30"), "7:8", `not a number: "12:30"`, "digits"},
	{"underscore", numberAt("1_000"), "7:8", "underscore", "write 1000"},
	{"truth value", numberAt("yes"), "7:8", `"yes"`, "mm, cm, m"},
	{"null", numberAt("~"), "7:8", "found nothing", "write a length"},
	{"not a number", numberAt(".nan"), "7:8", "not a finite number", "digits"},
	{"infinite", numberAt("-.inf"), "7:8", "not a finite number", "digits"},
	{"too large", numberAt("1e400"), "7:8", "too large", "write"},
	{"quoted, thousands", numberAt("'1 200'"), "7:8", "thousands separator", "without a space"},
	{"farther than a load", numberAt("20 000 m"), "7:8", "thousands separator", "digits"},
	{"far out", numberAt("20000 m"), "7:8", "more than 10000 m", "unit"},
	{"not a length", numberAt("3 kg"), "7:8", "kg is a unit of mass", "mm, cm, m"},
	{"decimal comma in a list", "- name: a\n  box: 1 x 1 x 1\n  at: [1,5, 0, 0]\n", "7:7", "4 numbers where 3 are needed", "decimal point"},
	{"place without brackets", "- name: a\n  box: 1 x 1 x 1\n  at: 0, 0, 0\n", "7:7", "expected a place [x, y, z]", "square brackets"},
	{"no unit anywhere", "FILEload: a\nmaterial: concrete\nparts:\n- name: a\n  box: 1 m x 1 m x 1 m\n  at: [0 m, 2000, 0 m]\n", "6:13", `no unit on the length: "2000"`, "`units: mm` at the top"},
	{"wrong unit", "FILEload: a\nunits: furlong\nmaterial: concrete\nparts:\n" + sound, "2:8", "furlong", "mm, cm, m, in or ft"},

	// Sizes.
	{"two sizes", "- name: a\n  box: 100 x 200\n  at: [0, 0, 0]\n", "6:8", "a size of 2 lengths where 3 are expected", "x"},
	{"sizes as a list", "- name: a\n  box: [100, 200, 20]\n  at: [0, 0, 0]\n", "6:8", "expected sizes along x, y and z", "2400 x 1200 x 20"},
	{"size of nothing", "- name: a\n  box: 100 x 0 x 20\n  at: [0, 0, 0]\n", "6:8", "each size of 100 x 0 x 20 must be more than zero", "sizes"},
	{"negative field", "- name: a\n  rod: {diameter: -10, height: 5}\n  at: [0, 0, 0]\n", "6:19", "the length -10 must be more than zero", "a length"},
	{"group wanted", "- name: a\n  cylinder: 300 x 20\n  at: [0, 0, 0]\n", "6:13", "a cylinder must be a group of keys", "diameter, height"},
	{"field missing", "- name: a\n  rod: {height: 5}\n  at: [0, 0, 0]\n", "6:8", "a rod has no `diameter`", "a length"},
	{"tube with two diameters", "- name: a\n  tube: {outside: 100, inside: 80, wall: 10, height: 10}\n  at: [0, 0, 0]\n", "6:9", "an outside and an inside", "one of the two"},
	{"tube with none", "- name: a\n  tube: {wall: 10, height: 10}\n  at: [0, 0, 0]\n", "6:9", "a tube without a diameter", "`outside:`"},
	{"tube all wall", "- name: a\n  tube: {outside: 100, wall: 60, height: 10}\n  at: [0, 0, 0]\n", "6:9", "does not fit", "50 mm"},
	{"outline that crosses itself", "- name: a\n  polygon: {outline: [[0, 0], [9, 0], [0, 9], [9, 9]], length: 5}\n  at: [0, 0, 0]\n", "6:12", "crosses", "order"},

	// Placing.
	{"no place", "- name: a\n  box: 1 x 1 x 1\n", "5:3", "no place in the load", "`at` (centre of its base)"},
	{"placed twice", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  corner: [0, 0, 0]\n", "5:3", "placed 2 times: by `at` and `corner`", "give one"},
	{"from alone", "- name: a\n  rod: {diameter: 10}\n  from: [0, 0, 0]\n", "5:3", "`from` stands alone", "both"},
	{"to alone", "- name: a\n  rod: {diameter: 10}\n  to: [0, 0, 0]\n", "5:3", "`to` stands alone", "both"},
	{"from and to of a box", "- name: a\n  box: 1 x 1 x 1\n  from: [0, 0, 0]\n  to: [9, 0, 0]\n", "5:3", "a box can't be placed by `from` and `to`", "`along` or `turn`"},
	{"from and to and along", "- name: a\n  rod: {diameter: 1}\n  from: [0, 0, 0]\n  to: [9, 0, 0]\n  along: x\n", "5:3", "`along` does so too", "take `along` away"},
	{"from is to", "- name: a\n  rod: {diameter: 1}\n  from: [9, 0, 0]\n  to: [9, 0, 0]\n", "5:3", "the same place", "two ends"},
	{"length against the ends", "- name: a\n  rod: {diameter: 10, height: 100}\n  from: [0, 0, 0]\n  to: [0, 0, 100.6]\n", "5:3", "its height is 100 mm", "leave `height` out"},
	{"no length", "- name: a\n  rod: {diameter: 10}\n  at: [0, 0, 0]\n", "5:3", "a rod has no `height`", "`from` and `to`"},
	{"along what", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  along: w\n", "8:10", `"w" is not one of the words`, "-x, -y or -z"},
	{"along and turn", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  along: x\n  turn: [z 90]\n", "9:9", "`along` and `turn` are both here", "keep one"},
	{"turn about nothing", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  turn: [90]\n", "8:10", `"90" is not a turn`, "x 90"},
	{"turn in radians", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  turn: [x 2 rad]\n", "8:10", "rad", "degrees"},

	// Copies.
	{"half a copy", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  count: 2.5\n  step: [9, 0, 0]\n", "8:10", "a whole number from 1 to 1000", "whole number"},
	{"copies in one place", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  count: 3\n", "8:10", "3 copies in one place", "`step: [dx, dy, dz]`"},
	{"step without count", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  step: [9, 0, 0]\n", "8:9", "`step` without `count`", "`count:`"},
	{"step of nothing", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  count: 2\n  step: [0, 0, 0]\n", "9:9", "is zero", "distance"},
	{"count beside around", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  count: 3\n  around: {axis: z, through: [9, 0, 0], count: 6}\n", "8:10", "3 copies in one place", "written in `around`"},
	{"around without an axis", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  around: {through: [9, 0, 0], count: 6}\n", "8:11", "`around` has no `axis`", "x, y or z"},
	{"around without a place", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  around: {axis: z, count: 6}\n", "8:11", "`around` has no `through`", "that the axis runs through"},
	{"around without a count", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  around: {axis: z, through: [9, 0, 0]}\n", "8:11", "`around` has no `count`", "a whole number"},
	{"around a word", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  around: z\n", "8:11", "`around` must be a group of keys", "axis, through, count, angle"},
	{"around what", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  around: {axis: w, through: [9, 0, 0], count: 6}\n", "8:18", "\"w\" is not one of the words", "x, y or z"},
	{"around by no angle", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  around: {axis: z, through: [9, 0, 0], count: 6, angle: 0}\n", "8:58", "from one copy to the next is zero", "evenly"},
	{"around and around", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  around: {axis: z, through: [9, 0, 0], count: 13, angle: 30}\n", "8:11", "13 copies 30° apart go more than once around", "write fewer"},
	{"around itself", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  around: {axis: z, through: [0, 0, 0], count: 4}\n", "8:11", "copies 1 and 2 of the part lie in the same place", "away from the part's middle"},
	{"mirror without a plane", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  mirror: {across: x}\n", "8:11", "`mirror` has no `at`", "where the plane stands"},
	{"mirror across two", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  mirror: {across: xy, at: 9}\n", "8:20", "\"xy\" is not one of the words", "x, y or z"},
	{"mirror through the middle", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  mirror: {across: x, at: 0}\n", "8:11", "copies 1 and 2 of the part lie in the same place", "the plane"},
	{"weight on the axis", "- {name: a, weight: 5 kg, at: [0, 0, 7], around: {axis: z, through: [0, 0, 0], count: 2}}\n", "5:50", "lie in the same place", "away"},
	{"too many copies", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  count: 100\n  step: [0, 0, 1]\n  around: {axis: z, through: [9, 0, 0], count: 11}\n", "10:11", "1100 copies of one part; at most 1000", "several parts"},

	// Materials and what is known of the weight.
	{"unknown material", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  material: structral steel\n", "8:13", `unknown material "structral steel"`, "did you mean structural steel"},
	{"no material", "FILEload: a\nunits: mm\nparts:\n" + sound, "4:3", "no material", "once at the top"},
	{"density without unit", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  material: {name: x, density: 7850}\n", "8:32", `no unit on the density: "7850"`, "kg/m3"},
	{"density in the wrong unit", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  material: {name: x, density: 7850 lb/ft3}\n", "8:32", "not between 1 and 25000 kg/m³", "unit"},
	{"density beside the material", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  density: 7850\n", "8:3", `the key "density" is not taken`, "`material: {name: ..., density: ...}`"},
	{"own material twice", sound + "materials:\n- {name: mix A, density: 2400 kg/m3}\n- {name: Mix-a, density: 2500 kg/m3}\n", "10:3", `the material "Mix-a" is given twice`, "its own name"},
	{"bare tolerance", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  tolerance: 5\n", "8:14", "no unit", "5 %"},
	{"unknown status", "- name: a\n  weight: 5 kg\n  at: [0, 0, 0]\n  status: wieghed\n", "8:11", `"wieghed" is not one of the words`, "did you mean `weighed`?"},
	{"weight in tons", "- name: a\n  weight: 2 ton\n  at: [0, 0, 0]\n", "6:11", "ton is ambiguous", "short ton"},
	{"weight without unit", "- name: a\n  weight: 200\n  at: [0, 0, 0]\n", "6:11", `no unit on the mass: "200"`, "kg"},
	{"weight of nothing", "- name: a\n  weight: 0 kg\n  at: [0, 0, 0]\n", "6:11", "must be more than zero", "260 kg"},
	{"weight with a material", "- name: a\n  weight: 5 kg\n  at: [0, 0, 0]\n  material: concrete\n", "8:13", "needs no material", "take `material` away"},
	{"weight with cuts", "- name: a\n  weight: 5 kg\n  at: [0, 0, 0]\n  cuts: [{box: 1 x 1 x 1, at: [0, 0, 0]}]\n", "8:9", "nothing to cut from", "that is left"},
	{"corner of a point", "- name: a\n  weight: 5 kg\n  corner: [0, 0, 0]\n", "5:3", "is a point", "add `box:`"},
	{"units on a box", "- name: a\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n  units: mm\n", "8:10", "the unit of its mesh file", "take it away"},

	// Cuts.
	{"cut beside the part", sound + "  cuts:\n  - {cylinder: {diameter: 100, height: 10}, at: [3000, 0, 0]}\n", "9:5", "misses its part", "the part reaches from [-1000, -500, 0] mm to [1000, 500, 10] mm"},
	{"cut in a bore", "- name: a\n  tube: {outside: 500, wall: 50, height: 500}\n  at: [0, 0, 0]\n  cuts:\n  - {rod: {diameter: 400, height: 100}, at: [0, 0, 100]}\n", "9:5", "misses its part: they have no body in common", "place it in the load's axes"},
	{"cuts that are all", sound + "  cuts:\n  - {box: 1200 x 1000 x 10, corner: [-1000, -500, 0]}\n  - {box: 2000 x 1100 x 20, corner: [-500, -500, 0]}\n", "9:3", "take the whole part away", "leave the part out"},
	{"displaced part that is not there", sound + "  displaces: bloc\n- {name: block, box: 1 x 1 x 1, at: [0, 0, 0]}\n", "8:14", "no part called \"bloc\"", "did you mean \"block\"?"},
	{"displaced itself", sound + "  displaces: plate\n", "8:14", "can't displace itself", "that it sits in"},
	{"displaced weight", sound + "  displaces: [motor]\n- {name: motor, weight: 1 t, at: [0, 0, 0], status: weighed}\n", "8:15", "\"motor\" is known by its weight", "take `displaces` away"},
	{"displaced beside", sound + "  displaces: block\n- {name: block, box: 1 x 1 x 1, at: [5000, 0, 0]}\n", "8:14", "no body in common", "correct a place"},
	{"displaced copies", sound + "  displaces: block\n- {name: block, box: 100 x 100 x 100, at: [0, 0, 0], count: 2, step: [500, 0, 0]}\n", "8:14", "there are 2 of \"block\"", "a part of its own"},
	{"displaced as a whole", sound + "  displaces: block\n- {name: block, box: 100 x 100 x 10, at: [0, 0, 0]}\n", "8:14", "nothing of \"block\" is left", "leave that part out"},
	{"weight that displaces", sound + "- {name: motor, weight: 1 t, at: [0, 0, 0], displaces: plate}\n", "8:56", "only a part with a solid of its own", "take `displaces` away"},
	{"cut that is all", sound + "  cuts:\n  - {box: 2000 x 1000 x 10, at: [0, 0, 0]}\n", "9:3", "take the whole part away", "leave the part out"},
	{"cut with a material", sound + "  cuts:\n  - {box: 1 x 1 x 1, at: [0, 0, 0], material: concrete}\n", "9:37", `unknown key "material" in a cut`, "a cut takes: box"},
	{"cut that is a mesh", sound + "  cuts:\n  - {mesh: hole.stl, at: [0, 0, 0]}\n", "9:6", `unknown key "mesh" in a cut`, "a cut takes"},
	{"cut without a solid", sound + "  cuts:\n  - {at: [0, 0, 0]}\n", "9:5", "a cut is one solid; this has 0", "one solid"},

	// Meshes.
	{"mesh outside the folder", "- name: a\n  mesh: ../a.stl\n  units: mm\n  at: [0, 0, 0]\n", "6:9", "leaves the folder", "beside the load file"},
	{"mesh by an absolute path", "- name: a\n  mesh: /tmp/a.stl\n  units: mm\n  at: [0, 0, 0]\n", "6:9", "leaves the folder", "beside the load file"},
	{"mesh with a backslash", "- name: a\n  mesh: meshes\\a.stl\n  units: mm\n  at: [0, 0, 0]\n", "6:9", "backslash", "write /"},
	{"mesh of another kind", "- name: a\n  mesh: a.step\n  units: mm\n  at: [0, 0, 0]\n", "6:9", "ending", ".stl"},

	// Rigging.
	{"pick in a plane", sound + "picks: [{name: A, at: [0, 0]}]\n", "8:23", "2 numbers where 3 are needed", "[x, y, z]"},
	{"pick twice", sound + "picks:\n- {name: A, at: [0, 0, 0]}\n- {name: A, at: [1, 0, 0]}\n", "10:3", `the pick "A" is here twice, first on line 9`, "its own name"},
	{"lug without a plate", sound + "picks: [{name: A, at: [0, 0, 0], lug: {axis: z}}]\n", "8:39", "a lug has no `normal`", "x, y, z, -x"},
	{"lug on its side", sound + "picks: [{name: A, at: [0, 0, 0], lug: {normal: z}}]\n", "8:39", "axis stands 90° out of its plate", "`axis` the way from the lug's foot"},
	{"lug that faces nowhere", sound + "picks: [{name: A, at: [0, 0, 0], lug: {normal: [0, 0, 0]}}]\n", "8:48", "[0, 0, 0] is no direction", "x, y, z, -x"},
	{"lug by a word", sound + "picks: [{name: A, at: [0, 0, 0], lug: plate}]\n", "8:39", "a lug must be a group of keys", "normal, axis"},
	{"nine picks", sound + "picks: [" + strings.Repeat("{name: x, at: [0, 0, 0]}, ", 9) + "]\n", "8:8", "9 picks", "leave out"},
	{"hook without height", sound + "hook: {above: picks}\n", "8:7", "no `height`", "above: picks, height: 1200"},
	{"hook placed twice", sound + "hook: {at: [0, 0, 5000], height: 3000}\n", "8:7", "placed twice", "`hook:"},
	{"level without a hook", sound + "legs: {lengths: level}\n", "8:7", "need a hook", "`hook:"},
	{"hook beside equal lengths", sound + "hook: {above: picks, height: 1200}\nlegs: {lengths: 3000}\n", "9:7", "the hook's place is a result", "take `hook` away"},
	{"hook beside given lengths", sound + "picks: [{name: A, at: [0, 0, 0]}]\nhook: {above: picks, height: 1200}\nlegs: {lengths: {A: 3000}}\n", "10:7", "the hook's place is a result", "`lengths: level`"},
	{"leg to no pick", sound + "picks: [{name: A, at: [0, 0, 0]}]\nlegs: {lengths: {A: 3000, B: 3000}}\n", "9:7", "a leg length for B, which is no pick", "the picks are A"},
	{"pick without a leg", sound + "picks: [{name: A, at: [0, 0, 0]}, {name: B, at: [1, 0, 0]}]\nlegs: {lengths: {A: 3000}}\n", "9:7", "no leg length for B", "for each pick"},
	{"legs without picks", sound + "legs: {lengths: {A: 3000}}\n", "8:7", "no `picks`", "`picks:"},
	{"stock with a length", sound + "picks: [{name: A, at: [0, 0, 0]}]\nlegs: {lengths: {stock: [2500, 3000], A: 2000}}\n", "9:18", "`stock` beside lengths of legs", "{stock: [2500, 3000]}"},
	{"stock of nothing", sound + "picks: [{name: A, at: [0, 0, 0]}]\nlegs: {lengths: {stock: []}}\n", "9:25", "expected a list of lengths", "[2500, 3000, 3500]"},
	{"stock and a hook", sound + "picks: [{name: A, at: [0, 0, 0]}]\nhook: {above: picks, height: 9}\nlegs: {lengths: {stock: [2500]}}\n", "10:7", "the hook's place is a result", "take `hook` away"},
	{"hardware without stock", sound + "picks: [{name: A, at: [0, 0, 0]}]\nlegs: {lengths: 3000, hardware: 200}\n", "9:7", "go with lengths from stock", "take them away"},
	{"legs of no thickness", sound + "legs: {lengths: 3000, thickness: 0}\n", "8:34", "must be more than zero", "a length"},
	{"fittings in kilograms", sound + "legs: {lengths: 3000, fittings: 12 kg}\n", "8:33", "kg is a unit of mass", "mm, cm, m"},
	{"lengths in words", sound + "legs: {lengths: levle}\n", "8:17", `"levle" is neither a length nor`, "did you mean `level`?"},
	{"hitch", sound + "hitch: baskett\n", "8:8", `"baskett"`, "did you mean `basket`?"},
	{"rules", sound + "rules: UK\n", "8:8", `"UK"`, "US or EN"},
	{"factor as a percentage", sound + "factors: {dynamic: 10 %}\n", "8:20", `"10 %"`, "write"},
	{"factor below one", sound + "factors: {planning: 0.95}\n", "8:21", "must be from 1 to 10", "1.1"},
	{"which angle", sound + "limits: {leg angle: 45}\n", "8:10", `the key "leg angle" is not taken`, "`least angle from horizontal: 45` or `greatest angle from vertical: 45`"},
	{"angle limited twice", sound + "limits: {least angle from horizontal: 45, greatest angle from vertical: 45}\n", "8:73", "limited twice", "keep one"},
	{"angle beyond upright", sound + "limits: {least angle from horizontal: 95}\n", "8:39", "between 0 and 90", "degrees"},
	{"crane without capacity", sound + "limits: {crane: {radius: 8 m}}\n", "8:17", "`crane` has no `capacity`", "260 kg"},
	{"crane with two capacities", sound + "limits: {crane: {capacity: 9 t, radius: 8 m, table: [{radius: 8 m, capacity: 9 t}]}}\n", "8:53", "given twice", "keep one"},
	{"crane's table without a radius", sound + "limits: {crane: {table: [{radius: 8 m, capacity: 9 t}]}}\n", "8:17", "without the `radius` of this lift", "`radius:`"},
	{"crane's row without a capacity", sound + "limits: {crane: {radius: 8 m, table: [{radius: 8 m}]}}\n", "8:39", "a crane row has no `capacity`", "260 kg"},
	{"crane's row twice", sound + "limits: {crane: {radius: 8 m, table: [{radius: 8 m, capacity: 9 t}, {radius: 8 m, capacity: 8 t}]}}\n", "8:69", "this radius twice", "as it will stand"},
	{"crane that lifts more farther out", sound + "limits: {crane: {radius: 8 m, table: [{radius: 8 m, capacity: 9 t}, {radius: 10 m, capacity: 12 t}]}}\n", "8:69", "lift more at 10.000 m than at 8.000 m", "the lesser capacity"},
	{"crane's table in a file of another kind", sound + "limits: {crane: {radius: 8 m, table: crane.pdf}}\n", "8:38", "not .csv", "as CSV"},
	{"crane's table outside the folder", sound + "limits: {crane: {radius: 8 m, table: ../crane.csv}}\n", "8:38", "leaves the folder", "beside the load file"},
	{"radius tolerance without a table", sound + "limits: {crane: {capacity: 9 t, radius tolerance: 300}}\n", "8:17", "says nothing of another radius", "give the table"},
	{"tip without a block", sound + "limits: {crane: {capacity: 9 t, tip height: 12 m}}\n", "8:17", "go together", "`hook height`"},
	{"block to the ground", sound + "limits: {crane: {capacity: 9 t, tip height: 12 m, block height: 13 m}}\n", "8:17", "to the ground or below", "the units"},
	{"hook's height twice", sound + "limits: {hook height: 9 m, crane: {capacity: 9 t, tip height: 12 m, block height: 2 m}}\n", "8:9", "given twice", "keep one"},
	{"obstacle without a hook's height", sound + "limits: {obstacle: {height: 3 m}}\n", "8:9", "without the height of the hook", "`hook height: 12 m`"},
	{"obstacle without a height", sound + "limits: {hook height: 9 m, obstacle: {clearance: 300}}\n", "8:38", "`obstacle` has no `height`", "a length"},
	{"set down below ground", sound + "limits: {hook height: 9 m, set down on: -300}\n", "8:41", "more than zero", "a length"},
	{"bare hoist rope", sound + "limits: {crane: {capacity: 9 t, hoist rope: {length: 15 m}}}\n", "8:45", "`hoist rope` has no `weight`", "260 kg"},
	{"deduction without a weight", sound + "limits: {crane: {capacity: 9 t, deductions: [{name: jib}]}}\n", "8:46", "a deduction has no `weight`", "260 kg"},
	{"trigger above the capacity", sound + "limits: {crane: {capacity: 9 t, trigger: 120 %}}\n", "8:42", "from 10 % to 100 %", "75 %"},
	{"bare temperature", sound + "surroundings: {temperature: 20}\n", "8:29", "no unit on the temperature", "20 C"},
	{"no chemicals and some", sound + "surroundings: {chemicals: [none, acid]}\n", "8:27", "none, and also acid", "or [none]"},
	{"edges in words", sound + "surroundings: {edges: blunt}\n", "8:23", `"blunt"`, "none, rounded or sharp"},
	{"outdoors perhaps", sound + "surroundings: {outdoors: perhaps}\n", "8:26", `"perhaps"`, "true, false"},
	{"stretch of nothing", sound + "legs: {lengths: 3000, stretch: {at: 10 t}}\n", "8:32", "the stretch is not stated", "{EA: 40 MN}"},
	{"stretch in words", sound + "legs: {lengths: 3000, stretch: much}\n", "8:32", `stretch must be a group of keys; this is "much"`, "stretch takes: EA, percent, at"},
	{"stretch twice", sound + "legs: {lengths: 3000, stretch: {EA: 40 MN, percent: 3 %, at: 10 t}}\n", "8:32", "in more than one way", "keep one"},
	{"percent without a load", sound + "legs: {lengths: 3000, stretch: {percent: 3 %}}\n", "8:32", "says nothing without the load", "{percent: 3 %, at: 10 t}"},
	{"EA at a load", sound + "legs: {lengths: 3000, stretch: {EA: 40 MN, at: 10 t}}\n", "8:32", "EA holds at any load", "take `at` away"},
	{"EA without a unit", sound + "legs: {lengths: 3000, stretch: {EA: 40}}\n", "8:37", "no unit", "kN, MN"},
	{"EA too small", sound + "legs: {lengths: 3000, stretch: {EA: 40 N}}\n", "8:37", "must be from 1 kN", "look at its unit"},
	{"stretch of everything", sound + "legs: {lengths: 3000, stretch: {percent: 60 %, at: 1 t}}\n", "8:42", "at most 50 %", "write 3 %"},
	{"material of no family", sound + "legs: {lengths: 3000, stretch: {material: nylon}}\n", "8:32", "the stretch is not stated", "family: synthetic_web"},
	{"EA of a material", sound + "legs: {lengths: 3000, stretch: {EA: 40 MN, material: nylon}}\n", "8:32", "`material` without a `family`", "{EA: 40 MN}"},
	{"attitude not said", sound + "picks: [{name: A, at: [0, 0, 0]}]\nlegs: {lengths: attitude}\n", "9:7", "it is not said which", "{about: y, by: 30}"},
	{"attitude misspelt", sound + "legs: {lengths: atitude}\n", "8:17", "neither a length", "did you mean `attitude`?"},
	{"level and an attitude", sound + "picks: [{name: A, at: [0, 0, 0]}]\nhook: {above: picks, height: 9}\nlegs: {lengths: level, attitude: {about: y, by: 30}}\n", "10:7", "cut for level, and an `attitude`", "`lengths: attitude`"},
	{"attitude of nothing", sound + "legs: {lengths: 3000, attitude: {about: y}}\n", "8:33", "both `about` and `by`", "{about: y, by: 30}"},
	{"attitude twice", sound + "legs: {lengths: 3000, attitude: {about: y, by: 3, up: [0, 0, 1]}}\n", "8:33", "one of the two", "{about: y, by: 30}"},
	{"attitude about z", sound + "legs: {lengths: 3000, attitude: {about: z, by: 3}}\n", "8:41", `"z" is not one of the words`, "x, y, -x or -y"},
	{"up of no length", sound + "legs: {lengths: 3000, attitude: {up: [0, 0, 0]}}\n", "8:38", "must have some length", "[0, 0, 1]"},
	{"up of two numbers", sound + "legs: {lengths: 3000, attitude: {up: [0, 1]}}\n", "8:38", "expected a direction", "[x, y, z]"},
	{"attitude without picks", sound + "legs: {lengths: 3000, attitude: {about: y, by: 30}}\n", "8:7", "no `picks`", "`picks:"},
	{"attitude and a hook at a place", sound + "picks: [{name: A, at: [0, 0, 0]}]\nhook: {at: [0, 0, 9]}\nlegs: {lengths: attitude, attitude: {about: y, by: 30}}\n", "10:7", "a hook at a place", "{above: picks, height: 1200}"},
	{"attitude without a hook", sound + "picks: [{name: A, at: [0, 0, 0]}]\nlegs: {lengths: attitude, attitude: {about: y, by: 30}}\n", "9:7", "need a hook", "`hook:"},
	{"sharing of nothing", sound + "sharing: {because: a beam}\n", "8:10", "neither a `basis` nor", "equalised: [[A, B]]"},
	{"sharing twice", fourPicks + "sharing: {basis: elastic, equalised: [[A, B]], because: a beam}\n", "9:10", "both a `basis` and", "keep the one"},
	{"equalised without picks", sound + "sharing: {equalised: [[A, B]], because: a beam}\n", "8:10", "no `picks`", "`picks:"},
	{"one leg equalised", fourPicks + "sharing: {equalised: [[A]], because: a beam}\n", "9:10", "the group A has one leg", "[[A, B]]"},
	{"a stranger equalised", fourPicks + "sharing: {equalised: [[A, E]], because: a beam}\n", "9:10", `"E" in`, "the picks are A, B, C, D"},
	{"a leg equalised twice", fourPicks + "sharing: {equalised: [[A, B], [B, C]], because: a beam}\n", "9:10", "the leg to B is in", "each leg once"},
	{"all equalised", fourPicks + "sharing: {equalised: [[A, B], [C, D]], because: a beam}\n", "9:10", "make 2 pulls", "of four legs two"},
	{"equalised in no group", fourPicks + "sharing: {equalised: [A, B], because: a beam}\n", "9:23", "expected a group of picks", "[A, B]"},
	{"protection without an edge", sound + "surroundings: {edges: {protection: corner pads}}\n", "8:23", "`edges` has no `radius`", "a length"},
	{"some protection", sound + "surroundings: {edges: {radius: 5, protection: yes}}\n", "8:47", `"yes" does not say what protects the edge`, "corner pads, or none"},
	{"strength as a key", sound + "surroundings: {chemicals: [{acid: dilute}]}\n", "8:28", "a chemical is a name, not a group of keys", "[dilute acid]"},
	{"shock perhaps", sound + "surroundings: {shock: some}\n", "8:23", `"some"`, "true, false"},
	{"shock in two spellings", sound + "surroundings: {shock: no, shock load: yes}\n", "8:27", "shock load", "keep one"},
	{"hot work as a place", sound + "surroundings: {hot work: above}\n", "8:26", `"above"`, "true, false"},
	{"condition misspelt", sound + "surroundings: {people nearby: yes}\n", "8:16", `unknown key "people nearby"`, "people near"},
	{"sharing without a reason", sound + "sharing: {basis: elastic}\n", "8:10", "`sharing` has no `because`", "the reason"},
	{"wind without a figure", sound + "wind: {from: x}\n", "8:7", "neither a `speed` nor a `pressure`", "`wind: {speed: 10 m/s}`"},
	{"wind twice", sound + "wind: {speed: 10 m/s, pressure: 60 N/m2}\n", "8:7", "a `speed` and a `pressure`", "keep one"},
	{"bare wind", sound + "wind: {speed: 10}\n", "8:15", `no unit on the speed: "10"`, "km/h"},
	{"wind in the wrong unit", sound + "wind: {speed: 100 N/m2}\n", "8:15", "N/m2 is a unit of pressure", "m/s"},
	{"wind of a hurricane", sound + "wind: {speed: 100 m/s}\n", "8:15", "at most 60 m/s", "10 m/s"},
	{"wind from above", sound + "wind: {speed: 10 m/s, from: z}\n", "8:29", "not level", "[x, y, 0]"},
	{"wind from nowhere", sound + "wind: {speed: 10 m/s, from: north}\n", "8:29", `"north" is not one of the words`, "x, y"},
	{"wind of no shape", sound + "wind: {speed: 10 m/s, shape factor: 0}\n", "8:37", "more than zero and at most 4", "1.2"},
	{"wind on a bare area", sound + "wind: {speed: 10 m/s, area: 6}\n", "8:29", `no unit on the area: "6"`, "m2"},
	{"centre of no area", sound + "wind: {speed: 10 m/s, at: [0, 0, 0]}\n", "8:7", "without the area", "`area`"},
	{"tag line without a place", sound + "tag line: {pull: 300 N, toward: y}\n", "8:11", "`tag line` has no `at`", "a place"},
	{"tag line that pulls nowhere", sound + "tag line: {pull: 300 N, at: [0, 0, 0]}\n", "8:11", "go together", "toward: y"},
	{"tag line pulled by the kilogram", sound + "tag line: {pull: 30 kg, toward: y, at: [0, 0, 0]}\n", "8:18", "kg is a unit of mass", "N, daN"},
	{"tag line for nothing", sound + "tag line: {at: [0, 0, 0]}\n", "8:11", "no `wind`", "`pull` and `toward`"},
	{"lift-off without a pull", sound + "lift-off: {area: 3 m2}\n", "8:11", "neither `suction` nor `adhesion`", "suction: 2 kN/m2"},
	{"lift-off without an area", sound + "lift-off: {suction: 2 kN/m2}\n", "8:11", "`lift-off` has no `area`", "underside"},
	{"suction and adhesion", sound + "lift-off: {suction: 2 kN/m2, adhesion: 1 kN/m2, area: 3 m2}\n", "8:40", "both `suction` and `adhesion`", "give one"},
	{"more than the air weighs", sound + "lift-off: {suction: 200 kN/m2, area: underside}\n", "8:21", "the weight of the air", "100 N/m2"},
	{"an area in words", sound + "lift-off: {suction: 2 kN/m2, area: all}\n", "8:36", `"all"`, "m2"},
	{"text that steers a terminal", "- name: \"a\\e[31m\"\n  box: 1 x 1 x 1\n  at: [0, 0, 0]\n", "5:9", `"a\x1b[31m" holds a character that cannot be printed`, "take it away"},
}

// numberAt is a part with a number to try in its place, at 7:8.
func numberAt(number string) string {
	return "- name: a\n  box: 1 x 1 x 1\n  at: [" + number + ", 0, 0]\n"
}

func TestBadFilesSayWhereWhatAndHowToMend(t *testing.T) {
	for _, tt := range badFiles {
		t.Run(tt.name, func(t *testing.T) {
			text, whole := strings.CutPrefix(tt.file, "FILE")
			if !whole {
				text = head + text
			}
			p := problemsOf(t, text)
			require.Len(t, p, 1, "want this problem alone:\n%v", p)
			assert.Equal(t, tt.at, fmt.Sprintf("%d:%d", p[0].Line, p[0].Column), "place of %v", p[0])
			assert.Contains(t, p[0].Text, tt.text)
			assert.Contains(t, p[0].Fix, tt.fix)
			assert.Equal(t, "load.yaml", p[0].File)
		})
	}
}
