package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"golang.org/x/term"
)

// patience is how long work goes on before it is shown that it does.
const patience = time.Second

// progress shows on a terminal that work goes on, on one line of standard error
// that is taken away at the end. Into a file or a pipe it writes nothing.
type progress struct {
	out     io.Writer
	what    string
	stop    chan struct{}
	stopped sync.WaitGroup

	mu    sync.Mutex
	count int // of what is done; shown once it is not 0
}

// newProgress begins to wait. What is said is begun with what is worked on.
func newProgress(out io.Writer, what string) *progress {
	if p, ok := out.(plain); ok { // the line is made here, and may steer
		out = p.out
	}
	p := &progress{out: out, what: printable(what), stop: make(chan struct{})}
	if file, ok := out.(*os.File); ok && os.Getenv("TERM") != "dumb" && term.IsTerminal(int(file.Fd())) {
		p.start(patience, patience/4)
	}
	return p
}

// start shows the line after a while, and again and again from then on.
func (p *progress) start(after, every time.Duration) {
	begun := time.Now()
	p.stopped.Go(func() {
		select {
		case <-p.stop:
			return
		case <-time.After(after):
		}
		again := time.NewTicker(every)
		defer again.Stop()
		for {
			fmt.Fprint(p.out, clearLine+p.text(time.Since(begun)))
			select {
			case <-p.stop:
				fmt.Fprint(p.out, clearLine)
				return
			case <-again.C:
			}
		}
	})
}

// clearLine goes back to the start of the line and empties it (ECMA-48: EL).
const clearLine = "\r\x1b[K"

func (p *progress) text(since time.Duration) string {
	p.mu.Lock()
	defer p.mu.Unlock()
	text := fmt.Sprintf("plumbhook: %s, ", p.what)
	if p.count > 0 {
		text += fmt.Sprintf("%d done, ", p.count)
	}
	text += fmt.Sprintf("%d s", int(since.Seconds()))
	if letters := []rune(text); len(letters) > narrowest { // a line that wraps can't be taken away
		text = string(letters[:narrowest])
	}
	return text
}

// narrowest is as long as the line may be.
const narrowest = 60

// done counts one more.
func (p *progress) done() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.count++
}

// end takes the line away; nothing is written after it returns.
func (p *progress) end() {
	close(p.stop)
	p.stopped.Wait()
}
