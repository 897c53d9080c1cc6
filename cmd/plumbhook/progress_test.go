package main

import (
	"bytes"
	"os"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// screen is what a terminal of one line shows after a text has gone to it.
func screen(text string) string {
	line := ""
	for _, r := range text {
		switch {
		case r == '\r':
			line = ""
		default:
			line += string(r)
		}
	}
	return strings.ReplaceAll(line, "\x1b[K", "")
}

// shared is a buffer that is read while it is written.
type shared struct {
	mu  sync.Mutex
	all bytes.Buffer
}

func (s *shared) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.all.Write(p)
}

func (s *shared) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.all.String()
}

// TestProgressIsShownAndTakenAway: nothing in the first second, then a line that
// counts, and at the end nothing is left.
func TestProgressIsShownAndTakenAway(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var out shared
		p := &progress{out: &out, what: "12 sheets", stop: make(chan struct{})}
		p.start(patience, patience/4)
		time.Sleep(999 * time.Millisecond)
		synctest.Wait()
		assert.Empty(t, out.String(), "work of less than a second is not told")
		time.Sleep(2 * time.Millisecond)
		synctest.Wait()
		assert.Equal(t, "plumbhook: 12 sheets, 1 s", screen(out.String()))
		p.done()
		p.done()
		p.done()
		time.Sleep(2 * time.Second)
		synctest.Wait()
		assert.Equal(t, "plumbhook: 12 sheets, 3 done, 3 s", screen(out.String()))
		p.end()
		assert.Empty(t, screen(out.String()), "the line is taken away")
		assert.NotContains(t, out.String(), "\n")
	})
}

// TestQuickWorkShowsNoProgress: not even the line that takes it away.
func TestQuickWorkShowsNoProgress(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var out shared
		p := &progress{out: &out, what: "a.yaml", stop: make(chan struct{})}
		p.start(patience, patience/4)
		time.Sleep(patience / 2)
		p.end()
		assert.Empty(t, out.String())
	})
}

// TestProgressKeepsToTerminals: a file, a pipe and a buffer get nothing.
func TestProgressKeepsToTerminals(t *testing.T) {
	file, err := os.Create(t.TempDir() + "/err.txt")
	require.NoError(t, err)
	read, pipe, err := os.Pipe()
	require.NoError(t, err)
	defer func() { _ = read.Close() }()
	for _, out := range []*os.File{file, pipe} {
		p := newProgress(out, "a.yaml")
		time.Sleep(patience + patience/5)
		p.end()
		require.NoError(t, out.Close())
	}
	text, err := os.ReadFile(file.Name())
	require.NoError(t, err)
	assert.Empty(t, string(text))
	var piped bytes.Buffer
	_, err = piped.ReadFrom(read)
	require.NoError(t, err)
	assert.Empty(t, piped.String())
}

// TestProgressIsNarrow: a line that wraps could not be taken away.
func TestProgressIsNarrow(t *testing.T) {
	p := &progress{what: strings.Repeat("längs ", 30)}
	assert.Equal(t, narrowest, len([]rune(p.text(time.Minute))))
}
