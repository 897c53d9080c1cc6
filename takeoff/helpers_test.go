package takeoff

import (
	"errors"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/geom"
)

// head begins most of the load files in the tests: four lines, so that what
// is added starts on line 5.
const head = "load: test\nunits: mm\nmaterial: structural steel\nparts:\n"

// readText reads a load file from memory, with the files that it may name.
func readText(text string, files fstest.MapFS) (*Load, error) {
	return ReadFrom(strings.NewReader(text), "load.yaml", files, Options{As: "yaml"})
}

// good reads a load file that must be right.
func good(t *testing.T, text string) *Load {
	t.Helper()
	l, err := readText(text, nil)
	require.NoError(t, err)
	return l
}

// weighed reads and weighs a load file that must be right.
func weighed(t *testing.T, text string) Weighed {
	t.Helper()
	w, err := good(t, text).Weigh()
	require.NoError(t, err)
	return w
}

// problemsOf reads a load file that must be wrong.
func problemsOf(t *testing.T, text string) Problems {
	t.Helper()
	l, err := readText(text, nil)
	require.Error(t, err, "want problems, got none")
	require.Nil(t, l)
	var p Problems
	require.True(t, errors.As(err, &p), "error is %T, want Problems", err)
	return p
}

// near3 holds two places against each other, in metres.
func near3(t *testing.T, want, got geom.Vec, tol float64, what string) {
	t.Helper()
	for i, axis := range "xyz" {
		assert.InDelta(t, want[i], got[i], tol, "%s %c", what, axis)
	}
}
