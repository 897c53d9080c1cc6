package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/sling"
	"plumbhook/takeoff"
)

// bidFlags are the flags of a bid beside those of every command.
type bidFlags struct {
	loadFlags
	bid                    lift.BidOptions
	rates, against, sheets string
}

func newBid() *cobra.Command {
	f := bidFlags{loadFlags: loadFlags{view: view{also: []string{".csv", ".xlsx", ".html"}}}}
	cmd := &cobra.Command{
		Use:   "bid LOAD... | FOLDER | SHEET",
		Short: "What rigging a list of lifts takes, and what it costs",
		Long: `Weighs and rigs all pieces and prices them together. A piece is a load file, a
take-off sheet, or a row of a sheet of pieces: mark, envelope (length x width x
height), and a weight, or how much of the envelope is solid and of what. A piece
that can't be read stands in its row with what is wrong; the others are worked.

--rates names your own list of rates (CSV or XLSX): slings, shackles, bars,
cranes by capacity and riggers, to buy or to hire. The program has no prices of
its own. What has no rate is listed, never counted as nothing. The gear is the
cheapest set that serves all lifts, one after the other.`,
		Example: "  plumbhook bid samples/bid-pieces.csv --rates samples/bid-rates.csv\n" +
			"  plumbhook bid samples/bid-pieces.csv --rates samples/bid-rates.csv -o bid.xlsx\n" +
			"  plumbhook bid samples/bid-pieces-rev-b.csv --against samples/bid-pieces.csv",
		RunE: func(cmd *cobra.Command, args []string) error { return f.run(cmd, args) },
	}
	f.add(cmd)
	cmd.Args = somePieces
	f.addRules(cmd)
	names := sling.FamilyNames()
	cmd.Flags().Var(&choice[string]{&f.lift.Family, oneOf(names...), "NAME", ""}, "family", "only this family of slings, such as alloy_chain")
	complete(cmd, "family", names)
	flags := cmd.Flags()
	flags.StringVar(&f.rates, "rates", "", "your own prices, a `FILE` .csv or .xlsx")
	flags.StringVar(&f.against, "against", "", "a former bid, to tell what changed: its `FILE` .json, or its folder or sheet")
	flags.StringVar(&f.sheets, "sheets", "", "`FOLDER` of the pieces' lift sheets, to which a .html links")
	flags.IntVar(&f.bid.Days, "days", 0, "days of the job; without it from lifts and hours")
	flags.IntVar(&f.bid.Crew, "crew", 0, "riggers beside the crane's own crew (3)")
	flags.Float64Var(&f.bid.HoursPerLift, "hours-per-lift", 0, "hours of the crane a lift (1.5)")
	flags.Float64Var(&f.bid.HoursPerDay, "hours-per-day", 0, "working hours a day (8)")
	return cmd
}

func newCompare() *cobra.Command {
	var f bidFlags
	cmd := &cobra.Command{
		Use:   "compare OLD NEW",
		Short: "What a revision changed, and what follows from it",
		Long: `Holds two load files, folders or sheets of pieces against each other: what the
input says otherwise, and what that does to weight, centre of gravity, governing
leg, slings and the load on the hook. Pieces of folders and sheets are told by
their marks.`,
		Example: "  plumbhook compare samples/bid-pieces.csv samples/bid-pieces-rev-b.csv",
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := f.view.ready(args[1]); err != nil {
				return err
			}
			was, err := f.work(cmd, args[:1])
			if err != nil {
				return err
			}
			now, err := f.work(cmd, args[1:])
			if err != nil {
				return err
			}
			if len(was.Pieces) == 1 && len(now.Pieces) == 1 {
				was.Pieces[0].Mark = now.Pieces[0].Mark // two files of one piece
			}
			out := lift.Compared{Header: now.Header, BidChanges: lift.Compare(was, now, args[0])}
			return f.out(cmd, out, now)
		},
	}
	f.add(cmd)
	cmd.Args = func(_ *cobra.Command, args []string) error {
		if len(args) != 2 {
			return &usageError{fmt.Sprintf("%s where two are wanted", plural(len(args), "input")), "give the old one, then the new one"}
		}
		return nil
	}
	f.addRules(cmd)
	return cmd
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

func somePieces(_ *cobra.Command, args []string) error {
	if len(args) == 0 {
		return &usageError{"no LOAD is given", "give load files, a folder of them, or a sheet of pieces"}
	}
	return nil
}

