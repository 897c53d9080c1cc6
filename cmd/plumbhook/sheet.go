package main

import (
	"github.com/spf13/cobra"

	"plumbhook/lift"
	"plumbhook/takeoff"
)

func newSheet() *cobra.Command {
	f := loadFlags{view: view{also: ofSheet}}
	cmd := &cobra.Command{
		Use:   "sheet LOAD",
		Short: "The lift sheet",
		Long: `The whole line on one sheet, from the take-off to the slings: for the terminal,
or with -o for a file: .svg has the drawings, to scale; .xlsx is a spreadsheet
whose formulas a checker can follow cell by cell.`,
		Example: "  plumbhook sheet samples/press-frame.yaml --date 2026-05-04\n" +
			"  plumbhook sheet samples/pump-skid-us.yaml -o pump-skid.txt\n" +
			"  plumbhook sheet samples/press-frame.yaml -o press-frame.svg",
		RunE: func(cmd *cobra.Command, args []string) error {
			return run(&f, cmd, args[0], func(l *takeoff.Load, o lift.Options) (lift.LiftSheet, error) {
				o.Draw, o.Show = f.writes == ".svg", f.show
				return lift.Sheet(l, o)
			})
		},
	}
	f.add(cmd)
	f.addState(cmd)
	f.addRules(cmd)
	addDate(cmd, &f.lift.Date, "date to print on the sheet, as `TEXT`; without it none is printed. As 2026-05-04 your own slings' last inspection is held against it")
	return cmd
}
