package report_test

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestPageHasContrast: every ink against the paper, and against the band on which
// some of it stands, by light and by dark: 4.5 to 1 at least.
//
// Source: W3C, Web Content Accessibility Guidelines 2.1, criterion 1.4.3 and the
// definitions of contrast ratio and relative luminance (from memory).
func TestPageHasContrast(t *testing.T) {
	style, err := os.ReadFile("sheet.css")
	require.NoError(t, err)
	schemes := regexp.MustCompile(`:root \{([^}]+)\}`).FindAllStringSubmatch(string(style), -1)
	require.Len(t, schemes, 2, "light and dark")
	for _, scheme := range schemes {
		inks := map[string]float64{}
		for _, m := range regexp.MustCompile(`--(\w+): #(\w{6})`).FindAllStringSubmatch(scheme[1], -1) {
			inks[m[1]] = luminance(t, m[2])
		}
		for _, ink := range []string{"ink", "soft", "mark", "focus"} {
			for _, ground := range []string{"paper", "band"} {
				require.Contains(t, inks, ink)
				require.Contains(t, inks, ground)
				light, dark := max(inks[ink], inks[ground]), min(inks[ink], inks[ground])
				assert.GreaterOrEqual(t, (light+0.05)/(dark+0.05), 4.5, "%s on %s", ink, ground)
			}
		}
	}
}

// luminance is the relative luminance of a colour.
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	sum := 0.0
	for i, part := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		require.NoError(t, err)
		c := float64(n) / 255
		if c <= 0.03928 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += part * c
	}
	return sum
}
