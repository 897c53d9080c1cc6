package main

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"plumbhook/density"
	"plumbhook/report"
	"plumbhook/takeoff"
)

func newSections() *cobra.Command {
	var v view
	cmd := &cobra.Command{
		Use:   "sections [QUERY]",
		Short: "Rolled, hollow and bar sections and pipes, with mass and source",
		Long: `Lists sections and pipes with their mass by length and where it comes from: all
of them, those that a query begins or describes (HEA, W12, "channel EN 10365"),
or all that is known of one. Any size of hollow section, pipe or bar is computed
when it is named: SHS 100x100x5, NPS 6 sch 40, round 20, flat 100x10.`,
		Example:           "  plumbhook sections HEA 200\n  plumbhook sections W12\n  plumbhook sections \"NPS 6 sch 40\" --json",
		ValidArgsFunction: sectionNames,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := v.ready(""); err != nil {
				return err
			}
			rows, err := findSections(strings.Join(args, " "))
			if err != nil {
				return err
			}
			return v.write(cmd, report.NewSections(rows...))
		},
	}
	v.add(cmd)
	return cmd
}

// findSections returns the section that is named, else those that the query
// describes.
func findSections(query string) ([]density.Section, error) {
	if strings.TrimSpace(query) == "" {
		return density.Sections(""), nil
	}
	one, err := density.FindSection(query)
	if err == nil {
		return []density.Section{one}, nil
	}
	if rows := density.Sections(query); len(rows) > 0 {
		return rows, nil
	}
	var fixed interface{ Fix() string } // an unknown designation, or a size that can't be
	if errors.As(err, &fixed) {
		return nil, takeoff.Problems{{File: "sections", Text: err.Error(), Fix: fixed.Fix()}}
	}
	return nil, err
}

// sectionNames completes designations.
func sectionNames(_ *cobra.Command, args []string, start string) ([]string, cobra.ShellCompDirective) {
	var names []string
	for _, s := range density.Sections(strings.Join(append(args, start), " ")) {
		if len(args) == 0 {
			names = append(names, s.Name)
		}
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}
