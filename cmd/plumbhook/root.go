package main

import (
	"fmt"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"plumbhook/units"
)

const about = `Plumbhook takes a load from the drawing to the hook: what it weighs, where its
centre of gravity is, where to pick it up, what each leg carries, how it hangs,
and which slings may be used.

LOAD is a load file (.yaml, .yml, .json), a take-off sheet (.csv, .xlsx) or a
mesh (.stl, .obj, .ply, .3mf, with --material and --units); - reads standard
input. Begin with: plumbhook new -o my-lift.yaml

Figures go to standard output, everything else to standard error.
Exit codes: 0 fine, 1 the program failed, 2 wrong usage, 3 the input is bad,
4 the lift as described is not acceptable (the figures are printed);
130 stopped by Ctrl-C, with no file left half written.

Plumbhook helps a qualified person plan a lift. It does not replace that person.`

// newRoot returns the command with all that it can do, and whether one of its
// commands has started.
func newRoot() (*cobra.Command, *bool) {
	started := new(bool)
	root := &cobra.Command{
		Use: "plumbhook", Short: "From a drawing to a lift that hangs as predicted", Long: about,
		Version: version(), SilenceUsage: true, SilenceErrors: true, DisableSuggestions: true,
		PersistentPreRun: func(*cobra.Command, []string) { *started = true },
		RunE: func(*cobra.Command, []string) error {
			return &usageError{"no command is given", "name one, such as: plumbhook weigh LOAD"}
		},
	}
	root.AddCommand(newNew(), newCheck(), newWeigh(), newPicks(), newLegs(), newSlings(), newSheet(), newBid(), newCompare(), newMaterials(), newSections(), newVerify())
	root.SetHelpCommand(newHelp())
	root.SetFlagErrorFunc(flagError)
	root.SetVersionTemplate("plumbhook {{.Version}}\n")
	root.SetUsageTemplate(narrow(root.UsageTemplate()))
	return root, started
}

// narrow keeps the list of flags within 80 columns.
func narrow(template string) string {
	return strings.ReplaceAll(template, ".FlagUsages ", ".FlagUsagesWrapped 80 ")
}

// version is the program's own, from what the Go tool has put into it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" || info.Main.Version == "(devel)" {
		return "devel"
	}
	return info.Main.Version
}

// meant says which command may have been meant by one that there is not.
func meant(cmd *cobra.Command, err error) string {
	var known []string
	for _, c := range cmd.Commands() {
		known = append(known, c.Name())
	}
	_, after, _ := strings.Cut(err.Error(), `unknown command "`)
	wrong, _, _ := strings.Cut(after, `"`)
	if near := units.Nearest(wrong, known); len(near) > 0 {
		return fmt.Sprintf("did you mean %s?", strings.Join(near, ", or "))
	}
	return ""
}

// flagError adds what may have been meant to a flag that there is not.
func flagError(cmd *cobra.Command, err error) error {
	fix := ""
	var known []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { known = append(known, f.Name) })
	if wrong, ok := strings.CutPrefix(err.Error(), "unknown flag: --"); ok {
		if near := units.Nearest(wrong, known); len(near) > 0 {
			fix = fmt.Sprintf("did you mean --%s?", near[0])
		}
	}
	return &usageError{err.Error(), fix}
}
