package units_test

import (
	"errors"
	"math"
	"testing"

	"plumbhook/units"
)

// seeds are quantities as planners write them, and as they should not.
var seeds = []string{`12' 6-1/2"`, "6 1/2 in", `1/2"`, "3.2 m", "-2 m", "3 ft 6 in", "1,5 m", "1 234 kg", "012 mm",
	"nan", "-.inf", "0x1p-2", "1_000", "1e400", "1e-999999999", "5 ton", "5 %", "-1 % / +3 %", "20 °C", "25 kN/m3",
	"490 lb/ft³", "30°", "2400 x 1200 x 20 mm", "½", "\x00", "''''", "1/0 in", "±", "--", "e", "1e", "'", `"`}

// checkRead fails on a result that is not finite and on an error that does not
// say what is wrong and how to mend it.
func checkRead(t *testing.T, text string, err error, values ...float64) {
	t.Helper()
	if err != nil {
		var parse *units.ParseError
		if !errors.As(err, &parse) || parse.Msg == "" || parse.Fix == "" || parse.Error() == "" {
			t.Fatalf("%q: error without what is wrong or how to mend it: %#v", text, err)
		}
		return
	}
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) || v == 0 && math.Signbit(v) {
			t.Fatalf("%q was read as %v", text, v)
		}
	}
}

func fuzz(f *testing.F, read func(t *testing.T, text string)) {
	for _, seed := range seeds {
		f.Add(seed)
	}
	f.Fuzz(read)
}

func FuzzParseLength(f *testing.F) {
	fuzz(f, func(t *testing.T, text string) {
		for _, bare := range []units.LengthUnit{none, milli, inch} {
			l, err := units.ParseLength(text, bare)
			checkRead(t, text, err, float64(l))
			if err == nil {
				_ = l.Format(units.Both)
			}
		}
	})
}

func FuzzParseSize(f *testing.F) {
	fuzz(f, func(t *testing.T, text string) {
		size, err := units.ParseSize(text, milli, 3)
		if err == nil && len(size) != 3 {
			t.Fatalf("%q has %d lengths", text, len(size))
		}
		for _, l := range size {
			checkRead(t, text, err, float64(l))
		}
		checkRead(t, text, err)
	})
}

func FuzzParseNumber(f *testing.F)      { fuzzOne(f, units.ParseNumber) }
func FuzzParseMass(f *testing.F)        { fuzzOne(f, units.ParseMass) }
func FuzzParseForce(f *testing.F)       { fuzzOne(f, units.ParseForce) }
func FuzzParseDensity(f *testing.F)     { fuzzOne(f, units.ParseDensity) }
func FuzzParseDegrees(f *testing.F)     { fuzzOne(f, units.ParseDegrees) }
func FuzzParsePercent(f *testing.F)     { fuzzOne(f, units.ParsePercent) }
func FuzzParseTemperature(f *testing.F) { fuzzOne(f, units.ParseTemperature) }

func fuzzOne[T ~float64](f *testing.F, parse func(string) (T, error)) {
	fuzz(f, func(t *testing.T, text string) {
		v, err := parse(text)
		checkRead(t, text, err, float64(v))
	})
}

func FuzzParseTolerance(f *testing.F) {
	fuzz(f, func(t *testing.T, text string) {
		low, high, err := units.ParseTolerance(text)
		checkRead(t, text, err, low, high)
		if err == nil && (low > 0 || high < 0 || low <= -1) {
			t.Fatalf("%q was read as %v to %v", text, low, high)
		}
	})
}

func FuzzParseLengthUnit(f *testing.F) {
	fuzz(f, func(t *testing.T, text string) {
		u, err := units.ParseLengthUnit(text)
		checkRead(t, text, err, u.Metres)
		if err == nil && u.Metres <= 0 {
			t.Fatalf("%q is a unit of %v m", text, u.Metres)
		}
	})
}
