package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"plumbhook/density"
	"plumbhook/report"
	"plumbhook/takeoff"
)

func newMaterials() *cobra.Command {
	var v view
	cmd := &cobra.Command{
		Use:   "materials [NAME]",
		Short: "The materials that the program knows, and from which source",
		Long: `Lists the materials with their density, how far it may be out, and where the
figure comes from; or all that is known of one, by any of its names.`,
		Example: "  plumbhook materials\n  plumbhook materials \"structural steel\" --json",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return &usageError{fmt.Sprintf("%d names where one is wanted", len(args)), `put a name of several words in quotes: "structural steel"`}
			}
			return nil
		},
		ValidArgsFunction: materialNames,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := v.ready(""); err != nil {
				return err
			}
			rows := density.All()
			if len(args) == 1 {
				one, err := density.Find(args[0])
				if err != nil {
					return notKnown(err)
				}
				rows = []density.Material{one}
			}
			return v.write(cmd, report.NewMaterials(rows...))
		},
	}
	v.add(cmd)
	return cmd
}

// notKnown makes bad input of a material that is not in the table.
func notKnown(err error) error {
	if unknown := (*density.UnknownError)(nil); errors.As(err, &unknown) {
		return takeoff.Problems{{File: "materials", Text: unknown.Error(), Fix: unknown.Fix()}}
	}
	return err
}

// materialNames completes the names of materials.
func materialNames(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	var names []string
	if len(args) == 0 {
		for _, m := range density.All() {
			names = append(names, m.Name)
		}
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}
