package sling

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTenPrintedRowsOfEachFamily: each family has at least ten ratings typed from
// print in printedRatings, or, for synthetic rope, whose ratings are computed, as
// many strengths in ropeStrengths. The two-path round sling has none: no table of it is
// published, and its sizes are never chosen without the figure of the tag.
func TestTenPrintedRowsOfEachFamily(t *testing.T) {
	count := map[string]int{"synthetic_rope": len(ropeStrengths)}
	for _, table := range printedRatings {
		if table.basis == "read" || table.basis == "from memory" {
			count[table.family] += len(table.rows)
		}
	}
	for _, f := range tables(t).families {
		if f.family != "two_path_round_sling" {
			assert.GreaterOrEqual(t, count[f.family], 10, f.family)
		}
	}
	t.Log(count)
}
