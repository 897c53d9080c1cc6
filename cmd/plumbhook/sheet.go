package main

import (
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
)

func newSheet() *cobra.Command {
	f := loadFlags{view: view{also: ofSheet}}
	cmd := &cobra.Command{
		Use:   "sheet LOAD",
		Short: "The lift sheet",
		Long: `The whole line on one sheet, from the take-off to the slings: for the terminal,
or with -o for a file. A PDF has the sheet for the crew on page 1, then drawings
to scale and the working for a checker; .html is one page with the same and a
view in three dimensions, which needs no network and prints; .svg has the
drawings alone; .xlsx is a spreadsheet whose formulas a checker can follow cell
by cell.`,
		Example: "  plumbhook sheet samples/press-frame.yaml --date 2026-05-04\n" +
			"  plumbhook sheet samples/pump-skid-us.yaml -o pump-skid.html\n" +
			"  plumbhook sheet samples/press-frame.yaml -o press-frame.pdf --paper letter",
		RunE: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("paper") && !strings.EqualFold(filepath.Ext(f.file), ".pdf") {
				return &usageError{"--paper is that of a PDF", "name one with -o, such as: -o sheet.pdf"}
			}
			return run(&f, cmd, args[0], func(l *takeoff.Load, o lift.Options) (lift.LiftSheet, error) {
				o.Draw, o.Show = f.writes != "" && f.writes != ".xlsx", f.show
				o.Solids = f.writes == ".html" || f.writes == ".htm"
				o.Explain = o.Solids || f.writes == ".pdf"
				return lift.Sheet(l, o)
			})
		},
	}
	f.add(cmd)
	f.addState(cmd)
	f.addRules(cmd)
	addDate(cmd, &f.lift.Date, "date to print on the sheet, as `TEXT`; without it none is printed. As 2026-05-04 your own slings' last inspection is held against it")
	wordFlag(cmd, &f.paper, "paper", string(report.A4), "paper of a PDF", string(report.A4), string(report.Letter))
	return cmd
}
