package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
)

// indexName is the page that leads to the sheets of a folder.
const indexName = "index.html"

// errTold ends a command that has told why the program failed.
var errTold = errors.New("the program failed, as told")

// sheetFlags are the flags of the sheet.
type sheetFlags struct {
	loadFlags
	format string // of the sheets in a folder; empty: HTML
}

// oneSheet is one load of several, and what came of it.
type oneSheet struct {
	loadFlags        // with the file that its sheet goes to
	load      string // as named on the command line
	found     bool   // in a folder that was named there
	before    bool   // the file was there
	sheet     lift.LiftSheet
	err       error
}

// intoFolder tells whether sheets go into a folder, each into a file of its own.
func (f *sheetFlags) intoFolder(args []string) bool {
	return len(args) > 1 || isFolder(args[0]) || f.file != "" && (isFolder(f.file) || os.IsPathSeparator(f.file[len(f.file)-1]))
}

func isFolder(name string) bool {
	there, err := os.Stat(name)
	return err == nil && there.IsDir()
}

// runMany writes the sheet of each load and the index page. What is wrong with
// one load keeps no other from its sheet.
func (f *sheetFlags) runMany(cmd *cobra.Command, args []string) error {
	loads, found, err := loadsOf(args)
	if err != nil {
		return err
	}
	if err := f.fits(cmd, loads); err != nil {
		return err
	}
	list, err := f.planned(loads, found)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(f.file, 0o777); err != nil {
		return cannotWrite(f.file, err)
	}
	f.work(cmd, list)
	worst := codeFine
	for i := range list {
		worst = worse(worst, list[i].tell(cmd))
	}
	if err := f.writeIndex(list); err != nil {
		return err
	}
	return map[int]error{codeProgram: errTold, codeInput: errBadInput, codeNotAcceptable: errNotAcceptable}[worst]
}

// worse is the exit code that counts of two: 1, then 3, then 4.
func worse(a, b int) int {
	order := []int{codeFine, codeNotAcceptable, codeInput, codeProgram}
	return order[max(slices.Index(order, a), slices.Index(order, b))]
}

// loadsOf are the loads named, those of a folder by name, and which of them were
// found in a folder.
func loadsOf(args []string) (loads []string, found map[string]bool, err error) {
	found = map[string]bool{}
	for _, arg := range args {
		if !isFolder(arg) {
			loads = append(loads, arg)
			continue
		}
		there, err := os.ReadDir(arg)
		if err != nil {
			return nil, nil, fmt.Errorf("can't read %s: %w", arg, err)
		}
		before := len(loads)
		for _, file := range there { // sorted by name
			if ending := strings.ToLower(filepath.Ext(file.Name())); !file.IsDir() && (ending == ".yaml" || ending == ".yml") {
				loads = append(loads, filepath.Join(arg, file.Name()))
				found[loads[len(loads)-1]] = true
			}
		}
		if len(loads) == before {
			return nil, nil, &usageError{fmt.Sprintf("no load file in the folder %s", arg), "name a folder with .yaml or .yml files in it, or the files"}
		}
	}
	return loads, found, nil
}

// fits sees that the command line makes sense for sheets in a folder.
func (f *sheetFlags) fits(cmd *cobra.Command, loads []string) error {
	if f.file == "" {
		return &usageError{fmt.Sprintf("%s, and no folder to write into", counted(len(loads), "LOAD")), "name one with -o, such as: -o sheets/"}
	}
	if ending := strings.ToLower(filepath.Ext(f.file)); !isFolder(f.file) && slices.Contains(append([]string{".txt", ".json"}, ofSheet...), ending) {
		return &usageError{fmt.Sprintf("%s, and one file to write: %s", counted(len(loads), "LOAD"), f.file), "name a folder, such as: -o sheets/"}
	}
	if there, err := os.Stat(filepath.Clean(f.file)); err == nil && !there.IsDir() {
		return &usageError{fmt.Sprintf("%s is there and is no folder", f.file), "name another folder"}
	}
	if f.json {
		return &usageError{"--json is one document on standard output", "for a folder say --format json"}
	}
	if f.trace && f.format != "json" {
		return &usageError{errTrace.msg, "for a folder say --format json"}
	}
	if cmd.Flags().Changed("paper") && f.format != "pdf" {
		return errPaper
	}
	for _, load := range loads {
		switch {
		case load == "-":
			return &usageError{"standard input has no name that its sheet could have", "give it as a file, or by itself with -o FILE"}
		case f.takeoff.MeshUnits.Metres != 0 && f.isLoadFile(load):
			return errUnits
		}
	}
	return nil
}

