package density

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A row that an engineer could not check is refused, with its place.
func TestReadProductsRefuses(t *testing.T) {
	const good = "plate,EN 10029,thickness,thickness,3,5,-0.4,0.8,mm,EN 10029,read,\n"
	first := strings.Join(productHeader, ",") + "\n"
	tests := []struct{ name, text, want string }{
		{"empty", "", "want a first line"},
		{"no rows", first, "rows below"},
		{"too few cells", first + "plate,thickness\n", "wrong number of fields"},
		{"no source", first + "plate,,mass,,,,-4,4,%, ,read,\n", "row 2 (plate): no source"},
		{"no basis", first + "plate,,mass,,,,-4,4,%,EN 10034,,\n", `basis ""`},
		{"no limit", first + "plate,,mass,,,,,4,%,EN 10034,read,\n", "low: empty value"},
		{"signs", first + "plate,,mass,,,,4,4,%,EN 10034,read,\n", "low at or below 0"},
		{"nothing allowed", first + "plate,,mass,,,,0,0,%,EN 10034,read,\n", "low at or below 0"},
		{"unit", first + "plate,,mass,,,,-4,4,kg,EN 10034,read,\n", `unit "kg"`},
		{"all of it", first + "plate,,mass,,,,-100,4,%,EN 10034,read,\n", "too wide"},
		{"more than the plate", first + "plate,,thickness,thickness,3,5,-3,4,mm,EN 10034,read,\n", "too wide"},
		{"band upside down", first + "plate,,mass,depth,5,3,-4,4,%,EN 10034,read,\n", "from below to"},
		{"of what", first + "plate,,length,,,,-4,4,%,EN 10034,read,\n", `of "length"`},
		{"by what", first + "plate,,mass,colour,,,-4,4,%,EN 10034,read,\n", `by "colour"`},
		{"mm without a thickness", first + "plate,,mass,,3,,-1,1,mm,EN 10034,read,\n", "need bands by thickness"},
		{"gap", first + good + strings.Replace(good, "3,5", "6,8", 1), "does not go on"},
		{"two bands without a size", first + "I,,mass,,,,-4,4,%,s,read,\nI,,mass,,,,-4,4,%,s,read,\n", "does not go on"},
		{"name twice", first + good + "I,,mass,,,,-4,4,%,s,read,\n" + good, `"plate" is already a name`},
		{"no name", first + ",,mass,,,,-4,4,%,s,read,\n", "an empty name"},
	}
	for _, tt := range tests {
		_, err := readProducts(strings.NewReader(tt.text))
		assert.ErrorContains(t, err, tt.want, tt.name)
	}
	table, err := readProducts(strings.NewReader(first + good + strings.Replace(good, "3,5", "5,8", 1)))
	require.NoError(t, err)
	assert.Len(t, table.products[0].Bands, 2)
}

// The table in the program has no fault that the reader refuses.
func TestEmbeddedProducts(t *testing.T) {
	table, err := products()
	require.NoError(t, err)
	assert.Len(t, Products(), len(table.products))
	assert.GreaterOrEqual(t, len(table.products), 14)
}
