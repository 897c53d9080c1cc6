package report

import (
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"

	"plumbhook/lift"
)

// TestInlineSVG: in a page a drawing stands at its own size, named for those who
// can't see it, and each kind of mark that it may hold has a style that no colour
// tells apart.
func TestInlineSVG(t *testing.T) {
	d := lift.Drawing{Title: "Plan", Alt: "words", Wide: 180, High: 95.5, Marks: []lift.Mark{{Kind: "circle", Of: "cg", At: []mgl64.Vec2{{1, 2}}, Radius: 1.8}}}
	got := svg(d, "plan")
	assert.True(t, strings.HasPrefix(got, `<svg xmlns="http://www.w3.org/2000/svg" class="drawing" role="img" aria-labelledby="plan-title plan-words" viewBox="0 0 180 95.5" width="180mm" height="95.5mm">`))
	assert.Contains(t, got, `<title id="plan-title">Plan</title><desc id="plan-words">words</desc>`)
	for _, of := range []string{"hole", "ground", "leg", "pick", "hook", "cg", "region", "size", "axis", "label", "plumb", "scale", "curve", "second"} {
		assert.Contains(t, markStyle, ".m-"+of)
	}
	for _, color := range strings.Split(markStyle, "#")[1:] {
		assert.Contains(t, []string{"000", "fff"}, color[:3], "black and white alone")
	}
}