// run makes a bid, holds it against a former one if asked, and writes it.
func (f *bidFlags) run(cmd *cobra.Command, args []string) error {
	if f.bid.Days < 0 || f.bid.Crew < 0 || f.bid.HoursPerLift < 0 || f.bid.HoursPerDay < 0 || f.bid.HoursPerDay > 24 {
		return &usageError{"days, crew and hours can't be below zero, nor a day longer than 24 hours", "leave the flag out for the usual"}
	}
	if err := f.view.ready(args[0]); err != nil {
		return err
	}
	if f.rates != "" {
		from, base := f.folderOf(f.rates)
		rates, err := takeoff.ReadRates(from, base, takeoff.Options{Limits: f.takeoff.Limits, MostParts: f.takeoff.MostParts})
		if err != nil {
			return asTyped(err, from.dir, base, f.rates)
		}
		rates.File = f.rates
		f.bid.Rates = rates
	}
	result, err := f.work(cmd, args)
	if err != nil {
		return err
	}
	if f.against != "" {
		was, err := f.former(cmd)
		if err != nil {
			return err
		}
		changes := lift.Compare(was, result, f.against)
		result.Changes = &changes
	}
	return f.out(cmd, result, result)
}

// work reads the pieces and makes the bid.
func (f *bidFlags) work(cmd *cobra.Command, args []string) (lift.BidResult, error) {
	pieces, err := f.pieces(cmd, args)
	if err != nil {
		return lift.BidResult{}, err
	}
	o := f.bid
	o.Options, o.Strict = f.lift, f.strict
	return lift.Bid(pieces, o)
}

// former is the bid to compare with: as it was written, or made again from its
// pieces with the rates of now.
func (f *bidFlags) former(cmd *cobra.Command) (was lift.BidResult, err error) {
	if !strings.EqualFold(filepath.Ext(f.against), ".json") {
		return f.work(cmd, []string{f.against})
	}
	data, err := f.readFormer()
	if err == nil {
		err = json.Unmarshal(data, &was)
	}
	if err == nil && (was.Schema != lift.Schema || was.Pieces == nil) {
		return f.work(cmd, []string{f.against}) // a load file in JSON
	}
	if err != nil {
		return was, takeoff.Problems{{File: f.against, Text: "not readable as a former bid: " + err.Error(), Fix: "name the file that `plumbhook bid -o bid.json` wrote, or the folder or sheet of its pieces"}}
	}
	return was, nil
}

// mostFormer is far above any bid: 20,000 pieces with all that they say take less.
const mostFormer = 256 << 20 // bytes

// readFormer reads a bid that was written as JSON.
func (f *bidFlags) readFormer() ([]byte, error) {
	file, err := openTyped(f.against)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	f.inputs.add(file)
	most := int64(mostFormer)
	if f.takeoff.Limits.Bytes > 0 {
		most = f.takeoff.Limits.Bytes
	}
	data, err := io.ReadAll(io.LimitReader(file, most+1))
	if err == nil && int64(len(data)) > most {
		err = fmt.Errorf("it has more than %d bytes; --largest-file allows more", most)
	}
	return data, err
}

// out writes the result; the worst of the pieces counts.
func (f *bidFlags) out(cmd *cobra.Command, result any, bid lift.BidResult) error {
	for _, p := range bid.Errors {
		if !f.quiet {
			fmt.Fprintln(cmd.ErrOrStderr(), takeoff.Problem{File: p.File, Line: p.Line, Column: p.Column, Cell: p.Cell, Text: p.Text, Fix: p.Fix})
		}
	}
	if err := f.render(cmd, result); err != nil {
		return err
	}
	input, program := bid.Faulty()
	switch {
	case program:
		return fmt.Errorf("%w: see the pieces with a fault", lift.ErrProgram)
	case input:
		return errBadInput
	case bid.Verdict.Acceptable:
		return nil
	}
	if f.json || f.file != "" {
		fmt.Fprintln(cmd.ErrOrStderr(), "NOT ACCEPTABLE")
		for _, reason := range bid.Verdict.Reasons {
			fmt.Fprintf(cmd.ErrOrStderr(), "  - %s\n", reason)
		}
	}
	return errNotAcceptable
}

// render writes a bid as its file's ending says, or as text or JSON.
func (f *bidFlags) render(cmd *cobra.Command, result any) error {
	bid, whole := result.(lift.BidResult)
	if !whole || f.writes == "" {
		return f.view.write(cmd, result)
	}
	var b bytes.Buffer
	var err error
	opt := report.Options{Show: f.show, Version: version()}
	switch f.writes {
	case ".csv":
		err = report.BidCSV(&b, bid)
	case ".xlsx":
		err = report.BidXLSX(&b, bid, opt)
	default:
		err = report.BidHTML(&b, bid, f.sheets, opt)
	}
	if err != nil {
		return err
	}
	return f.put(b.Bytes())
}
