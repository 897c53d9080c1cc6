package units_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/units"
)

func TestParseSize(t *testing.T) {
	plate := []units.Length{2.4, 1.2, 0.02}
	tests := []struct {
		text string
		bare units.LengthUnit
		n    int
		want []units.Length // m
	}{
		{"2400 x 1200 x 20", milli, 3, plate},
		{"2400x1200x20", milli, 3, plate},
		{"2400 X 1200 × 20", milli, 3, plate},
		{"2400 x 1200 x 20 mm", none, 3, plate}, // the last unit counts for all
		{"2400 x 1200 x 20 mm", milli, 3, plate},
		{"2.4 m x 1200 mm x 2 cm", none, 3, plate},
		{"2.4 m x 1200 x 20", milli, 3, plate},
		{`12' 6" x 4' x 3/4"`, none, 3, []units.Length{3.81, 1.2192, 0.01905}},
		{`12' 6" x 4' x 3/4"`, milli, 3, []units.Length{3.81, 1.2192, 0.01905}},
		{"96 x 48 x 3/4 in", none, 3, []units.Length{2.4384, 1.2192, 0.01905}},
		{"100 x 50", milli, 2, []units.Length{0.1, 0.05}},
		{"100", milli, 1, []units.Length{0.1}},
	}
	for _, tt := range tests {
		got, err := units.ParseSize(tt.text, tt.bare, tt.n)
		if assert.NoError(t, err, tt.text) {
			assert.Equal(t, tt.want, got, tt.text)
		}
	}
}

func TestParseSizeRefuses(t *testing.T) {
	tests := []struct {
		text string
		bare units.LengthUnit
		msg  string
		fix  string
	}{
		{"", milli, "empty value", "2400 x 1200 x 20 mm"},
		{"2400 x 1200", milli, "a size of 2 lengths where 3 are expected", "2400 x 1200 x 20 mm"},
		{"2400 x 1200 x", milli, "empty value", "write the length"},
		{"2400 x 1200 x 20", none, "no unit on the length", "mm, cm, m, in or ft"},
		{"2400 x 1,200 x 20", milli, "decimal comma or a thousands separator", "1200"},
		{"0x10x20", milli, "hexadecimal", "2400 x 1200 x 20 mm"},
		{"5 x 4 x 2 kg", milli, "kg is a unit of mass", "mm, cm, m, in or ft"},
		// Is the plate 2400 mm long, or 2400 in? Two readings, so neither.
		{`2400 x 1200 x 3/4"`, milli, "doubtful units: in after the last", `2400 in x 1200 in x 3/4"`},
		{"2 x 1 x 20 mm", units.LengthUnit{Name: "m", Metres: 1}, "doubtful units: mm after the last", "2 mm x 1 mm x 20 mm"},
		{"2 m x 1200 x 20 mm", none, "doubtful units: mm after the last", "2 m x 1200 mm x 20 mm"},
		{`5 x 4 x 1' 2"`, foot, "some lengths of the size have a unit", "after each"},
	}
	for _, tt := range tests {
		_, err := units.ParseSize(tt.text, tt.bare, 3)
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, tt.text)
		assert.Contains(t, parse.Msg, tt.msg, tt.text)
		assert.Contains(t, parse.Fix, tt.fix, tt.text)
	}
	_, err := units.ParseSize("1 x 2", milli, 5)
	var parse *units.ParseError
	require.ErrorAs(t, err, &parse)
	assert.Equal(t, "write 5 lengths with an x between them", parse.Fix)
	_, err = units.ParseSize(string(make([]byte, 1000)), milli, 3)
	assert.ErrorContains(t, err, "too long")
}

// A size of plain numbers takes a quick way: the same lengths, to the last bit, and
// the same refusals as with the unit written after each.
func TestPlainSizesAreExact(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		pieces := rapid.SliceOfN(rapid.StringMatching(`[0-9]{1,5}(\.[0-9]{1,3})?`), 1, 4).Draw(rt, "pieces")
		n := rapid.IntRange(1, 3).Draw(rt, "n")
		quick, err := units.ParseSize(strings.Join(pieces, " x "), milli, n)
		exact, exactErr := units.ParseSize(strings.Join(pieces, " mm x ")+" mm", none, n)
		require.Equal(rt, exactErr == nil, err == nil, "%v, %v", err, exactErr)
		require.Equal(rt, exact, quick)
	})
	_, err := units.ParseSize("0x20", milli, 2)
	require.ErrorContains(t, err, "hexadecimal")
}
