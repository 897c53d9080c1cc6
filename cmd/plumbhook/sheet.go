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
	f := sheetFlags{loadFlags: loadFlags{view: view{also: ofSheet}}}
	cmd := &cobra.Command{
		Use:   "sheet LOAD...",
		Short: "The lift sheet",
		Long: `The whole line on one sheet, from the take-off to the slings: for the terminal,
or with -o for a file. A PDF has the sheet for the crew on page 1, then drawings
to scale and the working for a checker; .html is one page with the same and a
view in three dimensions, which needs no network and prints; .svg has the
drawings alone; .xlsx is a spreadsheet whose formulas a checker can follow cell
by cell.

Of several loads each gets a sheet named after its file, in the folder that -o
names, and index.html there leads to them. A folder as LOAD stands for the load
files (.yaml, .yml) in it. A load that can't be used keeps no other from its
sheet: its row on the index says what is wrong. The worst exit code counts: 1,
then 3, then 4.`,
		Example: "  plumbhook sheet samples/press-frame.yaml --date 2026-05-04\n" +
			"  plumbhook sheet samples/pump-skid-us.yaml -o pump-skid.html\n" +
			"  plumbhook sheet samples/press-frame.yaml -o press-frame.pdf --paper letter\n" +
			"  plumbhook sheet samples/press-frame.yaml samples/pipe-spool.yaml -o sheets/",
		RunE: func(cmd *cobra.Command, args []string) error {
			if f.intoFolder(args) {
				return f.runMany(cmd, args)
			}
			if f.format != "" {
				return &usageError{"--format is for sheets in a folder", "name the folder with -o, such as: -o sheets/; of a file its ending says it"}
			}
			if cmd.Flags().Changed("paper") && !strings.EqualFold(filepath.Ext(f.file), ".pdf") {
				return errPaper
			}
			return run(&f.loadFlags, cmd, args[0], func(l *takeoff.Load, o lift.Options) (lift.LiftSheet, error) {
				return lift.Sheet(l, drawnFor(o, &f.view))
			})
		},
	}
	f.add(cmd)
	cmd.Args = someLoads
	f.addState(cmd)
	f.addRules(cmd)
	f.addTrace(cmd)
	addDate(cmd, &f.lift.Date, "date to print on the sheet, as `TEXT`; without it none is printed. As 2026-05-04 your own slings' last inspection is held against it")
	wordFlag(cmd, &f.paper, "paper", string(report.A4), "paper of a PDF", string(report.A4), string(report.Letter))
	wordFlag(cmd, &f.format, "format", "", "kind of the sheets in a folder (html)", "html", "pdf", "txt", "json", "xlsx", "svg")
	return cmd
}

var errPaper = &usageError{"--paper is that of a PDF", "name one with -o, such as: -o sheet.pdf; for a folder say --format pdf"}

// drawnFor asks for what the kind of file shows.
func drawnFor(o lift.Options, v *view) lift.Options {
	o.Draw, o.Show = v.writes != "" && v.writes != ".xlsx", v.show
	o.Solids = v.writes == ".html" || v.writes == ".htm"
	o.Explain = o.Solids || v.writes == ".pdf"
	return o
}
