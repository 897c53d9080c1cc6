package main

import (
	"github.com/spf13/cobra"

	"plumbhook/lift"
)

func newPicks() *cobra.Command {
	var f loadFlags
	cmd := &cobra.Command{
		Use:   "picks LOAD",
		Short: "Where to pick it up",
		Long: `Judges the picks of the load file and proposes up to three other sets: on the
lugs or the grid that the file gives as candidates, else on the load's own top.
A proposal is geometry only: strength of load and lug are not checked.`,
		Example: "  plumbhook picks samples/gearbox-stl.yaml",
		RunE: func(cmd *cobra.Command, args []string) error {
			return run(&f, cmd, args[0], lift.Picks)
		},
	}
	f.add(cmd)
	f.addState(cmd)
	f.addRules(cmd)
	f.addTrace(cmd)
	return cmd
}
