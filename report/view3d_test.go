package report_test

import (
	"context"
	"fmt"
	"image"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	cdp "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/report"
)

// inkOf is the ink of the palette that a pixel is a shade of; -1: none.
func inkOf(picture image.Image, x, y int, inks [][3]float64) int {
	r, g, b, _ := picture.At(x, y).RGBA()
	pixel := [3]float64{float64(r) / 65535, float64(g) / 65535, float64(b) / 65535}
	for i, ink := range inks {
		shade := pixel[0] / ink[0]
		if shade < 0.5 || shade > 1.01 {
			continue
		}
		if math.Abs(pixel[1]-shade*ink[1]) < 0.012 && math.Abs(pixel[2]-shade*ink[2]) < 0.012 {
			return i
		}
	}
	return -1
}

// partColours counts the inks of parts that cover more than a few pixels.
func partColours(picture image.Image, inks [][3]float64) int {
	pixels := map[int]int{}
	box := picture.Bounds()
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			pixels[inkOf(picture, x, y, inks)]++
		}
	}
	delete(pixels, -1)
	count := 0
	for _, n := range pixels {
		if n > 40 {
			count++
		}
	}
	return count
}

// TestSamplesInBrowser opens the page of every sample.
func TestSamplesInBrowser(t *testing.T) {
	chromium := browser(t)
	samples, err := filepath.Glob("../samples/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, samples)
	for _, sample := range samples {
		t.Run(filepath.Base(sample), func(t *testing.T) {
			s := readSheet(t, "../samples", filepath.Base(sample))
			p := open(t, chromium, page(t, s, report.Options{Version: "v1"}), 1280)
			assert.False(t, value[bool](p, `plumbhookView.ready()`), "nothing is drawn before the view is seen")
			p.view()
			first := p.picture()
			assert.GreaterOrEqual(t, partColours(first, value[[][3]float64](p, `plumbhookView.inks`)), 3, "colours of parts")
			p.press(kb.ArrowRight + kb.ArrowRight + kb.ArrowUp)
			assert.Greater(t, differ(first, p.picture()), 1000, "pixels: it turns")
			if s.Legs.Posed != nil {
				tilt(t, p, s)
			}
			clicks(t, p)
			printed(t, p, s)
			assert.Empty(t, p.faults)
			assert.Len(t, p.requested, 1, "nothing is fetched but the page itself: %v", p.requested)
		})
	}
}

// press presses keys on the view.
func (p *tab) press(keys string) {
	p.t.Helper()
	p.run(chromedp.Evaluate(`document.querySelector('canvas').focus()`, nil), chromedp.KeyEvent(keys))
}

// differ counts the pixels in which two pictures of one size are not alike.
func differ(a, b image.Image) int {
	count := 0
	box := a.Bounds()
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if a.At(x, y) != b.At(x, y) {
				count++
			}
		}
	}
	return count
}

// tilt looks along the axis about which the load is tilted, and measures by how
// much what should point up leans on the screen.
func tilt(t *testing.T, p *tab, s lift.LiftSheet) {
	t.Helper()
	up := s.Legs.Up
	azimuth, upright := -90.0, geom.Vec{0, 0, 1}
	if s.Legs.Attitude != nil {
		require.Less(t, s.Legs.TiltDeg, 0.001, "of a load in an attitude the axis of the tilt is not worked out here")
		upright = s.Legs.Attitude.Up
	} else if s.Legs.TiltDeg > 0.001 {
		azimuth = math.Atan2(-up[0], up[1]) * 180 / math.Pi // of up × z
	}
	lean := value[float64](p, fmt.Sprintf(`(() => {
		plumbhookView.set({azimuth: %v, elevation: 0, zoom: 1, hung: true});
		const cg = plumbhookView.data.cg;
		const [from, to] = [plumbhookView.project(cg), plumbhookView.project([cg[0] + %v, cg[1] + %v, cg[2] + %v])];
		return Math.atan2(Math.abs(to[0] - from[0]), from[1] - to[1]) * 180 / Math.PI;
	})()`, azimuth, upright[0], upright[1], upright[2]))
	assert.InDelta(t, s.Legs.TiltDeg, lean, 0.5, "degrees")
	plumb := value[float64](p, `(() => {
		const [hook, cg] = [plumbhookView.project(plumbhookView.data.hook), plumbhookView.project(plumbhookView.data.cg)];
		return Math.abs(hook[0] - cg[0]);
	})()`)
	if len(s.Legs.Bars) == 0 { // under bars it is the CG of load and bars together
		assert.Less(t, plumb, 0.5, "pixels: the CG is plumb below the hook")
	}
	assert.InDelta(t, 0, value[float64](p, `(() => {
		plumbhookView.set({hung: false});
		const cg = plumbhookView.data.cg;
		return plumbhookView.project([cg[0], cg[1], cg[2] + 1])[0] - plumbhookView.project(cg)[0];
	})()`), 1e-3, "pixels: as drawn it stands upright")
}

