package main

import (
	"github.com/spf13/cobra"

	"plumbhook/lift"
	"plumbhook/takeoff"
)

func newWeigh() *cobra.Command {
	var f loadFlags
	var dip string
	cmd := &cobra.Command{
		Use:   "weigh LOAD",
		Short: "Weight and centre of gravity, and how sure they are",
		Long: `Adds up the parts: the weight from low to high, the centre of gravity and how
far it may be out, and what each part came to. With --dip, the dip-stick table
of what is in a part: each level's volume, weight and CG.`,
		Example: "  plumbhook weigh samples/press-frame.yaml\n" +
			"  plumbhook weigh samples/gearbox-housing.stl --units mm --material \"cast iron\"\n" +
			"  plumbhook weigh samples/rinse-tank.yaml --state shipping\n" +
			"  plumbhook weigh samples/rinse-tank.yaml --dip tank\n" +
			"  plumbhook weigh - --as yaml < samples/press-frame.yaml",
		RunE: func(cmd *cobra.Command, args []string) error {
			if dip == "" {
				return run(&f, cmd, args[0], lift.Weigh)
			}
			if f.trace {
				return &usageError{"--trace is not for a dip-stick table", "leave out --trace, or --dip"}
			}
			return run(&f, cmd, args[0], func(l *takeoff.Load, o lift.Options) (lift.Dip, error) {
				return lift.DipTable(l, dip, dipSteps, o)
			})
		},
	}
	f.add(cmd)
	f.addState(cmd)
	f.addTrace(cmd)
	cmd.Flags().StringVar(&dip, "dip", "", "print the dip-stick table of what is in `PART`")
	return cmd
}

// dipSteps is how many levels a dip-stick table has above empty.
const dipSteps = 20
