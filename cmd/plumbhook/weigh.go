package main

import (
	"github.com/spf13/cobra"

	"plumbhook/lift"
)

func newWeigh() *cobra.Command {
	var f loadFlags
	cmd := &cobra.Command{
		Use:   "weigh LOAD",
		Short: "Weight and centre of gravity, and how sure they are",
		Long: `Adds up the parts: the weight from low to high, the centre of gravity and how
far it may be out, and what each part came to.`,
		Example: "  plumbhook weigh samples/press-frame.yaml\n" +
			"  plumbhook weigh samples/gearbox-housing.stl --units mm --material \"cast iron\"\n" +
			"  plumbhook weigh - --as yaml < samples/press-frame.yaml",
		RunE: func(cmd *cobra.Command, args []string) error {
			load, err := f.read(cmd, args[0])
			if err != nil {
				return err
			}
			res, err := lift.Weigh(load)
			if err != nil {
				return err
			}
			f.judge(cmd, &res.Header, res.Warnings)
			return f.answer(cmd, res, res.Verdict)
		},
	}
	f.add(cmd)
	return cmd
}
