package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const root = "../.."

// TestHelpExamplesRun runs what each --help shows, as it stands there, in a
// folder that has the samples. What the line has after < is standard input.
func TestHelpExamplesRun(t *testing.T) {
	samples, err := filepath.Abs(filepath.Join(root, "samples"))
	require.NoError(t, err)
	cmd, _ := newRoot()
	for _, c := range cmd.Commands() {
		if c.Name() == "help" || c.Name() == "completion" {
			continue
		}
		require.NotEmpty(t, c.Example, c.Name())
		for line := range strings.Lines(c.Example) {
			t.Run(strings.TrimSpace(line), func(t *testing.T) {
				t.Chdir(t.TempDir())
				require.NoError(t, os.Symlink(samples, "samples"))
				args, in := typed(t, line)
				var out, errOut bytes.Buffer
				assert.Equal(t, codeFine, Main(args, in, &out, &errOut), "%s", &errOut)
			})
		}
	}
}

// typed splits a line as a shell would, and opens what it has after <.
func typed(t *testing.T, line string) ([]string, *bytes.Reader) {
	t.Helper()
	line, from, redirected := strings.Cut(strings.TrimSpace(line), " < ")
	var in []byte
	if redirected {
		var err error
		in, err = os.ReadFile(from)
		require.NoError(t, err)
	}
	var args []string
	for i, piece := range strings.Split(line, `"`) {
		if i%2 == 1 {
			args = append(args, piece)
		} else {
			args = append(args, strings.Fields(piece)...)
		}
	}
	require.Equal(t, "plumbhook", args[0])
	return args[1:], bytes.NewReader(in)
}

// TestHelpFits: what each --help prints fits a terminal of 80 columns.
func TestHelpFits(t *testing.T) {
	cmd, _ := newRoot()
	for _, c := range append([]*cobra.Command{cmd}, cmd.Commands()...) {
		var out, errOut bytes.Buffer
		args := append(strings.Fields(c.CommandPath())[1:], "--help")
		require.Equal(t, codeFine, Main(args, nil, &out, &errOut))
		for line := range strings.Lines(out.String()) {
			assert.LessOrEqual(t, len([]rune(line)), 81, "%s: %q", c.Name(), line)
		}
		assert.Empty(t, errOut.String())
	}
}