// planned gives each load its file, and sees before any work is done that all of
// them can be written.
func (f *sheetFlags) planned(loads []string, found map[string]bool) ([]oneSheet, error) {
	index := filepath.Join(f.file, indexName)
	if err := free(index, "", f.force); err != nil {
		return nil, err
	}
	taken := map[string]string{indexName: "the index page"}
	var list []oneSheet
	for _, load := range loads {
		base := filepath.Base(load)
		name := strings.TrimSuffix(base, filepath.Ext(base)) + "." + orHTML(f.format)
		if other, twice := taken[strings.ToLower(name)]; twice { // many disks do not tell A from a
			return nil, &usageError{fmt.Sprintf("%s and %s would both be written to %s", other, load, filepath.Join(f.file, name)), "rename one, or write it into another folder"}
		}
		taken[strings.ToLower(name)] = load
		one := oneSheet{loadFlags: f.loadFlags, load: load, found: found[load]}
		one.file = filepath.Join(f.file, name)
		_, err := os.Stat(one.file)
		one.before = err == nil
		if err := one.ready(load); err != nil {
			return nil, err
		}
		one.lift = drawnFor(one.lift, &one.view)
		list = append(list, one)
	}
	return list, nil
}

func orHTML(format string) string {
	if format == "" {
		return "html"
	}
	return format
}

// work makes the sheets, as many at a time as there are processors.
func (f *sheetFlags) work(cmd *cobra.Command, list []oneSheet) {
	shown := newProgress(cmd.ErrOrStderr(), counted(len(list), "sheet"))
	defer shown.end()
	geom.ShareOut(len(list), runtime.GOMAXPROCS(0), func() func(int) {
		return func(i int) {
			list[i].make(cmd)
			shown.done()
		}
	})
}

// make reads one load, works on it and writes its sheet. A fault of the program
// stays with this load.
func (o *oneSheet) make(cmd *cobra.Command) {
	defer func() {
		if fault := recover(); fault != nil {
			o.err = fmt.Errorf("%w: please report it with the input: %v", lift.ErrProgram, fault)
		}
	}()
	load, err := o.opened(cmd)
	if err != nil {
		o.err = err
		return
	}
	if o.sheet, o.err = lift.Sheet(load, o.lift); o.err != nil {
		return
	}
	if o.err = o.told(&o.sheet); o.err != nil {
		return
	}
	if o.strict {
		o.sheet.Strict()
	}
	o.err = o.write(cmd, o.sheet)
	o.sheet.Drawings, o.sheet.Plots, o.sheet.Solids = nil, nil, nil // the index needs none of them
}

// opened is the load.
func (o *oneSheet) opened(cmd *cobra.Command) (*takeoff.Load, error) {
	if o.found {
		from, base := o.foundIn(o.load)
		return o.openIn(from, base, o.load)
	}
	return o.open(cmd, o.load)
}

// tell says on standard error what is to be said of one load, and returns the
// exit code that it would end with by itself.
func (o *oneSheet) tell(cmd *cobra.Command) int {
	if o.err != nil {
		return o.tellWhyNone(cmd)
	}
	errOut := cmd.ErrOrStderr()
	if len(o.sheet.Warnings) > 0 && !o.quiet || !o.sheet.Verdict.Acceptable {
		fmt.Fprintf(errOut, "%s:\n", o.load)
	}
	o.warn(cmd, o.sheet.Warnings)
	if o.sheet.Verdict.Acceptable {
		return codeFine
	}
	refused(cmd, o.sheet.Verdict)
	return codeNotAcceptable
}

// tellWhyNone says why there is no sheet of the load.
func (o *oneSheet) tellWhyNone(cmd *cobra.Command) int {
	errOut, code := cmd.ErrOrStderr(), codeInput
	var problems takeoff.Problems
	var usage *usageError
	switch {
	case errors.As(o.err, &problems):
		fmt.Fprintln(errOut, o.err)
	case errors.As(o.err, &usage): // such as nothing to draw
		fmt.Fprintf(errOut, "%s: %s\n  fix: %s\n", o.load, usage.msg, usage.fix)
	default:
		fmt.Fprintf(errOut, "plumbhook: %s: %v\n", o.load, o.err)
		code = codeProgram
	}
	if o.before {
		fmt.Fprintf(errOut, "%s is left from before: it is not of this input\n", o.file)
	}
	return code
}

// writeIndex writes the page that leads to the sheets.
func (f *sheetFlags) writeIndex(list []oneSheet) error {
	var rows []report.Indexed
	for _, o := range list {
		row := report.Indexed{Input: o.load, File: filepath.Base(o.file), Sheet: o.sheet}
		if o.err != nil {
			row.File, row.Problems = "", o.problems()
			if o.before {
				row.Old = filepath.Base(o.file)
			}
		}
		rows = append(rows, row)
	}
	var b bytes.Buffer
	if err := report.Index(&b, rows, f.lift.Date, report.Options{Show: f.show, Version: version()}); err != nil {
		return err
	}
	return writeFile(filepath.Join(f.file, indexName), b.Bytes())
}

// problems are why there is no sheet.
func (o *oneSheet) problems() []lift.Problem {
	var usage *usageError
	if errors.As(o.err, &usage) {
		return []lift.Problem{{File: o.load, Text: usage.msg, Fix: usage.fix}}
	}
	list := lift.Fail(o.err).Errors
	var missing *fs.PathError
	for i := range list {
		if list[i].File == "" || errors.As(o.err, &missing) {
			list[i].File = o.load
		}
	}
	return list
}

// counted is a number of things in words.
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