// clicks picks a part out in the list, and another in the view.
func clicks(t *testing.T, p *tab) {
	t.Helper()
	const first = `button[data-of="part"]`
	p.run(chromedp.Click(first))
	assert.Equal(t, value[string](p, `document.querySelector('button[data-of="part"]').dataset.name`), value[string](p, `plumbhookView.chosen()`))
	assert.Equal(t, "true", value[string](p, `document.querySelector('button[data-of="part"]').getAttribute('aria-pressed')`))
	assert.Positive(t, value[int](p, `document.querySelectorAll('.drawing .chosen').length`), "in the drawings too")
	assert.Positive(t, striped(p.picture()), "pixels of the stripes by which it is picked out")
	p.run(chromedp.Click(first))
	assert.Zero(t, striped(p.picture()), "and no more")

	at := value[[]float64](p, `(() => {
		plumbhookView.set({azimuth: -55, elevation: 28, zoom: 1});
		const solid = plumbhookView.data.parts[0].solids[0];
		const corner = (i) => [0, 1, 2].map((k) => solid.v[3 * solid.f[i] + k] * 1e-4);
		const middle = [0, 1, 2].map((k) => (corner(0)[k] + corner(1)[k] + corner(2)[k]) / 3);
		const box = document.querySelector('canvas').getBoundingClientRect();
		const on = plumbhookView.project(middle);
		return [box.left + on[0], box.top + on[1]];
	})()`)
	p.run(chromedp.MouseClickXY(at[0], at[1]))
	assert.NotEmpty(t, value[string](p, `plumbhookView.chosen() || ''`), "a part is picked out where it is clicked")
	p.press(kb.Escape)
	assert.Empty(t, value[string](p, `plumbhookView.chosen() || ''`))
}

// striped counts the pixels of the stripes on the part that is picked out.
func striped(picture image.Image) int {
	count := 0
	box := picture.Bounds()
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			r, g, b, _ := picture.At(x, y).RGBA()
			if r>>8 > 210 && r>>8 < 222 && g>>8 < 60 && b>>8 < 8 {
				count++
			}
		}
	}
	return count
}

// printed prints the page and looks for what only the drawings say.
func printed(t *testing.T, p *tab, s lift.LiftSheet) {
	t.Helper()
	var pdf []byte
	p.run(chromedp.ActionFunc(func(ctx context.Context) (err error) {
		pdf, _, err = cdp.PrintToPDF().WithPaperWidth(8.27).WithPaperHeight(11.69).Do(ctx)
		return err
	}))
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		require.NotEqual(t, "true", os.Getenv("CI"), "no pdftotext here, and all tests must run")
		return
	}
	cmd := exec.Command(tool, "-", "-")
	cmd.Stdin = strings.NewReader(string(pdf))
	text, err := cmd.Output()
	require.NoError(t, err)
	assert.Contains(t, string(text), s.Drawings[0].Title)
	lines := strings.Split(strings.ReplaceAll(string(text), "\u00a0", " "), "\n")
	found := 0
	for _, mark := range s.Drawings[0].Marks {
		if mark.Kind == "text" && slices.Contains(lines, strings.ReplaceAll(mark.Text, "\u00a0", " ")) {
			found++
		}
	}
	assert.Positive(t, found, "labels of the first drawing")
	assert.NotContains(t, string(text), "In three dimensions")
}

// tiltedBlock hangs on two legs of unlike lengths, so that it tilts about y.
const tiltedBlock = `load: Block on unlike legs
units: mm
material: structural steel
parts:
  - {name: block, plate: 2000 x 1000 x 400, center: [1000, 500, 200]}
picks:
  - {name: west, at: [200, 500, 400]}
  - {name: east, at: [1800, 500, 400]}
legs: {lengths: {west: 1500, east: 1700}}
`

