package main

import (
	"github.com/spf13/cobra"

	"plumbhook/lift"
	"plumbhook/report"
)

func newCheck() *cobra.Command {
	var f loadFlags
	cmd := &cobra.Command{
		Use:   "check LOAD",
		Short: "Is my take-off sound?",
		Long: `Looks over a take-off: units, meshes, materials that were taken by default, and
where each part came to stand, so that a slip in placing shows.`,
		Example: "  plumbhook check samples/press-frame.yaml",
		RunE: func(cmd *cobra.Command, args []string) error {
			load, err := f.read(cmd, args[0])
			if err != nil {
				return err
			}
			res, err := lift.Check(load)
			if err != nil {
				return err
			}
			f.judge(cmd, &res.Header, report.Unfound(res))
			return f.answer(cmd, res, res.Verdict)
		},
	}
	f.add(cmd)
	return cmd
}
