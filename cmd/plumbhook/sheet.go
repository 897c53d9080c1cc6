package main

import (
	"github.com/spf13/cobra"

	"plumbhook/lift"
)

func newSheet() *cobra.Command {
	var f loadFlags
	cmd := &cobra.Command{
		Use:   "sheet LOAD",
		Short: "The lift sheet",
		Long: `The whole line on one sheet, from the take-off to the slings: for the terminal,
or with -o for a file. A file that ends in .svg has the drawings: plan, two
elevations and an isometric view, to scale.`,
		Example: "  plumbhook sheet samples/press-frame.yaml --date 2026-05-04\n" +
			"  plumbhook sheet samples/pump-skid-us.yaml -o pump-skid.txt\n" +
			"  plumbhook sheet samples/press-frame.yaml -o press-frame.svg",
		RunE: func(cmd *cobra.Command, args []string) error {
			f.lift.Draw, f.lift.Show = f.asSVG(), f.show
			return run(&f, cmd, args[0], lift.Sheet)
		},
	}
	f.add(cmd)
	f.drawn = true
	cmd.Flags().Lookup("output").Usage = "write `FILE` instead: .txt, .json, or .svg for the drawings"
	f.addState(cmd)
	f.addRules(cmd)
	addDate(cmd, &f.lift.Date, "date to print on the sheet, as `TEXT`; without it none is printed. As 2026-05-04 your own slings' last inspection is held against it")
	return cmd
}
