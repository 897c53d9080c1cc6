package units_test

import (
	"math"
	"math/big"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"plumbhook/units"
)

var (
	none  = units.LengthUnit{}
	milli = units.LengthUnit{Name: "mm", Metres: 0.001}
	inch  = units.LengthUnit{Name: "in", Metres: 0.0254}
	foot  = units.LengthUnit{Name: "ft", Metres: 0.3048}
)

// The wants follow from the inch of 25.4 mm exactly (international yard and
// pound agreement, 1959) and are typed as decimals; a decimal that was written
// comes back as the float64 nearest to it, so no tolerance is needed.
func TestParseLength(t *testing.T) {
	tests := []struct {
		text string
		bare units.LengthUnit
		want float64 // m
	}{
		{"3.2 m", none, 3.2},
		{"150 mm", none, 0.15},
		{"150mm", none, 0.15},
		{"7 cm", none, 0.07},
		{"2 metres", none, 2},
		{"150 MM", none, 0.15},
		{"-2 m", none, -2},
		{"- 2 m", none, -2},
		{"−2 m", none, -2},
		{"+2 m", none, 2},
		{"1e3 mm", none, 1},
		{"1e-3 m", none, 0.001},
		{".5 m", none, 0.5},
		{"2400", milli, 2.4},
		{"0", milli, 0},
		{"-0", milli, 0},
		{"100", inch, 2.54},
		{"6 1/2", inch, 0.1651},
		{"2.5", foot, 0.762},
		{"3 1/2", foot, 1.0668},
		{`1/2"`, none, 0.0127},
		{`1/64"`, none, 0.000396875},
		{"6 1/2 in", none, 0.1651},
		{"6-1/2 in", none, 0.1651},
		{"6½ in", none, 0.1651},
		{"5/4 in", none, 0.03175},
		{"-6 1/2 in", none, -0.1651},
		{"1 inch", none, 0.0254},
		{"3'", none, 0.9144},
		{"3 ft", none, 0.9144},
		{"3.5 ft", none, 1.0668},
		{"3 1/2 ft", none, 1.0668},
		{`3' 6"`, none, 1.0668},
		{`3'6"`, none, 1.0668},
		{`3'-6"`, none, 1.0668},
		{"3 ft 6 in", none, 1.0668},
		{"3 feet 6 inches", none, 1.0668},
		{`12' 6-1/2"`, none, 3.8227},
		{`12' 6 1/2"`, none, 3.8227},
		{`12'-6 1/2"`, none, 3.8227},
		{`12' - 6 1/2"`, none, 3.8227},
		{`12' 6.5"`, none, 3.8227},
		{`12′ 6½″`, none, 3.8227},
		{`12’ 6”`, none, 3.81},
		{`12' 6''`, none, 3.81},
		{`4' 0-5/8"`, none, 1.235075},
		{`0' 6"`, none, 0.1524},
		{`-12' 6-1/2"`, none, -3.8227}, // the minus is of the whole
		{`-0' 6"`, none, -0.1524},
	}
	for _, tt := range tests {
		got, err := units.ParseLength(tt.text, tt.bare)
		if assert.NoError(t, err, tt.text) {
			assert.Equal(t, tt.want, float64(got), "%q in m", tt.text)
		}
	}
}

