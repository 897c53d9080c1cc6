package main

import (
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
)

// A program that is ended by signal n has the exit code 128 + n, as shells count.
const codeSignal = 128

// stopOnSignal ends the program when it is told to stop, such as by Ctrl-C: nothing
// is left half written, and what was written before stays. The work in hand is not
// waited for. A second signal ends it at once, whatever it does.
func stopOnSignal(errOut io.Writer) {
	told := make(chan os.Signal, 1)
	for _, one := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(one) { // as nohup asks for
			signal.Notify(told, one)
		}
	}
	go func() {
		what := <-told
		signal.Stop(told) // from now on a signal does what it does to any program
		parts.abandon()
		code := codeSignal
		if n, ok := what.(syscall.Signal); ok {
			code += int(n)
		}
		fmt.Fprintf(errOut, "plumbhook: stopped (%v): no file is left half written; those written before are whole\n", what)
		os.Exit(code)
	}()
}
