package main

import (
	"github.com/spf13/cobra"

	"plumbhook/lift"
)

func newLegs() *cobra.Command {
	var f loadFlags
	cmd := &cobra.Command{
		Use:   "legs LOAD",
		Short: "What each leg carries, how it hangs, and whether it is stable",
		Long: `Solves how the load hangs on its legs, at the best CG and at the worst over the
ranges of weight, CG and leg lengths. On two hooks: what each carries as the
load turns.`,
		Example: "  plumbhook legs samples/press-frame.yaml\n" +
			"  plumbhook legs samples/pump-skid-us.yaml --show us\n" +
			"  plumbhook legs samples/stack-section.yaml",
		RunE: func(cmd *cobra.Command, args []string) error {
			return run(&f, cmd, args[0], lift.Legs)
		},
	}
	f.add(cmd)
	f.addState(cmd)
	f.addRules(cmd)
	f.addExplain(cmd)
	f.addTrace(cmd)
	return cmd
}