func TestParseLengthRefuses(t *testing.T) {
	tests := []struct{ text, msg, fix string }{
		{"", "empty value", "write the length"},
		{"  ", "empty value", "write the length"},
		{"2400", "no unit on the length", "mm, cm, m, in or ft"},
		{"6 1/2", "no unit on the length", "mm, cm, m, in or ft"},
		{"3,2 m", "decimal comma", "write 3.2 m"},
		{"0,125 m", "decimal comma", "write 0.125 m"},
		{"1,200 mm", "decimal comma or a thousands separator", "write 1200 mm or 1.200 mm"},
		{"1,200.5 mm", "thousands separator", "write 1200.5 mm"},
		{"1,200,500 mm", "thousands separator", "write 1200500 mm"},
		{"1 200 mm", "thousands separator", "without a space"},
		{"1\u202f200 mm", "thousands separator", "without a space"},
		{"1'200 mm", "thousands separator", "write 1200 mm"},
		{"1.200.500 mm", "more than one point", "one decimal point"},
		{"012 mm", "zero before another digit", "leave the zero out"},
		{"-012 mm", "zero before another digit", "leave the zero out"},
		{`12' 06"`, "zero before another digit", "leave the zero out"},
		{"00.5 m", "zero before another digit", "leave the zero out"},
		{"5. m", "nothing after the decimal point", "digits after the point"},
		{"nan m", "not a finite number", "in digits"},
		{".inf", "not a finite number", "in digits"},
		{"-Infinity m", "not a finite number", "in digits"},
		{"0x10 mm", "hexadecimal", "decimal digits"},
		{"1_000 mm", "underscore", "write 1000 mm"},
		{"1e400 m", "too large", "below 1e300"},
		{"1e999999999 m", "too large", "below 1e300"},
		{"1e-400 m", "too small", "write 0"},
		{"1e-999999999 m", "too small", "write 0"},
		{"--2 m", "not a number", "decimal point"},
		{"2 3 m", "not a number", "decimal point"},
		{"mm", "no number before the unit", "mm, cm, m, in or ft"},
		{"5 kg", "kg is a unit of mass, not of length", "mm, cm, m, in or ft"},
		{"5 ton", "ton is ambiguous", "short ton"},
		{"5 km", "unknown unit km", "mm, cm, m, in or ft"},
		{"5 metrs", "unknown unit metrs", "did you mean metre?"},
		{"1 m 20 mm", "not one length", "one number with its unit"},
		{"1/2 mm", "a fraction of mm", "0.5 mm"},
		{`1/0"`, "a fraction in parts of 0", "halves to sixty-fourths"},
		{`1/3"`, "a fraction in parts of 3", "halves to sixty-fourths"},
		{`6 5/4"`, "a fraction of one or more", "7-1/4"},
		{`1/2/4"`, "not a fraction", "6-1/2"},
		{`3' 14"`, "inches beside feet are not under 12", "carry them"},
		{"3' 6", "no mark on the inches", `write 3' 6"`},
		{`3.5' 6"`, "decimal point in feet", "decimal feet alone"},
	}
	for _, tt := range tests {
		_, err := units.ParseLength(tt.text, none)
		var parse *units.ParseError
		if assert.ErrorAs(t, err, &parse, tt.text) {
			assert.Contains(t, parse.Msg, tt.msg, tt.text)
			assert.Contains(t, parse.Fix, tt.fix, tt.text)
			assert.Contains(t, parse.Error(), strconv.Quote(parse.Got), tt.text)
		}
	}
	_, err := units.ParseLength("1/2", milli)
	assert.ErrorContains(t, err, "a fraction of mm")
	_, err = units.ParseLength("2", units.LengthUnit{Name: "nought", Metres: math.NaN()})
	assert.ErrorContains(t, err, "no such unit of length as nought")
	_, err = units.ParseLength(string(make([]byte, 1000)), milli)
	assert.ErrorContains(t, err, "too long")
}

func TestParseLengthUnit(t *testing.T) {
	for text, want := range map[string]units.LengthUnit{
		"mm": milli, "Millimeters": milli, "cm": {Name: "cm", Metres: 0.01}, " m ": {Name: "m", Metres: 1},
		"metre": {Name: "m", Metres: 1}, "in": inch, "inches": inch, `"`: inch, "ft": foot, "Feet": foot, "'": foot,
	} {
		got, err := units.ParseLengthUnit(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for text, msg := range map[string]string{"": "empty unit", "furlong": "unknown unit furlong", "kg": "a unit of mass"} {
		_, err := units.ParseLengthUnit(text)
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, text)
		assert.Contains(t, parse.Msg, msg)
		assert.Contains(t, parse.Fix, "write mm, cm, m, in or ft")
	}
	_, err := units.ParseLengthUnit("inchs")
	var parse *units.ParseError
	require.ErrorAs(t, err, &parse)
	assert.Equal(t, "unknown unit inchs on the length", parse.Msg)
	assert.Contains(t, parse.Fix, "did you mean inch")
}

// The inch fractions are read off a tape; the carry of 11-31/32" is the case
// that a printer gets wrong.
func TestFormatLength(t *testing.T) {
	tests := []struct {
		metres float64
		want   string
	}{
		{0, `0 mm (0")`},
		{math.Copysign(0, -1), `0 mm (0")`},
		{-0.0000001, `0 mm (0")`},
		{1.2, `1.200 m (3' 11-1/4")`},
		{0.02, `20 mm (13/16")`},
		{0.0127, `12.7 mm (1/2")`},
		{0.00635, `6.35 mm (1/4")`},
		{0.0015876, `1.588 mm (1/16")`},
		{0.01, `10 mm (3/8")`},
		{0.1651, `165.1 mm (6-1/2")`},
		{0.3048, `304.8 mm (1' 0")`},
		{0.3048 - 0.0254/32, `304 mm (1' 0")`}, // 11-31/32"
		{0.3048 - 0.0254/31, `304 mm (11-15/16")`},
		{0.99994, `999.9 mm (3' 3-3/8")`},
		{0.99996, `1.000 m (3' 3-3/8")`},
		{3.8227, `3.823 m (12' 6-1/2")`},
		{-3.8227, `-3.823 m (-12' 6-1/2")`},
		{1.235075, `1.235 m (4' 0-5/8")`},
		{99.999, `99.999 m (328' 0-15/16")`},
		{1e300, `1.000e300 m (3.281e300 ft)`},
		{math.NaN(), `no figure m (no figure ft)`},
		{math.Inf(1), `no figure m (no figure ft)`},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, units.Length(tt.metres).Format(units.Both), "%g m", tt.metres)
	}
	assert.Equal(t, "1.200 m", units.Length(1.2).Format(units.Metric))
	assert.Equal(t, `3' 11-1/4"`, units.Length(1.2).Format(units.US))
}

