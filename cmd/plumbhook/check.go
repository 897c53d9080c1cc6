package main

import (
	"github.com/spf13/cobra"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
)

func newCheck() *cobra.Command {
	var f loadFlags
	cmd := &cobra.Command{
		Use:   "check LOAD",
		Short: "Is my take-off sound?",
		Long: `Looks over a take-off: units, meshes, materials that were taken by default, and
where each part came to stand, so that a slip in placing shows.

A mesh is looked over by itself: whether it is closed, what is wrong with it and
what that means for the weight; without --units, what it comes to in each unit.`,
		Example: "  plumbhook check samples/press-frame.yaml\n  plumbhook check samples/gearbox-housing.stl --units mm",
		RunE: func(cmd *cobra.Command, args []string) error {
			if f.isMesh(args[0]) {
				return f.checkMesh(cmd, args[0])
			}
			res, err := worked(&f, cmd, args[0], func(l *takeoff.Load, _ lift.Options) (lift.Checked, error) { return lift.Check(l) })
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

// checkMesh looks over a mesh given by itself. A mesh that can't be weighed as
// it is, or whose unit is not known, is bad input, and told of in full.
func (f *loadFlags) checkMesh(cmd *cobra.Command, name string) error {
	mesh, err := f.lookOver(cmd, name)
	if err != nil {
		return err
	}
	res := lift.CheckMesh(mesh)
	f.judge(cmd, &res.Header, report.Unfound(res))
	if err := f.answer(cmd, res, res.Verdict); err == nil || len(res.Errors) == 0 {
		return err
	}
	return errBadInput
}
