package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"plumbhook/lift"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// choice is a flag that is checked as it is read.
type choice[T any] struct {
	to    *T
	parse func(string) (T, error)
	takes string
	text  string // as given, or the default
}

func (c *choice[T]) Set(text string) error {
	v, err := c.parse(text)
	if err != nil {
		if parse := (*units.ParseError)(nil); errors.As(err, &parse) {
			return fmt.Errorf("%w; %s", err, parse.Fix)
		}
		return err
	}
	*c.to, c.text = v, text
	return nil
}

func (c *choice[T]) String() string { return c.text }
func (c *choice[T]) Type() string   { return c.takes }

// oneOf reads one of a few words, blind to case.
func oneOf(words ...string) func(string) (string, error) {
	return func(text string) (string, error) {
		plain := strings.NewReplacer(" ", "_", "-", "_").Replace(text) // as people say it: wire rope
		for _, w := range words {
			if strings.EqualFold(plain, w) || strings.EqualFold(text, w) {
				return w, nil
			}
		}
		return "", fmt.Errorf("want %s", strings.Join(words, ", "))
	}
}

// wordFlag adds a flag that takes one of a few words, and completes them.
func wordFlag(cmd *cobra.Command, to *string, name, preset, usage string, words ...string) {
	*to = preset
	cmd.Flags().Var(&choice[string]{to, oneOf(words...), strings.Join(words, "|"), preset}, name, usage)
	complete(cmd, name, words)
}

func complete(cmd *cobra.Command, name string, words []string) {
	// The error is a flag that there is not, which the test of every help shows.
	_ = cmd.RegisterFlagCompletionFunc(name, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
}

// view is how results are shown and where they go.
type view struct {
	show   units.Show
	json   bool
	color  string
	file   string
	force  bool
	also   []string // endings of further kinds of files that the command writes
	writes string   // the one of them that is to be written; empty: none
	paper  string   // of a PDF
	inputs *inputFiles
}

func (v *view) add(cmd *cobra.Command) {
	words := []string{"metric", "us", "both"}
	cmd.Flags().Var(&choice[units.Show]{&v.show, units.ParseShow, strings.Join(words, "|"), units.Both.String()}, "show", "units of the text")
	complete(cmd, "show", words)
	cmd.Flags().BoolVar(&v.json, "json", false, "one JSON document, in SI, on standard output")
	wordFlag(cmd, &v.color, "color", "auto", "colour the text (never in a file)", "auto", "always", "never")
	cmd.Flags().StringVarP(&v.file, "output", "o", "", "write `FILE` instead: "+v.endings())
	addForce(cmd, &v.force)
}

func addForce(cmd *cobra.Command, to *bool) {
	cmd.Flags().BoolVar(to, "force", false, "let -o write over a file")
}

// loadFlags are the flags of the commands that read a load.
type loadFlags struct {
	view
	quiet, strict bool
	trace         bool // tell of each figure where it comes from
	takeoff       takeoff.Options
	lift          lift.Options
}

func (f *loadFlags) add(cmd *cobra.Command) {
	f.view.add(cmd)
	f.inputs = &inputFiles{}
	cmd.Args, cmd.ValidArgsFunction = oneLoad, loadFiles
	flags := cmd.Flags()
	flags.BoolVar(&f.quiet, "quiet", false, "no warnings on standard error")
	flags.BoolVar(&f.strict, "strict", false, "count every warning as not acceptable")
	flags.StringVar(&f.takeoff.Material, "material", "", "`NAME` of the material of a mesh, or of parts that name none")
	flags.Var(&choice[units.LengthUnit]{&f.takeoff.MeshUnits, units.ParseLengthUnit, "mm|cm|m|in|ft", ""}, "units", "unit that a mesh was drawn in, or of lengths in a sheet that names none")
	_ = cmd.RegisterFlagCompletionFunc("material", materialNames)
	complete(cmd, "units", []string{"mm", "cm", "m", "in", "ft"})
	flags.BoolVar(&f.takeoff.AcceptMesh, "accept-mesh", false, "weigh an unsound mesh knowingly, its weight in doubt")
	f.addLimits(flags)
	flags.BoolVar(&f.takeoff.AllowOutside, "allow-outside", false, "let a load file name files outside its own folder")
	wordFlag(cmd, &f.takeoff.As, "as", "", "what the input is, where its name does not say it", "yaml", "csv", "xlsx", "stl", "obj", "ply", "3mf")
}

func (f *loadFlags) addState(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.lift.State, "state", "", "only in this state of the load, by its `NAME`")
}

func (f *loadFlags) addRules(cmd *cobra.Command) {
	wordFlag(cmd, &f.lift.Rules, "rules", "", "rule set, before that of the load file", "US", "EN")
}

func addDate(cmd *cobra.Command, to *string, usage string) {
	cmd.Flags().StringVar(to, "date", "", usage)
}

func (f *loadFlags) addExplain(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&f.lift.Explain, "explain", false, "the working by hand for the governing leg, step by step")
}

func (f *loadFlags) addTrace(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&f.trace, "trace", false, "with --json: the formula, inputs and source of each figure")
}

// oneLoad sees that there is one LOAD.
func oneLoad(_ *cobra.Command, args []string) error {
	const fix = "give one load file, take-off sheet or mesh, or - for standard input"
	switch len(args) {
	case 0:
		return &usageError{"no LOAD is given", fix}
	case 1:
		return nil
	}
	return &usageError{fmt.Sprintf("%d inputs where one LOAD is wanted", len(args)), fix}
}

// someLoads sees that there is a LOAD at least.
func someLoads(_ *cobra.Command, args []string) error {
	if len(args) == 0 {
		return &usageError{"no LOAD is given", "give load files, take-off sheets or meshes, or a folder of load files"}
	}
	return nil
}

// loadFiles completes the names of files that can be read.
func loadFiles(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return []string{"yaml", "yml", "json", "csv", "xlsx", "stl", "obj", "ply", "3mf"}, cobra.ShellCompDirectiveFilterFileExt
}
