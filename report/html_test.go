package report_test

import (
	"html"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
	"plumbhook/units"
)

func page(t *testing.T, s lift.LiftSheet, opt report.Options) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, report.HTML(&b, s, opt))
	return b.String()
}

// drawnSheet is the sheet of a load file, with all that its page draws.
func readSheet(t *testing.T, folder, file string) lift.LiftSheet {
	t.Helper()
	load, err := takeoff.Read(os.DirFS(folder), file, takeoff.Options{})
	require.NoError(t, err)
	s, err := lift.Sheet(load, lift.Options{Draw: true, Solids: true, Date: "4 May 2026"})
	require.NoError(t, err)
	return s
}

// TestPageOrder: the verdict first, then what the crew reads, then the working.
func TestPageOrder(t *testing.T) {
	got := page(t, readSheet(t, "../samples", "pump-skid-us.yaml"), report.Options{Version: "v1"})
	at := 0
	for _, want := range []string{"<header>", "ACCEPTABLE", "</header>", "<nav", "<main>", "For the crew", "Gross load on the hook", "Headroom", "from the edges", "Rating needed",
		`id="warnings"`, "What to do", `id="drawings"`, "<figcaption>", "<svg", `id="view"`, `id="trial"`, `id="slings"`, `id="hangs"`, `id="takeoff"`, `id="assumed"`,
		"Not checked", "Prepared", "Checked", "</main>", "<footer>", "plumbhook v1", "input sha256", "</footer>"} {
		next := strings.Index(got[at:], want)
		require.GreaterOrEqual(t, next, 0, "%q does not come where it should", want)
		at += next
	}
}

// TestPageRefuses: a lift that is not acceptable says so before all else, and where
// there is no pose there is no tension.
func TestPageRefuses(t *testing.T) {
	got := html.UnescapeString(page(t, badSheet(), report.Options{}))
	head := got[:strings.Index(got, "</header>")]
	assert.True(t, strings.Contains(head, "NOT ACCEPTABLE"))
	assert.True(t, strings.Contains(head, "<li>"+tooShort))
	assert.True(t, strings.Contains(got, "No pose was found"))
	for _, never := range []string{"ension</th>", `id="view"`, "script-src"} {
		assert.False(t, strings.Contains(got, never), "%s: there is no tension, and no shape to view", never)
	}
}

// TestPageSaysWhatTheTextSays: every cell of the tables and every line of the
// working is in the page.
func TestPageSaysWhatTheTextSays(t *testing.T) {
	s := sheet()
	flat := func(text string) string {
		return strings.Join(strings.Fields(strings.ReplaceAll(text, "\u00a0", " ")), " ")
	}
	got := flat(html.UnescapeString(page(t, s, report.Options{})))
	for _, want := range []string{"not an equilibrium; the CG passes", "2.831 kN<br>636.5 lbf", "640.9 kg (1 413 lb)", "The load's own box is from", "CG x",
		"common practice: no publication stands behind the figure", "Elastic share</th>", "Hook block, as stated"} {
		assert.True(t, strings.Contains(got, want), want)
	}
}

// TestPageUnits: one system hides the figures of the other.
func TestPageUnits(t *testing.T) {
	s := sheet()
	s.Legs.Basis, s.Legs.GoverningCase, s.Warnings, s.Slings.Advice = "", "", nil, nil // sentences hold both
	assert.False(t, strings.Contains(page(t, s, report.Options{Show: units.Metric}), "lbf"))
	assert.False(t, strings.Contains(page(t, s, report.Options{Show: units.US}), "kN"))
}

// TestPageIsTheSameTwice: same input, same bytes.
func TestPageIsTheSameTwice(t *testing.T) {
	first := page(t, readSheet(t, "../samples", "press-frame.yaml"), report.Options{})
	assert.True(t, first == page(t, readSheet(t, "../samples", "press-frame.yaml"), report.Options{}))
}

// TestPageStandsAlone: nothing on it is fetched, and no style or handler stands in
// a tag, where the policy would forbid it.
func TestPageStandsAlone(t *testing.T) {
	got := page(t, readSheet(t, "../samples", "press-frame.yaml"), report.Options{})
	for _, never := range []string{"src=", "<link", "@import", "url(h", " style=", " onclick", "unsafe", "//cdn"} {
		assert.False(t, strings.Contains(got, never), never)
	}
	for _, address := range strings.Split(got, "http")[1:] {
		assert.True(t, strings.HasPrefix(address, "://www.w3.org/2000/svg") || strings.HasPrefix(address, "-equiv"), "%.40s", address)
	}
	assert.True(t, strings.Contains(got, "default-src &#39;none&#39;"))
}

// nasty is a name that would run a script where it is not written as text.
const nasty = `</script><script>window.ran=true</script>"'&<b onclick=alert(1)>`

// hostile is a sheet in which every text of a load file is nasty.
func hostile() lift.LiftSheet {
	s := sheet()
	s.Load, s.Drawing, s.Datum, s.State, s.Date = nasty, nasty, nasty, nasty, nasty
	s.Warnings = []lift.Warning{{Code: "x", Text: nasty, Fix: nasty}}
	s.Assumptions = []string{nasty}
	s.Weigh.Parts[0].Name, s.Weigh.Parts[0].Written, s.Weigh.Parts[0].Material, s.Weigh.Parts[0].Basis = nasty, nasty, nasty, nasty
	s.Legs.Legs[0].Pick, s.Legs.Governing = nasty, nasty
	s.Solids = []lift.Solid3D{{Part: nasty, Vertices: []geom.Vec{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}, Faces: [][3]int{{0, 1, 2}}}}
	s.Drawings = []lift.Drawing{{View: "plan", Title: nasty, Alt: nasty, Wide: 100, High: 100, Scale: 10}}
	return s
}

// TestNamesCantRunScripts: names are text wherever they stand.
func TestNamesCantRunScripts(t *testing.T) {
	got := page(t, hostile(), report.Options{Version: nasty})
	assert.False(t, strings.Contains(got, "<script>window"))
	assert.False(t, strings.Contains(got, "<b "))
	assert.Equal(t, 2, strings.Count(got, "<script"), "the page's own")
	assert.Equal(t, 2, strings.Count(got, "</script"), "the page's own")
	assert.Equal(t, 1, strings.Count(got, "</style"), "the page's own")
}

// TestViewScriptIsSmall: it is read by those who have to trust it.
func TestViewScriptIsSmall(t *testing.T) {
	script, err := os.ReadFile("view3d.js")
	require.NoError(t, err)
	assert.Less(t, len(script), 25_000)
}
