package sling

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/testdata/published/inprint"
	"plumbhook/units"
)

// Ratings in line.
func TestPublishedHardware(t *testing.T) {
	page := inprint.Of(t, "sling")
	for _, v := range page.Rows() {
		words := strings.Split(v.Item, "; ")
		for _, r := range tables(t).hardware {
			if r.rules == Rules(words[0]) && r.kind == words[1] && r.grade == words[2] && r.size == words[3] {
				page.Is(v.Item, v.Quantity, in(t, r.rated, v.Unit))
				assert.Equal(t, v.Source, r.source, v.Item)
				assert.Equal(t, v.Basis, r.basis, v.Item)
			}
		}
	}
}

// holdsAt tells by what a fitting's rating is multiplied when it is pulled off degrees out
// of line, and why it may not be.
func holdsAt(t *testing.T, rules Rules, kind, size string, off float64) (factor float64, barred string) {
	t.Helper()
	p := Pull{Rules: rules, Kind: kind, Tension: kilograms(100), Off: units.Turn(units.Radians(off))}
	f, known, why, err := p.Holds(size)
	require.NoError(t, err)
	require.True(t, known, "%s %s", kind, size)
	if why != "" {
		return 0, why
	}
	assert.InEpsilon(t, float64(f.Required/f.Rated), f.Utilisation, 1e-12)
	return 100 / float64(f.Required), ""
}

func TestPublishedPullsOutOfLine(t *testing.T) {
	kinds := map[string]string{"shackle": Shackle, "eyebolt": Eyebolt}
	page := inprint.Of(t, "sling")
	for _, v := range page.Rows() {
		words := strings.Split(v.Item, "; ")
		off, err := strconv.ParseFloat(strings.TrimSuffix(words[3], "°"), 64)
		require.NoError(t, err, v.Item)
		factor, barred := holdsAt(t, Rules(words[0]), kinds[words[1]], words[2], off)
		assert.Empty(t, barred, v.Item)
		page.Is(v.Item, v.Quantity, factor)
	}
}

// In line everything holds all; beyond what is in print nothing does.
func TestPullsInLineAndBeyond(t *testing.T) {
	for _, c := range []struct {
		rules  Rules
		kind   string
		size   string
		off    float64 // degrees
		barred bool
	}{
		{US, Shackle, "3/4 in", 0, false}, {US, Shackle, "3/4 in", 91, true}, {US, Eyebolt, "1 in", 0, false}, {US, Eyebolt, "1 in", 46, true},
		{EN, Eyebolt, "M20", 3, false}, {EN, Eyebolt, "M20", 50, true}, {US, HoistRing, "1 in", 80, false},
		{US, Turnbuckle, "1 in", 0, false}, {US, Turnbuckle, "1 in", 20, true},
	} {
		factor, barred := holdsAt(t, c.rules, c.kind, c.size, c.off)
		assert.Equal(t, c.barred, barred != "", "%s at %g°: %s", c.kind, c.off, barred)
		if !c.barred {
			assert.InEpsilon(t, 1, factor, 1e-9, "%s at %g°", c.kind, c.off)
		}
	}
}

// 20 000 lb on a shackle in line: 9.07 t, in RR-C-271 grade A 12 short tons (1-1/4
// in) is the first at or above 10 short tons; grade B 12.5 (1 in). From memory.
func TestSmallestShackle(t *testing.T) {
	fits, why, err := Fittings(Pull{Rules: US, Kind: Shackle, Tension: pounds(20000)})
	require.NoError(t, err)
	assert.Empty(t, why)
	sizes := map[string]string{}
	for _, f := range fits {
		sizes[f.Grade] = f.Size
		assert.LessOrEqual(t, f.Utilisation, 1.0)
	}
	assert.Equal(t, map[string]string{"carbon steel, grade A": "1-1/4 in", "alloy steel, grade B": "1 in"}, sizes)
	_, why, err = Fittings(Pull{Rules: US, Kind: Shackle, Tension: pounds(500000)})
	require.NoError(t, err)
	assert.Contains(t, why, "no size of a shackle is large enough")
	_, _, err = Fittings(Pull{Rules: "UK", Kind: Shackle, Tension: 1})
	assert.ErrorContains(t, err, "want US or EN")
}

// More pull, or a pull further out of line, never takes a smaller fitting.
func TestMorePullNeverASmallerFitting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Pull{Rules: rapid.SampledFrom([]Rules{US, EN}).Draw(t, "rules"), Kind: rapid.SampledFrom([]string{Shackle, Eyebolt, HoistRing}).Draw(t, "kind"),
			Tension: units.Force(rapid.Float64Range(1, 1e5).Draw(t, "tension")), Off: units.Turn(rapid.Float64Range(0, 1.5).Draw(t, "off"))}
		q := p
		q.Tension *= units.Force(rapid.Float64Range(1, 5).Draw(t, "more"))
		q.Off = units.Turn(rapid.Float64Range(float64(p.Off), 1.57).Draw(t, "further"))
		small, _, err := Fittings(p)
		require.NoError(t, err)
		large, _, err := Fittings(q)
		require.NoError(t, err)
		for _, f := range large {
			found := false
			for _, g := range small {
				if g.Grade == f.Grade {
					found = true
					require.LessOrEqual(t, g.Rated, f.Rated, "%s %s", f.Kind, f.Grade)
				}
			}
			require.True(t, found, "%s %s holds the greater pull", f.Kind, f.Grade)
			require.LessOrEqual(t, f.Utilisation, 1+1e-9)
		}
	})
}

func TestIncludedLimits(t *testing.T) {
	hook, _, ok := IncludedLimit(US, "hook") // ASME B30.10, from memory
	require.True(t, ok)
	assert.InDelta(t, 90, units.Degrees(hook), 1e-9)
	bow, f, ok := IncludedLimit(EN, Shackle)
	require.True(t, ok)
	assert.InDelta(t, 120, units.Degrees(bow), 1e-9)
	assert.Equal(t, "common practice", f.Basis)
}

// EN 13414-1:2003 (as reprinted): each intermediate link of a four-leg set is
// rated at least 1.6 times one leg.
func TestLinkNeeds(t *testing.T) {
	master, intermediate, _, err := LinkNeeds(EN, kilograms(8000), 1.1, 4, 3000)
	require.NoError(t, err)
	assert.InDelta(t, 8800, float64(master), 1e-6)
	assert.InDelta(t, 4800, float64(intermediate), 1e-6)
	_, intermediate, _, err = LinkNeeds(EN, kilograms(8000), 1.1, 2, 3000)
	require.NoError(t, err)
	assert.Zero(t, intermediate)
}
