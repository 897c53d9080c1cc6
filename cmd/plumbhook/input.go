package main

import (
	"errors"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/takeoff"
)

const standardInput = "standard input"

// read reads the load that the command line names. First it sees that the
// result can go where it is to go.
func (f *loadFlags) read(cmd *cobra.Command, name string) (*takeoff.Load, error) {
	if err := f.view.ready(name); err != nil {
		return nil, err
	}
	if f.trace && !f.json {
		return nil, errTrace
	}
	if f.takeoff.MeshUnits.Metres != 0 && f.isLoadFile(name) {
		return nil, errUnits
	}
	return f.open(cmd, name)
}

var errTrace = &usageError{"--trace is in the JSON alone", "say --json as well, or write to a file: -o FILE.json"}

var errUnits = &usageError{"--units is the unit of a mesh given by itself, or of a take-off sheet", "take it away: a load file says its units itself"}

// open reads the load.
func (f *loadFlags) open(cmd *cobra.Command, name string) (*takeoff.Load, error) {
	if name == "-" {
		if f.takeoff.As == "" {
			return nil, &usageError{"standard input does not say what it is", "give --as yaml, csv, xlsx or stl"}
		}
		return takeoff.ReadFrom(cmd.InOrStdin(), standardInput, folder{dir: ".", anywhere: f.takeoff.AllowOutside, inputs: f.inputs}, f.takeoff)
	}
	from, base := f.folderOf(name)
	return f.openIn(from, base, name)
}

// openIn reads the load that is called base in a folder, and name by the user.
func (f *loadFlags) openIn(from folder, base, name string) (*takeoff.Load, error) {
	load, err := takeoff.Read(from, base, f.takeoff)
	if err != nil {
		return nil, asTyped(err, from.dir, base, name)
	}
	load.File = name
	return load, nil
}

// run reads a load, works on it, prints the warnings and writes the result.
func run[T any, P interface {
	*T
	Head() *lift.Header
}](f *loadFlags, cmd *cobra.Command, name string, work func(*takeoff.Load, lift.Options) (T, error)) error {
	result, err := worked(f, cmd, name, work)
	if err != nil {
		return err
	}
	head := P(&result).Head()
	if err := f.told(P(&result)); err != nil {
		return err
	}
	f.judge(cmd, head, head.Warnings)
	return f.answer(cmd, result, head.Verdict)
}

// told puts on a result what made it: the program's version, and with --trace where
// each figure comes from.
func (f *loadFlags) told(result interface{ Head() *lift.Header }) error {
	result.Head().Program = version()
	if !f.trace {
		return nil
	}
	return lift.WithTrace(result)
}

// worked reads a load and works on it, and shows that it does.
func worked[T any](f *loadFlags, cmd *cobra.Command, name string, work func(*takeoff.Load, lift.Options) (T, error)) (T, error) {
	shown := newProgress(cmd.ErrOrStderr(), name)
	defer shown.end()
	load, err := f.read(cmd, name)
	if err != nil {
		var none T
		return none, err
	}
	return work(load, f.lift)
}

// lookOver reads the mesh that the command line names, sound or not.
func (f *loadFlags) lookOver(cmd *cobra.Command, name string) (*takeoff.MeshFile, error) {
	if err := f.view.ready(name); err != nil {
		return nil, err
	}
	shown := newProgress(cmd.ErrOrStderr(), name)
	defer shown.end()
	if name == "-" {
		return takeoff.LookOverFrom(cmd.InOrStdin(), standardInput, f.takeoff)
	}
	from, base := f.folderOf(name)
	mesh, err := takeoff.LookOver(from, base, f.takeoff)
	return mesh, asTyped(err, from.dir, base, name)
}

// isLoadFile tells whether the input is a load file, which says its units.
func (f *loadFlags) isLoadFile(name string) bool {
	return !f.isMesh(name) && !slices.Contains([]string{"csv", "xlsx"}, f.kind(name))
}

func (f *loadFlags) isMesh(name string) bool {
	return slices.Contains(geom.MeshEndings(), "."+f.kind(name))
}

// kind is what an input is: as --as says, or as its name ends.
func (f *loadFlags) kind(name string) string {
	if f.takeoff.As != "" {
		return f.takeoff.As
	}
	return strings.TrimPrefix(strings.ToLower(filepath.Ext(name)), ".")
}

// asTyped names the files in problems as the user did: they were read by their
// names within the folder of the first, which is called base there.
func asTyped(err error, dir, base, name string) error {
	var problems takeoff.Problems
	if !errors.As(err, &problems) {
		return err
	}
	for i := range problems {
		if problems[i].File == base {
			problems[i].File = name
		} else { // a sub-assembly
			problems[i].File = folder{dir: dir}.typedAs(problems[i].File)
		}
	}
	return problems
}
