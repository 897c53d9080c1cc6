package main

import (
	_ "embed"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

// starter is a load file that works as it is, with a remark on each key.
//
//go:embed starter.yaml
var starter []byte

func newNew() *cobra.Command {
	var file string
	var force bool
	cmd := &cobra.Command{
		Use:   "new",
		Short: "A load file to start from",
		Long: `Writes a load file with remarks, which works as it is: to standard output, or
with -o to a file.`,
		Example: "  plumbhook new\n  plumbhook new -o my-lift.yaml",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return &usageError{"new takes no input", "to write a file: plumbhook new -o my-lift.yaml"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error {
			if file == "" && !force {
				_, err := cmd.OutOrStdout().Write(starter)
				return err
			}
			if err := loadFileName(file, force); err != nil {
				return err
			}
			return writeFile(file, starter)
		},
	}
	cmd.Flags().StringVarP(&file, "output", "o", "", "write `FILE` instead: .yaml or .yml")
	addForce(cmd, &force)
	return cmd
}

// loadFileName sees that a load file may be written under a name.
func loadFileName(name string, force bool) error {
	if name == "" {
		return errForceAlone
	}
	if !slices.Contains([]string{".yaml", ".yml"}, strings.ToLower(filepath.Ext(name))) {
		return &usageError{fmt.Sprintf("can't write a load file as %q", name), "end its name in .yaml"}
	}
	return free(name, "", force)
}