// What is printed can be written back: to half a sixteenth of an inch from feet
// and inches, to half a millimetre from metres. 1e-9 m is for the float64.
func TestPrintedLengthReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.SampledFrom([]float64{0.01, 1, 100, 10000}).Draw(t, "scale")
		l := scale * rapid.Float64Range(-1, 1).Draw(t, "part")
		for text, within := range map[string]float64{
			units.FeetInches(units.Length(l)):    0.0254 / 32,
			units.Length(l).Format(units.Metric): 0.0005,
		} {
			back, err := units.ParseLength(text, none)
			if err != nil || math.Abs(float64(back)-l) > within+1e-9 {
				t.Fatalf("%g m was printed %q and read back as %g m (%v)", l, text, float64(back), err)
			}
		}
	})
}

// A written decimal becomes the float64 nearest to its exact value in metres,
// with its unit written or taken from the file.
func TestWrittenDecimalIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		digits := rapid.Int64Range(-1e12, 1e12).Draw(t, "digits")
		places := rapid.IntRange(0, 9).Draw(t, "places")
		unit := rapid.SampledFrom([]struct {
			name     string
			num, den int64
		}{{"mm", 1, 1000}, {"cm", 1, 100}, {"m", 1, 1}, {"in", 254, 10000}, {"ft", 3048, 10000}}).Draw(t, "unit")

		exact := new(big.Rat).Quo(new(big.Rat).SetInt64(digits), pow10(places))
		text := exact.FloatString(places)
		want, _ := exact.Mul(exact, big.NewRat(unit.num, unit.den)).Float64()

		named, err := units.ParseLength(text+" "+unit.name, none)
		if err != nil || float64(named) != want {
			t.Fatalf("%q = %v m (%v), want %v", text+" "+unit.name, float64(named), err, want)
		}
		bare, err := units.ParseLengthUnit(unit.name)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := units.ParseLength(text, bare); err != nil || got != named {
			t.Fatalf("%q in %s = %v m (%v), want %v", text, unit.name, float64(got), err, want)
		}
	})
}

func pow10(n int) *big.Rat {
	return new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil))
}

// A plain number in a given unit takes a quick way: it gives the very float of the
// exact way, which the same number with its unit takes, and refuses the same.
func TestPlainLengthsAreExact(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.StringMatching(`[0-9]{0,8}(\.[0-9]{0,6})?`).Draw(rt, "text")
		bare := rapid.SampledFrom([]units.LengthUnit{milli, {Name: "cm", Metres: 0.01}, {Name: "m", Metres: 1}, inch, foot}).Draw(rt, "unit")
		quick, err := units.ParseLength(text, bare)
		exact, exactErr := units.ParseLength(text+" "+bare.Name, none)
		require.Equal(rt, exactErr == nil, err == nil, "%q: %v, %v", text, err, exactErr)
		require.Equal(rt, math.Float64bits(float64(exact)), math.Float64bits(float64(quick)), text)
	})
}