// TestTiltInPixels measures the lower edge of a block that hangs tilted, on the
// picture itself: as steep as the figure.
func TestTiltInPixels(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "block.yaml"), []byte(tiltedBlock), 0o644))
	s := readSheet(t, folder, "block.yaml")
	require.Greater(t, s.Legs.TiltDeg, 4.0, "enough to be measured")
	p := open(t, browser(t), page(t, s, report.Options{}), 1280)
	p.view()
	inks := value[[][3]float64](p, `plumbhookView.inks`)
	for _, hung := range []bool{true, false} {
		value[any](p, fmt.Sprintf(`plumbhookView.set({azimuth: -90, elevation: 0, zoom: 1, hung: %v}), null`, hung))
		want := 0.0
		if hung {
			want = s.Legs.TiltDeg
		}
		assert.InDelta(t, want, math.Abs(lowerEdge(p.picture(), inks)), 0.5, "degrees, hung: %v", hung)
	}
	assert.Contains(t, value[string](p, `document.querySelector('.status').textContent`), "As drawn")
}

// lowerEdge is the slope in degrees of the lowest pixels of a part, by least squares
// over the middle of it.
func lowerEdge(picture image.Image, inks [][3]float64) float64 {
	var xs, ys []float64
	box := picture.Bounds()
	for x := box.Min.X; x < box.Max.X; x++ {
		for y := box.Max.Y - 1; y >= box.Min.Y; y-- {
			if inkOf(picture, x, y, inks[:1]) == 0 {
				xs, ys = append(xs, float64(x)), append(ys, float64(y))
				break
			}
		}
	}
	xs, ys = xs[len(xs)/5:len(xs)*4/5], ys[len(ys)/5:len(ys)*4/5]
	var sx, sy, sxx, sxy float64
	for i, x := range xs {
		sx, sy, sxx, sxy = sx+x, sy+ys[i], sxx+x*x, sxy+x*ys[i]
	}
	n := float64(len(xs))
	return math.Atan((n*sxy-sx*sy)/(n*sxx-sx*sx)) * 180 / math.Pi
}

// TestPageWithoutItsHelpers: without scripts, without WebGL, on a phone, and with
// names that would like to run.
func TestPageWithoutItsHelpers(t *testing.T) {
	chromium := browser(t)
	pump := page(t, readSheet(t, "../samples", "pump-skid-us.yaml"), report.Options{})
	t.Run("no scripts", func(t *testing.T) {
		p := open(t, chromium, pump, 1280, emulation.SetScriptExecutionDisabled(true))
		assert.Positive(t, value[float64](p, `document.querySelector('svg.drawing').getBoundingClientRect().width`))
		assert.Positive(t, value[float64](p, `document.querySelector('.instead').offsetHeight`), "says why there is no view")
		assert.Zero(t, value[float64](p, `document.querySelector('.tools').offsetHeight`), "no buttons that do nothing")
		assert.Empty(t, p.faults)
	})
	t.Run("no WebGL", func(t *testing.T) {
		off := chromedp.ActionFunc(func(ctx context.Context) error {
			_, err := cdp.AddScriptToEvaluateOnNewDocument(`HTMLCanvasElement.prototype.getContext = () => null`).Do(ctx)
			return err
		})
		p := open(t, chromium, pump, 1280, off)
		p.run(chromedp.Evaluate(`document.getElementById('view').scrollIntoView()`, nil), chromedp.Click(`button[data-of="part"]`))
		assert.Positive(t, value[float64](p, `document.querySelector('.instead').offsetHeight`))
		assert.Positive(t, value[int](p, `document.querySelectorAll('.drawing .chosen').length`), "parts are still picked out in the drawings")
		assert.Empty(t, p.faults)
	})
	t.Run("phone", func(t *testing.T) {
		p := open(t, chromium, pump, 390)
		p.view()
		assert.LessOrEqual(t, value[int](p, `document.documentElement.scrollWidth`), 390, "nothing stands out of the page")
		assert.Empty(t, p.faults)
	})
	t.Run("hostile names", func(t *testing.T) {
		p := open(t, chromium, page(t, hostile(), report.Options{}), 1280)
		p.view()
		p.run(chromedp.Click(`button[data-of="part"]`))
		assert.False(t, value[bool](p, `Boolean(window.ran)`))
		assert.Contains(t, value[string](p, `document.querySelector('h1').textContent`), "</script>")
		assert.Contains(t, value[string](p, `plumbhookView.chosen()`), "<b onclick")
		assert.Empty(t, p.faults)
	})
}
