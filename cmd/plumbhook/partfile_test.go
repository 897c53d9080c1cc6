package main

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// left lists what is in a folder.
func left(t *testing.T, dir string) (names []string) {
	t.Helper()
	there, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, file := range there {
		names = append(names, file.Name())
	}
	return names
}

// TestPartIsTakenAway: a file that is being written when the program is told to stop
// is taken away, does not get its name later, and no other is begun.
func TestPartIsTakenAway(t *testing.T) {
	dir, p := t.TempDir(), partFiles{}
	name := filepath.Join(dir, "a.txt")
	require.NoError(t, os.WriteFile(name, []byte("from before"), 0o666))
	f, err := p.create(name, 0o666)
	require.NoError(t, err)
	_, err = f.WriteString("half")
	require.NoError(t, err)
	require.Len(t, left(t, dir), 2)
	p.abandon()
	assert.Equal(t, []string{"a.txt"}, left(t, dir))
	require.ErrorIs(t, p.finish(f, name, nil), errStopped)
	_, err = p.create(name, 0o666)
	require.ErrorIs(t, err, errStopped)
	assert.Equal(t, []string{"a.txt"}, left(t, dir))
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, "from before", string(text))
}

// TestPartOfAKilledRun: what a run that was killed has left does not keep the next one,
// of the same number, from writing.
func TestPartOfAKilledRun(t *testing.T) {
	dir, killed, next := t.TempDir(), partFiles{}, partFiles{}
	name := filepath.Join(dir, "a.txt")
	half, err := killed.create(name, 0o666)
	require.NoError(t, err)
	require.NoError(t, half.Close())
	f, err := next.create(name, 0o666)
	require.NoError(t, err)
	require.NoError(t, next.finish(f, name, nil))
	assert.Len(t, left(t, dir), 2)
}

// TestPartOfFullDisk: what can't be written whole leaves nothing, and the file from
// before as it was.
func TestPartOfFullDisk(t *testing.T) {
	dir, p := t.TempDir(), partFiles{}
	name := filepath.Join(dir, "a.txt")
	require.NoError(t, os.WriteFile(name, []byte("from before"), 0o666))
	f, err := p.create(name, 0o666)
	require.NoError(t, err)
	full := errors.New("no space left on device")
	require.ErrorIs(t, p.finish(f, name, full), full)
	assert.Equal(t, []string{"a.txt"}, left(t, dir))
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, "from before", string(text))
}
