package report_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// indexed are loads of every sort: fine, on two hooks, in states, refused, not
// solved, without rules, unreadable.
func indexed(t *testing.T) []report.Indexed {
	t.Helper()
	sheet := func(file, rules string, change func(*takeoff.Load)) lift.LiftSheet {
		load, err := takeoff.Read(os.DirFS("../samples"), file, takeoff.Options{})
		require.NoError(t, err)
		if change != nil {
			change(load)
		}
		s, err := lift.Sheet(load, lift.Options{Rules: rules})
		require.NoError(t, err)
		return s
	}
	low := sheet("press-frame.yaml", "", func(l *takeoff.Load) {
		least := 1.0
		l.Name, l.Rigging.Limits.Headroom = "Press frame under a low <roof> & beam", &least
	})
	require.False(t, low.Verdict.Acceptable)
	short := sheet("press-frame.yaml", "", func(l *takeoff.Load) {
		l.Name, l.Rigging.Hook = "Press frame, legs that can't reach", nil
		l.Rigging.Legs.Mode, l.Rigging.Legs.Equal = "equal", 0.2
	})
	require.False(t, short.Legs.Solved)
	return []report.Indexed{
		{Input: "jobs/press-frame.yaml", File: "press-frame.html", Sheet: sheet("press-frame.yaml", "", nil)},
		{Input: "jobs/stack-section.yaml", File: "stack-section.html", Sheet: sheet("stack-section.yaml", "", nil)},
		{Input: "jobs/rinse tank #4.yaml", File: "rinse tank #4.html", Sheet: sheet("rinse-tank.yaml", "", nil)},
		{Input: "jobs/low.yaml", File: "low.html", Sheet: low},
		{Input: "jobs/short.yaml", File: "short.html", Sheet: short},
		{Input: "jobs/bad.yaml", Old: "bad.html", Problems: []lift.Problem{
			{File: "jobs/bad.yaml", Line: 12, Column: 5, Text: "unknown key \"materail\"", Fix: "did you mean material?"},
			{File: "jobs/bad.yaml", Line: 14, Text: "no length"},
			{File: "jobs/takeoff.xlsx", Cell: "Sheet1!C4", Text: "no weight"},
			{File: "jobs/gone.yaml", Text: "there is no such file", Fix: "look at its name and folder"}}},
	}
}

func index(t *testing.T, list []report.Indexed, show units.Show) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, report.Index(&b, list, "4 May 2026", report.Options{Version: "v1.2.3", Show: show}))
	return b.String()
}

func TestIndexGolden(t *testing.T) {
	got := index(t, indexed(t), units.Both)
	file := filepath.Join("testdata", "index.golden.html")
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, "if this is meant: go test ./report -update, and look at the page")
}

// TestIndexTellsEachLoad: all in their order, figures in the units asked for,
// what is wrong with its place, names as text and as addresses.
func TestIndexTellsEachLoad(t *testing.T) {
	list := indexed(t)
	got := index(t, list, units.US)
	at := 0
	for _, want := range []string{`<dd>3</dd>`, `<dd>2</dd>`, `<dd>1</dd>`, `href="./press-frame.html"`, "two hooks", `href="./rinse%20tank%20%234.html"`, "state water test",
		"Press frame under a low &lt;roof&gt; &amp; beam", "NOT ACCEPTABLE", "headroom", "no pose was found", "NO SHEET",
		"jobs/bad.yaml:12:5: unknown key &#34;materail&#34;. What to do: did you mean material?", "jobs/bad.yaml:14: no length", "jobs/takeoff.xlsx:Sheet1!C4: no weight",
		"jobs/gone.yaml: there is no such file", "bad.html is left from before: it is not of this input, and must not be used for it"} {
		next := strings.Index(got[at:], want)
		require.GreaterOrEqual(t, next, 0, "%q is not there, or not after what stands before it", want)
		at += next + len(want)
	}
	assert.NotContains(t, got, " kN")
	assert.NotContains(t, got, "<roof>")
	assert.NotContains(t, got, "ZgotmplZ", "a value that the page would not take")
	worst := list[0].Sheet.Legs.Legs[0].WorstTensionKN
	for _, l := range list[0].Sheet.Legs.Legs {
		worst = max(worst, l.WorstTensionKN)
	}
	figure := strings.ReplaceAll(units.Force(worst*1000).FormatUp(units.US), " ", "\u00a0")
	assert.Contains(t, strings.ReplaceAll(got, " ", "\u00a0"), figure)
}

// TestIndexInBrowser: no network, no fault, and no wider than a page.
func TestIndexInBrowser(t *testing.T) {
	p := open(t, browser(t), index(t, indexed(t), units.Both), 1280)
	assert.Equal(t, 6, value[int](p, `document.querySelectorAll('tbody tr:not(.note)').length`))
	assert.Equal(t, 5, value[int](p, `document.querySelectorAll('tbody th a').length`))
	assert.NotEqual(t, "none", value[string](p, `getComputedStyle(document.querySelector('tbody th'), '::before').borderTopStyle`), "its style is not let in")
	assert.LessOrEqual(t, value[int](p, `document.documentElement.scrollWidth`), 1280)
	p.lock.Lock()
	defer p.lock.Unlock()
	assert.Empty(t, p.faults)
	assert.Len(t, p.requested, 1, "the page itself")
}
