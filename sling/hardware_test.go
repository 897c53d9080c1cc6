package sling

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/units"
)

// printedHardware are ratings in line.
var printedHardware = []struct {
	rules             Rules
	kind, grade, unit string
	source, basis     string
	rows              []printed
}{
	{US, Shackle, "carbon steel, grade A", "short ton", "Federal Spec RR-C-271", "from memory", []printed{
		{"1/4 in", 0.5}, {"3/8 in", 1}, {"1/2 in", 2}, {"5/8 in", 3.25}, {"3/4 in", 4.75}, {"7/8 in", 6.5}, {"1 in", 8.5}, {"1-1/4 in", 12}, {"1-1/2 in", 17}, {"2 in", 35}}},
	{US, Shackle, "alloy steel, grade B", "short ton", "Federal Spec RR-C-271", "from memory", []printed{
		{"3/8 in", 2}, {"1/2 in", 3.33}, {"5/8 in", 5}, {"3/4 in", 7}, {"1 in", 12.5}, {"1-1/2 in", 30}, {"2 in", 55}}},
	{EN, Shackle, "grade 6", "t", "EN 13889", "from memory", []printed{
		{"0.5 t", 0.5}, {"1.0 t", 1}, {"2.0 t", 2}, {"3.25 t", 3.25}, {"4.75 t", 4.75}, {"6.5 t", 6.5}, {"8.5 t", 8.5}, {"9.5 t", 9.5}, {"12 t", 12}, {"25 t", 25}}},
	{US, Eyebolt, "shoulder pattern, carbon steel", "lb", "ASME B18.15", "from memory", []printed{
		{"1/4 in", 400}, {"3/8 in", 1000}, {"1/2 in", 1840}, {"5/8 in", 2940}, {"3/4 in", 4340}, {"7/8 in", 6000}, {"1 in", 7880}, {"1-1/4 in", 12600}, {"1-1/2 in", 18260}, {"2 in", 32500}}},
	{EN, Eyebolt, "C15E", "kg", "DIN 580:2003 Annex A Table A.1", "read", []printed{
		{"M8", 140}, {"M10", 230}, {"M12", 340}, {"M16", 700}, {"M20", 1200}, {"M24", 1800}, {"M30", 3200}, {"M36", 4600}, {"M42", 6300}, {"M48", 8600}, {"M64", 16000}}},
	{US, Turnbuckle, "jaw or eye ends", "lb", "Federal Spec FF-T-791", "from memory", []printed{
		{"1/4 in", 500}, {"3/8 in", 1200}, {"1/2 in", 2200}, {"5/8 in", 3500}, {"3/4 in", 5200}, {"7/8 in", 7200}, {"1 in", 10000}, {"1-1/4 in", 15200}, {"1-1/2 in", 21400}, {"2 in", 37000}}},
}

func TestHardwareAsPrinted(t *testing.T) {
	for _, table := range printedHardware {
		for _, p := range table.rows {
			found := false
			for _, r := range tables(t).hardware {
				if r.rules == table.rules && r.kind == table.kind && r.grade == table.grade && r.size == p.size {
					found = true
					assert.InDelta(t, p.want, in(t, r.rated, table.unit), 1e-9, "%s %s (%s)", table.kind, p.size, table.source)
					assert.Equal(t, table.source, r.source, p.size)
					assert.Equal(t, table.basis, r.basis, p.size)
				}
			}
			assert.True(t, found, "%s %s %s", table.kind, table.grade, p.size)
		}
	}
}

// Pulls out of line, 1000 lb and 1000 kg. Shackles: ASME B30.26, 70 % up to 45°
// and 50 % up to 90° (as reprinted). Eyebolts, US: 55, 35 and 25 % up to 15, 30 and
// 45° (from memory; the lower of two scales in print). DIN 580:2003 prints M20 at
// 1200 kg straight and 860 kg at 45° (read).
func TestPullsOutOfLine(t *testing.T) {
	for _, c := range []struct {
		rules  Rules
		kind   string
		size   string
		off    float64 // degrees
		factor float64
		barred bool
	}{
		{US, Shackle, "3/4 in", 0, 1, false},
		{US, Shackle, "3/4 in", 5, 1, false},
		{US, Shackle, "3/4 in", 30, 0.70, false},
		{US, Shackle, "3/4 in", 45, 0.70, false},
		{US, Shackle, "3/4 in", 60, 0.50, false},
		{US, Shackle, "3/4 in", 91, 0, true},
		{US, Eyebolt, "1 in", 0, 1, false},
		{US, Eyebolt, "1 in", 15, 0.55, false},
		{US, Eyebolt, "1 in", 30, 0.35, false},
		{US, Eyebolt, "1 in", 45, 0.25, false},
		{US, Eyebolt, "1 in", 46, 0, true},
		{EN, Eyebolt, "M20", 3, 1, false},
		{EN, Eyebolt, "M20", 30, 860.0 / 1200, false},
		{EN, Eyebolt, "M20", 50, 0, true},
		{US, HoistRing, "1 in", 80, 1, false},
		{US, Turnbuckle, "1 in", 0, 1, false},
		{US, Turnbuckle, "1 in", 20, 0, true},
	} {
		p := Pull{Rules: c.rules, Kind: c.kind, Tension: kilograms(100), Off: units.Turn(units.Radians(c.off))}
		f, known, why, err := p.Holds(c.size)
		require.NoError(t, err)
		require.True(t, known, "%s %s", c.kind, c.size)
		assert.Equal(t, c.barred, why != "", "%s at %g°: %s", c.kind, c.off, why)
		if !c.barred {
			assert.InEpsilon(t, 100/c.factor, float64(f.Required), 1e-9, "%s at %g°", c.kind, c.off)
			assert.InEpsilon(t, float64(f.Required/f.Rated), f.Utilisation, 1e-12)
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
