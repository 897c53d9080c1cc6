//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// command makes a process of the program itself: the test's own binary is it, when
// it is called so.
func command(t *testing.T, args ...string) (*exec.Cmd, *bytes.Buffer) {
	t.Helper()
	// Where the tests themselves were started to ignore a signal, by nohup or in the
	// background of a script, the process would be too: but what is listened for here
	// is as ever there.
	heard := make(chan os.Signal, 1)
	signal.Notify(heard, syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP)
	t.Cleanup(func() { signal.Stop(heard) })
	self, err := os.Executable()
	require.NoError(t, err)
	name := filepath.Join(t.TempDir(), "plumbhook")
	require.NoError(t, os.Symlink(self, name))
	cmd, errOut := exec.Command(name, args...), &bytes.Buffer{}
	cmd.Stderr = errOut
	return cmd, errOut
}

// code is how a process ended; a process that a signal has killed has none.
func code(t *testing.T, err error) int {
	t.Helper()
	exit := (*exec.ExitError)(nil)
	require.ErrorAs(t, err, &exit)
	return exit.ExitCode()
}

// many writes a load file under many names.
func many(t *testing.T, n int) (folder string) {
	t.Helper()
	load := []byte("load: a block\nunits: mm\nparts: [{name: block, box: 500 x 500 x 500, corner: [0, 0, 0], material: structural steel}]\n")
	folder = filepath.Join(t.TempDir(), "loads")
	require.NoError(t, os.Mkdir(folder, 0o777))
	for i := range n {
		require.NoError(t, os.WriteFile(filepath.Join(folder, fmt.Sprintf("load-%03d.yaml", i)), load, 0o666))
	}
	return folder
}

// TestStoppedInTheMiddle sends a signal while sheets are written: those that are
// there are whole, none is half written, and the code says what ended it.
func TestStoppedInTheMiddle(t *testing.T) {
	loads := many(t, 300)
	for _, what := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		out := filepath.Join(t.TempDir(), "sheets")
		cmd, errOut := command(t, "sheet", loads, "-o", out, "--quiet")
		require.NoError(t, cmd.Start())
		require.Eventually(t, func() bool {
			there, _ := filepath.Glob(filepath.Join(out, "*.html"))
			return len(there) > 2
		}, time.Minute, time.Millisecond)
		require.NoError(t, cmd.Process.Signal(what))
		assert.Equal(t, 128+int(what), code(t, cmd.Wait()), "%v: %s", what, errOut)
		assert.Equal(t, fmt.Sprintf("plumbhook: stopped (%v): no file is left half written; those written before are whole\n", what), errOut.String())

		there, err := os.ReadDir(out)
		require.NoError(t, err)
		assert.Less(t, len(there), 300)
		for _, file := range there {
			assert.False(t, strings.HasPrefix(file.Name(), "."), "%s is left", file.Name())
			text, err := os.ReadFile(filepath.Join(out, file.Name()))
			require.NoError(t, err)
			assert.True(t, bytes.HasSuffix(bytes.TrimSpace(text), []byte("</html>")), "%s is not whole", file.Name())
		}
		assert.NoFileExists(t, filepath.Join(out, indexName))
	}
}

// TestStoppedWhileWaiting: a program that waits for its input ends at once, and the
// file that it was to write over stays as it was.
func TestStoppedWhileWaiting(t *testing.T) {
	out := filepath.Join(t.TempDir(), "sheet.txt")
	require.NoError(t, os.WriteFile(out, []byte("from before"), 0o666))
	cmd, errOut := command(t, "weigh", "-", "--as", "yaml", "-o", out, "--force")
	in, err := cmd.StdinPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	for range 100 { // more than a pipe holds: once it is taken the program is reading
		_, err := in.Write(bytes.Repeat([]byte("# a remark\n"), 100))
		require.NoError(t, err)
	}
	require.NoError(t, cmd.Process.Signal(syscall.SIGINT))
	assert.Equal(t, 130, code(t, cmd.Wait()), errOut)
	got, err := os.ReadFile(out)
	require.NoError(t, err)
	assert.Equal(t, "from before", string(got))
}

// TestStopIgnored: a signal that the program was started to ignore, as nohup does,
// is ignored.
func TestStopIgnored(t *testing.T) {
	cmd, errOut := command(t, "weigh", "-", "--as", "yaml")
	name := cmd.Path
	cmd = exec.Command("sh", "-c", `trap "" HUP; exec "$0" weigh - --as yaml`, name)
	cmd.Stderr = errOut
	in, err := cmd.StdinPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	_, err = in.Write(bytes.Repeat([]byte("# a remark\n"), 10_000))
	require.NoError(t, err)
	require.NoError(t, cmd.Process.Signal(syscall.SIGHUP))
	_, err = in.Write([]byte("nothing: here\n"))
	require.NoError(t, err)
	require.NoError(t, in.Close())
	assert.Equal(t, codeInput, code(t, cmd.Wait()), errOut)
	assert.Contains(t, errOut.String(), "unknown key")
}
