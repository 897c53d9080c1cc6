package plumbhook_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/takeoff"
)

var updateScenes = flag.Bool("update", false, "write what is said of testdata/scenes anew; read the difference as a rigger")

// The scenes are lifts of our own in places that sort the slings: what may be
// used there, and why not. The files beside them were read line by line as a
// rigger would; the rules behind them are held by sling/testdata.
func TestScenes(t *testing.T) {
	files, err := filepath.Glob("testdata/scenes/*.yaml")
	require.NoError(t, err)
	require.Len(t, files, 8, "the seven places, one of them with and without protection")
	for _, file := range files {
		var b strings.Builder
		for _, rules := range []string{"US", "EN"} {
			load, err := takeoff.Read(os.DirFS("."), filepath.ToSlash(file), takeoff.Options{})
			require.NoError(t, err, file)
			s, err := lift.Slings(load, lift.Options{Rules: rules})
			require.NoError(t, err, file)
			fmt.Fprintf(&b, "%s, rules %s\n", s.Load, rules)
			for _, w := range s.Warnings {
				if w.Code == "slings" {
					b.WriteString("  ! " + cited.ReplaceAllString(w.Text, "") + "\n")
				}
			}
			for _, use := range []string{"yes", "care", "no"} {
				sceneTold(&b, use, s.Families)
			}
		}
		golden := strings.TrimSuffix(file, ".yaml") + ".golden.txt"
		if *updateScenes {
			require.NoError(t, os.WriteFile(golden, []byte(b.String()), 0o644))
		}
		want, err := os.ReadFile(golden)
		require.NoError(t, err)
		assert.Equal(t, string(want), b.String(), "if this is meant: go test . -update, and look at the difference")
	}
}

// sceneTold lists the families of one answer with their sizes, those of one mind
// together, under what speaks against them, the worst first and without sources.
func sceneTold(b *strings.Builder, use string, families []lift.Family) {
	var whys []string
	about := map[string]string{}
	for _, f := range families {
		if f.Use != use {
			continue
		}
		why := "  " + use + "\n"
		for _, reason := range f.Against {
			why += "    - " + cited.ReplaceAllString(reason, "") + "\n"
		}
		if about[why] == "" {
			whys = append(whys, why)
		}
		about[why] += "      " + f.Family + ", " + f.Material + sceneSize(f) + "\n"
	}
	for _, why := range whys {
		b.WriteString(why + about[why])
	}
}

func sceneSize(f lift.Family) string {
	switch {
	case f.Choice != nil:
		return " (" + f.Choice.Size + ")"
	case f.Use == "no":
		return ""
	case f.ByTag:
		return " (by its tag)"
	}
	return " (none large enough)"
}

// cited is the source at the end of a reason.
var cited = regexp.MustCompile(` \((ASME|EN |29 CFR|WSTDA|ISO|OSHA|derived|common practice|no source).*$`)
