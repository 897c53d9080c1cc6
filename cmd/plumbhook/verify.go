package main

import (
	"bytes"
	"fmt"

	"github.com/spf13/cobra"

	"plumbhook/lift"
	"plumbhook/testdata/published"
)

func newVerify() *cobra.Command {
	var v view
	cmd := &cobra.Command{
		Use:   "verify",
		Short: "The program against published values, on this machine",
		Long: `Holds the program against values printed in standards, handbooks and textbooks,
each with its source and how far it is to be trusted. The way is that of a user:
from a load file to a figure of the answer. It ends with code 1 if one fails.`,
		Example: "  plumbhook verify\n  plumbhook verify -o verified.json",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := v.ready(""); err != nil {
				return err
			}
			rows, err := lift.ReadPublished(bytes.NewReader(published.Rows))
			if err != nil {
				return fmt.Errorf("%w: %w", lift.ErrProgram, err)
			}
			result := lift.Verify(rows)
			if err := v.write(cmd, result); err != nil {
				return err
			}
			if result.Failed > 0 {
				return fmt.Errorf("%w: %d of %d published values do not hold", lift.ErrProgram, result.Failed, len(result.Checks))
			}
			return nil
		},
	}
	v.add(cmd)
	return cmd
}
