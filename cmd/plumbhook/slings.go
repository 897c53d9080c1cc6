package main

import (
	"github.com/spf13/cobra"

	"plumbhook/lift"
	"plumbhook/sling"
)

func newSlings() *cobra.Command {
	var f loadFlags
	cmd := &cobra.Command{
		Use:   "slings LOAD",
		Short: "What each leg must be rated for, and which slings may be used",
		Long: `Sizes the slings for the legs as they hang, and says of each family whether it
may be used here, and why. A rule set is needed: --rules, or in the load file.`,
		Example: "  plumbhook slings samples/press-frame.yaml --rules EN",
		RunE: func(cmd *cobra.Command, args []string) error {
			return run(&f, cmd, args[0], lift.Slings)
		},
	}
	f.add(cmd)
	f.addState(cmd)
	f.addRules(cmd)
	addDate(cmd, &f.lift.Date, "day of the lift as `2026-05-04`, to hold the last inspection of your own slings against")
	f.addExplain(cmd)
	f.addTrace(cmd)
	names := sling.FamilyNames()
	cmd.Flags().Var(&choice[string]{&f.lift.Family, oneOf(names...), "NAME", ""}, "family", "only this family of slings, such as \"wire rope\"")
	complete(cmd, "family", names)
	return cmd
}
