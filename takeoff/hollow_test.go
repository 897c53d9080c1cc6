package takeoff

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is closed all around and says nothing of what is in it is taken as empty,
// with a warning; what is open at an end is listed.
func TestHollowsAreTakenAsEmpty(t *testing.T) {
	for part, want := range map[string][2]string{
		"sphere: {diameter: 500, wall: 5}":                                                                                     {"the sphere has no `contents`", ""},
		"vessel: {inside: 500, wall: 5, length: 900, heads: flat}":                                                             {"the vessel has no `contents`", ""},
		"tube: {outside: 500, wall: 5, height: 900}":                                                                           {"", "a"},
		"hemisphere: {diameter: 500, wall: 5}":                                                                                 {"", "a"},
		"bend: {outside: 220, wall: 10, radius: 300, angle: 90}":                                                               {"", "a"},
		"cone: {bottom: 500, top: 300, height: 400, wall: 5}":                                                                  {"", "a"},
		"head: {kind: 'ellipsoidal 2:1', inside: 500, wall: 5}":                                                                {"", "a"},
		"pipe: NPS 6 sch 40, length: 900":                                                                                      {"", "a"},
		"box: 500 x 500 x 500, cuts: [{box: 480 x 480 x 480, at: [0, 0, 10]}]":                                                 {"a cut lies within the box", ""},
		"box: 500 x 500 x 500, cuts: [{box: 480 x 480 x 490, at: [0, 0, 10]}]":                                                 {"", ""}, // open at the top
		"box: 500 x 500 x 500, cuts: [{rod: {diameter: 20, height: 500}, at: [0, 0, 0]}]":                                      {"", ""},
		"box: 500 x 500 x 500, turn: [x 20], cuts: [{box: 480 x 480 x 500, turn: [x 20], at: [0, 0, 0]}]":                      {"", ""},
		"section: HEA 200, length: 900, turn: [z 0], cuts: [{rod: {diameter: 20}, from: [-3.25, 0, 450], to: [3.25, 0, 450]}]": {"", ""}, // through the web, 6.5 mm
		"sphere: {diameter: 500}":                                                                                              {"", ""},
		"section: HEA 200, length: 900, turn: [z 0]":                                                                           {"", ""},
		"sphere: {diameter: 500, wall: 5}, contents: {fluid: water, fill: 50 %}":                                               {"", ""},
	} {
		l := good(t, head+"- {name: a, "+part+", at: [0, 0, 0]}\n")
		assert.Equal(t, want[1], strings.Join(l.OpenAndEmpty(), ", "), part)
		text := warnedOf(t, l, "vessel-empty").Text
		if assert.Contains(t, text, want[0], part); want[0] == "" {
			assert.Empty(t, text, part)
		}
	}
}
