package sling

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/testdata/published/inprint"
)

// TestTenPrintedRowsOfEachFamily: each family has at least ten ratings held to a print
// by TestPublishedRatings, or, for synthetic rope, whose ratings are computed, as
// many strengths. The two-path round sling has none: no table of it is
// published, and its sizes are never chosen without the figure of the tag.
func TestTenPrintedRowsOfEachFamily(t *testing.T) {
	all, err := inprint.All()
	require.NoError(t, err)
	count := map[string]int{}
	for _, v := range all {
		switch {
		case v.Package != "sling" || v.Basis != "read" && v.Basis != "from memory":
		case v.Test == "TestPublishedRatings":
			count[strings.Split(v.Item, "; ")[1]]++
		case v.Test == "TestPublishedRopeStrengths":
			count["synthetic_rope"]++
		}
	}
	for _, f := range tables(t).families {
		if f.family != "two_path_round_sling" {
			assert.GreaterOrEqual(t, count[f.family], 10, f.family)
		}
	}
	t.Log(count)
}
