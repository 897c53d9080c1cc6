package density

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const goodRow = "carbon steel,steel;mild steel,7850,7849,8005,0.005,EN 10365,read,\n"

// A row that an engineer could not check is refused, with its place.
func TestReadRefuses(t *testing.T) {
	first := strings.Join(header, ",") + "\n"
	tests := []struct{ name, text, want string }{
		{"empty", "", "want a first line"},
		{"no rows", first, "rows below"},
		{"other columns", "name,density\nsteel,7850\n", "want a first line"},
		{"too few cells", first + "steel,7850\n", "wrong number of fields"},
		{"no source", first + "steel,,7850,7849,8005,0.005,,read,\n", "row 2 (steel): no source"},
		{"blank source", first + "steel,,7850,7849,8005,0.005, ,read,\n", "no source"},
		{"no basis", first + "steel,,7850,7849,8005,0.005,EN 10365,,\n", `basis ""`},
		{"odd basis", first + "steel,,7850,7849,8005,0.005,EN 10365,guess,\n", `basis "guess"`},
		{"zero density", first + "steel,,0,7849,8005,0.005,EN 10365,read,\n", "want it above 0"},
		{"negative density", first + "steel,,-1,7849,8005,0.005,EN 10365,read,\n", "want it above 0"},
		{"no density", first + "steel,,,7849,8005,0.005,EN 10365,read,\n", "density_kg_m3: empty value"},
		{"NaN density", first + "steel,,NaN,7849,8005,0.005,EN 10365,read,\n", "density_kg_m3: not a finite number"},
		{"range upside down", first + "steel,,7850,8005,7849,0.005,EN 10365,read,\n", "published range"},
		{"tolerance in percent", first + "steel,,7850,7849,8005,5,EN 10365,read,\n", "want a fraction"},
		{"no tolerance", first + "steel,,7850,7849,8005,0,EN 10365,read,\n", "want a fraction"},
		{"no name", first + ",,7850,7849,8005,0.005,EN 10365,read,\n", "an empty name"},
		{"empty synonym", first + "steel,a;;b,7850,7849,8005,0.005,EN 10365,read,\n", "an empty name"},
		{"name twice", first + goodRow + "Carbon-Steel,,7850,7849,8005,0.005,EN 10365,read,\n", `row 3 (Carbon-Steel): "Carbon-Steel" is already a name of carbon steel`},
		{"synonym twice", first + goodRow + "iron,Mild Steel,7850,7849,8005,0.005,EN 10365,read,\n", `"Mild Steel" is already a name of carbon steel`},
		{"own name again", first + "steel,STEEL,7850,7849,8005,0.005,EN 10365,read,\n", `"STEEL" is already a name of steel`},
	}
	for _, tt := range tests {
		_, err := read(strings.NewReader(tt.text))
		assert.ErrorContains(t, err, tt.want, tt.name)
	}
	_, err := read(strings.NewReader(first + goodRow))
	require.NoError(t, err)
}

// The table in the program has no fault that read refuses.
func TestEmbeddedTable(t *testing.T) {
	got, err := embedded()
	require.NoError(t, err)
	assert.GreaterOrEqual(t, len(got.materials), 97)
	assert.Len(t, All(), len(got.materials))
}
