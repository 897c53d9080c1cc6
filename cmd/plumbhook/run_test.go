package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/rig"
	"plumbhook/takeoff"
)

// ended runs finish on an error of a command that has started.
func ended(err error) (int, string) {
	var errOut bytes.Buffer
	cmd := &cobra.Command{Use: "plumbhook"}
	cmd.SetErr(&errOut)
	return finish(cmd, err, true), errOut.String()
}

// TestExitCodes are those that the help promises.
func TestExitCodes(t *testing.T) {
	for _, tt := range []struct {
		name string
		err  error
		code int
		says string
	}{
		{"fine", nil, 0, ""},
		{"the program failed", fmt.Errorf("%w: tables", lift.ErrProgram), 1, "plumbhook: the program failed: tables\n"},
		{"the methods disagree", fmt.Errorf("%w: %w", lift.ErrProgram, rig.ErrDisagree), 1, "disagree: no tension is given"},
		{"the disk is full", cannotWrite("a.txt", syscall.ENOSPC), 1, "can't write a.txt: no space left on device"},
		{"the reader has gone", &os.PathError{Op: "write", Path: "|1", Err: syscall.EPIPE}, 1, ""},
		{"wrong usage", &usageError{"no", "yes"}, 2, "plumbhook: no\n  fix: yes\n  see: plumbhook --help\n"},
		{"bad input", takeoff.Problems{{File: "a.yaml", Text: "bad", Fix: "mend"}}, 3, "a.yaml: bad\n  fix: mend\n"},
		{"not acceptable", errNotAcceptable, 4, ""},
	} {
		code, says := ended(tt.err)
		assert.Equal(t, tt.code, code, tt.name)
		if tt.says == "" {
			assert.Empty(t, says, tt.name)
		}
		assert.Contains(t, says, tt.says, tt.name)
	}
}

type bomb struct{}

func (bomb) Read([]byte) (int, error) { panic("no such place") }

// TestPanicIsAFault: a fault of the program ends with code 1 and a plain word.
func TestPanicIsAFault(t *testing.T) {
	var out, errOut bytes.Buffer
	assert.Equal(t, codeProgram, Main([]string{"weigh", "-", "--as", "yaml"}, bomb{}, &out, &errOut))
	assert.Equal(t, "plumbhook: a fault of the program; please report it with the input: no such place\n", errOut.String())
	assert.Empty(t, out.String())
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, syscall.ENOSPC }

// TestWriteFails: figures that can't be written are a failure.
func TestWriteFails(t *testing.T) {
	var errOut bytes.Buffer
	assert.Equal(t, codeProgram, Main([]string{"new"}, nil, full{}, &errOut))
	assert.Contains(t, errOut.String(), "no space left")
	errOut.Reset()
	load := filepath.Join(t.TempDir(), "a.yaml")
	require.NoError(t, os.WriteFile(load, []byte("nothing: here\n"), 0o666))
	assert.Equal(t, codeProgram, Main([]string{"weigh", load, "--json"}, nil, full{}, &errOut), "nor can the document of a failure")
}

// TestFileIsWhole: a file is written whole, keeps its permissions and its place
// behind a link, and nothing is left when it can't be.
func TestFileIsWhole(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "sheet.txt")
	require.NoError(t, os.WriteFile(name, []byte("old"), 0o600))
	link := filepath.Join(dir, "link.txt")
	require.NoError(t, os.Symlink("sheet.txt", link))
	require.NoError(t, writeFile(link, []byte("new")))
	got, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, "new", string(got))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink, "the link is still one")
	if runtime.GOOS != "windows" {
		info, err = os.Stat(name)
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	}
	folder := filepath.Join(dir, "folder.txt")
	require.NoError(t, os.Mkdir(folder, 0o777))
	require.Error(t, writeFile(folder, []byte("new")))
	left, err := filepath.Glob(filepath.Join(dir, ".*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}

// TestColored: colour is for terminals, unless asked for.
func TestColored(t *testing.T) {
	t.Setenv("NO_COLOR", "")
	t.Setenv("TERM", "xterm")
	auto, always, never := view{color: "auto"}, view{color: "always"}, view{color: "never"}
	var file io.Writer = &bytes.Buffer{}
	assert.False(t, auto.colored(file))
	assert.True(t, always.colored(file))
	terminal, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skip("no terminal to be had: ", err)
	}
	defer terminal.Close()
	assert.True(t, auto.colored(terminal))
	assert.False(t, never.colored(terminal))
	t.Setenv("NO_COLOR", "1")
	assert.False(t, auto.colored(terminal))
	assert.True(t, always.colored(terminal), "asked for")
	t.Setenv("NO_COLOR", "")
	t.Setenv("TERM", "dumb")
	assert.False(t, auto.colored(terminal))
}

// TestOnlyFlagsThatAct: a command has a flag only where it does something.
func TestOnlyFlagsThatAct(t *testing.T) {
	load := []string{"accept-mesh", "as", "color", "force", "json", "material", "output", "quiet", "show", "strict", "units"}
	with := func(more ...string) []string { return append(more, load...) }
	want := map[string][]string{
		"new": {"force", "output"}, "materials": {"color", "force", "json", "output", "show"},
		"sections": {"color", "force", "json", "output", "show"},
		"check":    load, "weigh": load, "picks": with("rules"), "legs": with("rules"), "slings": with("rules", "date"), "sheet": with("rules", "date"),
	}
	cmd, _ := newRoot()
	for _, c := range cmd.Commands() {
		if want[c.Name()] == nil {
			continue
		}
		for _, name := range with("rules", "date") {
			has := c.Flags().Lookup(name) != nil
			assert.Equal(t, strings.Contains(" "+strings.Join(want[c.Name()], " ")+" ", " "+name+" "), has, "%s --%s", c.Name(), name)
		}
	}
}
