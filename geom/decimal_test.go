package geom

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// Held against the standard parser, bit for bit, in the ways that programs write numbers.
func TestPlainDecimalIsTheStandardParser(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	quick := 0
	for range 200_000 {
		x := random.NormFloat64() * math.Pow(10, float64(random.IntN(40)-20))
		word := strconv.FormatFloat(x, "efgE"[random.IntN(4)], random.IntN(19)-1, 64)
		if got, ok := plainDecimal([]byte(word)); ok {
			want, err := strconv.ParseFloat(word, 64)
			require.NoError(t, err, word)
			require.Equal(t, math.Float64bits(want), math.Float64bits(got), word)
			quick++
		}
	}
	require.Greater(t, quick, 50_000, "the quick way is hardly taken")
	for _, word := range []string{"0", "-0", "+1.5", ".5", "5.", "9007199254740992", "1e22", "1e-22", "1.25E+01"} {
		got, ok := plainDecimal([]byte(word))
		want, err := strconv.ParseFloat(word, 64)
		require.NoError(t, err)
		require.True(t, ok, word)
		require.Equal(t, math.Float64bits(want), math.Float64bits(got), word)
	}
	for _, word := range []string{"", "-", ".", "e5", "1e", "1e+", "1e5.0", "1..2", "1_0", "0x1", "nan", "inf", "1e0005", "9007199254740993", "1e23", "--1", "1,5"} {
		_, ok := plainDecimal([]byte(word))
		require.False(t, ok, word)
	}
}

// BenchmarkTextNumber reads one number in the form that most programs write.
func BenchmarkTextNumber(b *testing.B) {
	word := []byte("-1.23456789e+02")
	b.Run("plain", func(b *testing.B) {
		for b.Loop() {
			plainDecimal(word)
		}
	})
	b.Run("standard", func(b *testing.B) {
		for b.Loop() {
			_, _ = strconv.ParseFloat(string(word), 64)
		}
	})
}
