package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
)

// Exit codes.
const (
	codeFine          = 0
	codeProgram       = 1 // the program failed, or its two methods disagree
	codeUsage         = 2 // wrong usage
	codeInput         = 3 // the input is bad
	codeNotAcceptable = 4 // the lift as described is not acceptable
)

// errNotAcceptable ends a command whose figures are printed and whose lift may
// not be made.
var errNotAcceptable = errors.New("not acceptable")

// usageError is a command line that makes no sense, found after its flags and
// arguments were read.
type usageError struct{ msg, fix string }

func (e *usageError) Error() string { return e.msg }

// errBadInput ends a command that has told in full what is wrong with its input.
var errBadInput = errors.New("the input is bad")

// Main runs the command line and returns the exit code. Figures go to out,
// everything else to errOut.
func Main(args []string, in io.Reader, out, errOut io.Writer) (code int) {
	errOut = plain{errOut}
	defer func() {
		if fault := recover(); fault != nil {
			fmt.Fprintf(errOut, "plumbhook: a fault of the program; please report it with the input: %v\n", fault)
			code = codeProgram
		}
	}()
	root, started := newRoot()
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errOut)
	cmd, err := root.ExecuteC()
	return finish(cmd, err, *started)
}

// finish says what went wrong, if anything, and turns it into the exit code.
// What stops cobra before a command has started is wrong usage.
func finish(cmd *cobra.Command, err error, started bool) int {
	errOut := cmd.ErrOrStderr()
	var problems takeoff.Problems
	var usage *usageError
	switch {
	case err == nil:
		return codeFine
	case errors.Is(err, errNotAcceptable):
		return codeNotAcceptable
	case errors.Is(err, errBadInput):
		return codeInput
	case errors.Is(err, errTold):
		return codeProgram
	case errors.As(err, &problems):
		fmt.Fprintln(errOut, err)
		return failed(cmd, err)
	case errors.As(err, &usage):
		return wrongUsage(cmd, usage.msg, usage.fix)
	case !started:
		return wrongUsage(cmd, err.Error(), meant(cmd, err))
	case errors.Is(err, syscall.EPIPE):
		return codeProgram // the reader has gone: there is nobody to tell
	}
	fmt.Fprintf(errOut, "plumbhook: %v\n", err)
	return codeProgram
}

// failed prints the document of an input that can't be used, if JSON was asked
// for.
func failed(cmd *cobra.Command, err error) int {
	if asked := cmd.Flags().Lookup("json"); asked != nil && asked.Value.String() == "true" {
		if err := report.JSON(cmd.OutOrStdout(), lift.Fail(err)); err != nil {
			fmt.Fprintf(cmd.ErrOrStderr(), "plumbhook: %v\n", err)
			return codeProgram
		}
	}
	return codeInput
}

func wrongUsage(cmd *cobra.Command, msg, fix string) int {
	errOut := cmd.ErrOrStderr()
	fmt.Fprintf(errOut, "plumbhook: %s\n", strings.TrimSpace(msg))
	if fix != "" {
		fmt.Fprintf(errOut, "  fix: %s\n", fix)
	}
	fmt.Fprintf(errOut, "  see: %s --help\n", cmd.CommandPath())
	return codeUsage
}
