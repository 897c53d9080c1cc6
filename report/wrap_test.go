package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// TestWrapLosesNothing: wrapping keeps every character but spaces, and no line
// is too long, whatever is in the text.
func TestWrapLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`([a-zä吊0-9]{1,12} ?){0,20}`).Draw(t, "text")
		width := rapid.IntRange(1, 30).Draw(t, "width")
		first := rapid.IntRange(0, width-1).Draw(t, "first")
		lines := wrap(text, first, width)
		for i, l := range lines {
			room := width
			if i == 0 {
				room -= first
			}
			if length(l) > room {
				t.Fatalf("line %d has %d characters, room for %d: %q", i, length(l), room, l)
			}
		}
		bare := strings.NewReplacer(" ", "", glue, "")
		if got, want := bare.Replace(strings.Join(lines, "")), bare.Replace(text); got != want {
			t.Fatalf("%q became %q", want, got)
		}
	})
}

// TestFiguresStayWhole: a line is not broken within a figure.
func TestFiguresStayWhole(t *testing.T) {
	assert.Equal(t, []string{"weighs", "1 234 567 kg", "at 20 °C"}, wrap("weighs 1 234 567 kg at 20 °C", 0, 12))
	assert.Equal(t, []string{"long:", `12' 6-1/2"`}, wrap(`long: 12' 6-1/2"`, 0, 11))
	assert.Equal(t, []string{"1 234", "567 kg"}, wrap("1 234 567 kg", 0, 6), "unless it must")
}

// TestFourFigures rounds to four figures without powers of ten.
func TestFourFigures(t *testing.T) {
	for want, x := range map[string]float64{"0": 0, "20 400": 20399.6, "1.000": 0.99999, "0.05740": 0.0574, "-12 350": -12345.678, "123.5": 123.45678, "9 999": 9999.4} {
		assert.Equal(t, want, strings.ReplaceAll(fourFigures(x), glue, " "), "%g", x)
	}
}

// TestFactor prints factors with two to four decimals.
func TestFactor(t *testing.T) {
	for want, x := range map[string]float64{"1.00": 1, "1.10": 1.1, "0.8045": 0.804512, "2.10": 2.1, "0.125": 0.125} {
		assert.Equal(t, want, factor(x))
	}
}

// TestDirection names the axes that a direction goes along.
func TestDirection(t *testing.T) {
	assert.Equal(t, "+y", direction([3]float64{0, 1, 0}))
	assert.Equal(t, "−x", direction([3]float64{-0.999, 0.01, 0}))
	assert.Equal(t, "−0.60 x, +0.80 y", strings.ReplaceAll(direction([3]float64{-0.6, 0.8, 0}), glue, " "))
}
