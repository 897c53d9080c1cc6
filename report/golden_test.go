package report_test

import (
	"flag"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/report"
	"plumbhook/units"
)

var update = flag.Bool("update", false, "rewrite the golden files; look at the difference")

func text(t *testing.T, result any, opt report.Options) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, report.Text(&b, result, opt))
	return b.String()
}

// TestGolden holds what is printed against testdata/*.golden.txt.
func TestGolden(t *testing.T) {
	all := results()
	for _, name := range slices.Sorted(maps.Keys(all)) {
		t.Run(name, func(t *testing.T) {
			golden(t, name, text(t, all[name], report.Options{Version: "v1.2.3"}))
		})
	}
	for _, show := range []units.Show{units.Metric, units.US} {
		t.Run("sheet-"+show.String(), func(t *testing.T) {
			golden(t, "sheet-"+show.String(), text(t, all["sheet"], report.Options{Version: "v1.2.3", Show: show}))
		})
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name+".golden.txt")
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, "if this is meant: go test ./report -update, and look at the difference")
}

// TestNoLineIsTooLong: a line has at most 80 characters, or what was asked for.
func TestNoLineIsTooLong(t *testing.T) {
	for name, result := range results() {
		for _, width := range []int{0, 40, 80, 100} {
			for _, show := range []units.Show{units.Both, units.Metric, units.US} {
				for i, line := range strings.Split(text(t, result, report.Options{Show: show, Width: width}), "\n") {
					assert.LessOrEqual(t, utf8.RuneCountInString(line), max(width, 80), "%s, %s, width %d, line %d: %q", name, show, width, i+1, line)
					assert.Equal(t, strings.TrimRight(line, " "), line, "%s: spaces at the end of line %d", name, i+1)
				}
			}
		}
	}
}

// TestNotAcceptableComesFirst: the words and the reasons stand before all else.
func TestNotAcceptableComesFirst(t *testing.T) {
	for _, name := range []string{"legs-unacceptable", "legs-unsolved", "slings-unsolved", "sheet-unsolved", "picks-none", "weigh-strict"} {
		got := text(t, results()[name], report.Options{})
		assert.True(t, strings.HasPrefix(got, "NOT ACCEPTABLE\n   1. "), "%s begins %q", name, got[:40])
	}
	for _, name := range []string{"legs", "slings", "sheet", "weigh", "check"} {
		assert.NotContains(t, text(t, results()[name], report.Options{}), "NOT ACCEPTABLE", name)
	}
}

// TestUnsolvedHasNoTension: where no pose was found nothing looks like one.
func TestUnsolvedHasNoTension(t *testing.T) {
	for _, name := range []string{"legs-unsolved", "sheet-unsolved", "slings-unsolved"} {
		got := text(t, results()[name], report.Options{})
		figures := got[strings.LastIndex(got, "HOW IT HANGS")+1:]
		assert.NotRegexp(t, `\d kN|\d lbf|\d°`, figures, name)
		assert.Contains(t, got, "pose", name)
	}
}

// TestColor: colour stands on the verdict and on yes, care and no, and taking
// it away leaves the same text.
func TestColor(t *testing.T) {
	for name, result := range results() {
		plain := text(t, result, report.Options{})
		colored := text(t, result, report.Options{Color: true})
		assert.NotContains(t, plain, "\x1b", name)
		bare := colored
		for _, code := range []string{"\x1b[31m", "\x1b[32m", "\x1b[33m", "\x1b[0m"} {
			bare = strings.ReplaceAll(bare, code, "")
		}
		assert.Equal(t, plain, bare, name)
	}
	slings := text(t, results()["slings"], report.Options{Color: true})
	assert.Contains(t, slings, "\x1b[32myes   \x1b[0m")
	assert.Contains(t, slings, "\x1b[31mno    \x1b[0m")
}
