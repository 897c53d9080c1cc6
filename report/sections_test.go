package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/density"
	"plumbhook/units"
)

// TestSectionsFitTheirPage: the whole table, and each row of a few, in 80
// columns and each system of units.
func TestSectionsFitTheirPage(t *testing.T) {
	pages := []Sections{NewSections(density.Sections("")...)}
	for _, name := range []string{"HEA 200", "UPN 200", "L 150x100x10", "HSS4x4x1/4", "SHS 120x120x5", "NPS 6 sch 40", "flat 100x10"} {
		s, err := density.FindSection(name)
		require.NoError(t, err)
		pages = append(pages, NewSections(s))
	}
	for _, p := range pages {
		for _, show := range []units.Show{units.Both, units.Metric, units.US} {
			var b bytes.Buffer
			require.NoError(t, Text(&b, p, Options{Show: show}))
			for line := range strings.Lines(b.String()) {
				require.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 80, "%q", line)
			}
		}
	}
}

// TestSectionAsPrinted: HEA 200 in EN 10365 is 190 deep, 200 wide, 42.3 kg/m;
// EN 10034 lets the mass be 4 % off.
func TestSectionAsPrinted(t *testing.T) {
	s, err := density.FindSection("HEA 200")
	require.NoError(t, err)
	var text, doc bytes.Buffer
	require.NoError(t, Text(&text, NewSections(s), Options{}))
	for _, want := range []string{"HEA 200", "I section, EN 10365", "42.3 kg/m", "190 mm", "200 mm", "-4 % to +4 %", "EN 10034", "Basis        read"} {
		assert.Contains(t, strings.ReplaceAll(text.String(), glue, " "), want)
	}
	require.NoError(t, JSON(&doc, NewSections(s)))
	var got struct {
		Rows []struct {
			Name, Source, Basis string
			Values              map[string]any
		}
	}
	require.NoError(t, json.Unmarshal(doc.Bytes(), &got))
	require.Len(t, got.Rows, 1)
	assert.InDelta(t, 0.19, got.Rows[0].Values["depth_m"], 1e-12)
	assert.InDelta(t, 42.3, got.Rows[0].Values["mass_kg_m"], 1e-12)
	assert.NotEmpty(t, got.Rows[0].Source)
	assert.NotEmpty(t, got.Rows[0].Basis)
}
