package units_test

import (
	"testing"

	"plumbhook/units"
)

func FuzzParseStrength(f *testing.F) { fuzzOne(f, units.ParseStrength) }
func FuzzParsePressure(f *testing.F) { fuzzOne(f, units.ParsePressure) }
func FuzzParseSpeed(f *testing.F)    { fuzzOne(f, units.ParseSpeed) }
func FuzzParseArea(f *testing.F)     { fuzzOne(f, units.ParseArea) }

func FuzzParseShow(f *testing.F) {
	f.Add("metric")
	f.Add("BOTH")
	f.Add("")
	f.Fuzz(func(t *testing.T, text string) {
		show, err := units.ParseShow(text)
		if err != nil {
			return
		}
		if again, err := units.ParseShow(show.String()); err != nil || again != show {
			t.Fatalf("%q was read as %v, which is read as %v: %v", text, show, again, err)
		}
	})
}
