package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"plumbhook/lift"
	"plumbhook/report"
)

var errForceAlone = &usageError{"--force without -o", "name the file to write over with -o"}

// ready sees that the result can be written where the command line says, before
// any work is done. The input is never written over.
func (v *view) ready(input string) error {
	if v.file == "" {
		if v.force {
			return errForceAlone
		}
		return nil
	}
	switch kind := strings.ToLower(filepath.Ext(v.file)); {
	case kind == ".json":
		v.json = true
	case slices.Contains(ofSheet, kind) && !slices.Contains(v.also, kind):
		return &usageError{fmt.Sprintf("can't write %q: only the lift sheet is written so", v.file), "use plumbhook sheet, or end the name in " + v.endings()}
	case kind != ".txt" && !slices.Contains(v.also, kind):
		return &usageError{fmt.Sprintf("can't write %q: its ending does not say a kind that can be written", v.file), "end its name in " + v.endings()}
	case v.json:
		return &usageError{fmt.Sprintf("--json, and a file of another kind: %s", v.file), "end its name in .json, or take --json away"}
	case kind != ".txt":
		v.writes = kind
	}
	return free(v.file, input, v.force)
}

// ofSheet are the endings of the files that only the lift sheet is written to.
var ofSheet = []string{".html", ".htm", ".pdf", ".svg", ".xlsx"}

// endings are those that a file may have.
func (v *view) endings() string {
	all := append([]string{".txt", ".json"}, v.also...)
	last := len(all) - 1
	return strings.Join(all[:last], ", ") + " or " + all[last]
}

// free sees that a file may be written: it is not there, or --force was given
// and it is not the input.
func free(name, input string, force bool) error {
	there, err := os.Stat(name)
	if err != nil {
		return nil // not there; what else is wrong shows when it is written
	}
	if read, err := os.Stat(input); err == nil && os.SameFile(there, read) {
		return &usageError{fmt.Sprintf("%s is the input itself", name), "write to another file"}
	}
	if there.IsDir() {
		return &usageError{fmt.Sprintf("%s is a folder", name), "name a file in it"}
	}
	if !there.Mode().IsRegular() { // a file would take its place
		return &usageError{fmt.Sprintf("%s is a pipe or a device, not a file", name), "leave -o out and send the output there: > " + name}
	}
	if !force {
		return &usageError{fmt.Sprintf("%s is already there", name), "write to another file, or say --force to write over it"}
	}
	return nil
}

// judge counts the warnings if they count, and prints them.
func (f *loadFlags) judge(cmd *cobra.Command, h *lift.Header, warnings []lift.Warning) {
	if f.strict {
		h.Strict()
	}
	f.warn(cmd, warnings)
}

// warn prints the warnings.
func (f *loadFlags) warn(cmd *cobra.Command, warnings []lift.Warning) {
	if f.quiet {
		return
	}
	for _, w := range warnings {
		fmt.Fprintf(cmd.ErrOrStderr(), "warning: %s\n", w.Text)
		if w.Fix != "" {
			fmt.Fprintf(cmd.ErrOrStderr(), "  fix: %s\n", w.Fix)
		}
	}
}

// answer writes the result and ends the command as its verdict says.
func (v *view) answer(cmd *cobra.Command, result any, verdict lift.Verdict) error {
	if err := v.write(cmd, result); err != nil {
		return err
	}
	if verdict.Acceptable {
		return nil
	}
	if v.json || v.file != "" { // the figures did not say it to a reader
		refused(cmd, verdict)
	}
	return errNotAcceptable
}

func refused(cmd *cobra.Command, verdict lift.Verdict) {
	fmt.Fprintln(cmd.ErrOrStderr(), "NOT ACCEPTABLE")
	for _, reason := range verdict.Reasons {
		fmt.Fprintf(cmd.ErrOrStderr(), "  - %s\n", reason)
	}
}

// write renders the whole result before a byte of it goes out.
func (v *view) write(cmd *cobra.Command, result any) error {
	var b bytes.Buffer
	var err error
	opt := report.Options{Show: v.show, Version: version(), Color: v.file == "" && v.colored(cmd.OutOrStdout())}
	sheet, whole := result.(lift.LiftSheet)
	switch {
	case v.json:
		err = report.JSON(&b, result)
	case (v.writes == ".html" || v.writes == ".htm") && whole:
		err = report.HTML(&b, sheet, opt)
	case v.writes == ".pdf" && whole:
		err = report.PDF(&b, sheet, report.Paper(v.paper), opt)
	case v.writes == ".xlsx" && whole:
		err = report.XLSX(&b, sheet, opt)
	case v.writes == ".svg" && whole:
		if err = report.SVG(&b, sheet, opt); errors.Is(err, report.ErrNothingDrawn) {
			err = &usageError{err.Error(), "write to a .txt or .json file"}
		}
	default:
		err = report.Text(&b, result, opt)
	}
	if err != nil {
		return err
	}
	if v.file != "" {
		return v.put(b.Bytes())
	}
	_, err = cmd.OutOrStdout().Write(b.Bytes())
	return err
}

// put writes the file that the command line names.
func (v *view) put(data []byte) error {
	if err := v.inputs.kept(v.file); err != nil {
		return err
	}
	return writeFile(v.file, data)
}

// colored says whether to colour what goes to out. NO_COLOR, if it holds
// anything, turns colour off unless it was asked for.
func (v *view) colored(out io.Writer) bool {
	if v.color != "auto" {
		return v.color == "always"
	}
	file, ok := out.(*os.File)
	return ok && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb" && term.IsTerminal(int(file.Fd()))
}
