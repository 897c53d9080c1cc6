package main

import (
	_ "embed"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"plumbhook/takeoff"
)

// starter is a load file that works as it is, with a remark on each key.
//
//go:embed starter.yaml
var starter []byte

// schemaName is what the schema is called beside a load file, and schemaLine
// how a load file names it to editors.
const (
	schemaName = "plumbhook.schema.json"
	schemaLine = "# yaml-language-server: $schema=" + schemaName + "\n"
)

// newFlags say what is written, and where to.
type newFlags struct {
	file          string
	force         bool
	sheet, schema bool
}

func newNew() *cobra.Command {
	var f newFlags
	cmd := &cobra.Command{
		Use:   "new",
		Short: "A load file or a take-off sheet to start from",
		Long: `Writes a load file with remarks, which works as it is: to standard output, or
with -o to a file. With --sheet it writes an empty take-off sheet instead, with
--schema the JSON Schema by which an editor completes and checks the keys of a
load file; a load file written beside ` + schemaName + ` names it.`,
		Example: "  plumbhook new\n  plumbhook new -o my-lift.yaml\n  plumbhook new --sheet -o take-off.xlsx\n  plumbhook new --schema -o " + schemaName,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return &usageError{"new takes no input", "to write a file: plumbhook new -o my-lift.yaml"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error {
			if f.file == "" && f.force {
				return errForceAlone
			}
			data, err := f.data()
			if err != nil {
				return err
			}
			if f.file == "" {
				_, err := cmd.OutOrStdout().Write(data)
				return err
			}
			return writeFile(f.file, data)
		},
	}
	cmd.Flags().StringVarP(&f.file, "output", "o", "", "write `FILE` instead: .yaml or .yml, .csv or .xlsx, .json")
	cmd.Flags().BoolVar(&f.sheet, "sheet", false, "a take-off sheet: .csv or .xlsx")
	cmd.Flags().BoolVar(&f.schema, "schema", false, "the JSON Schema of load files: .json")
	addForce(cmd, &f.force)
	return cmd
}

// data makes what is to be written, once it is sure that it may be.
func (f newFlags) data() ([]byte, error) {
	what, endings := "a load file", []string{".yaml", ".yml"}
	switch {
	case f.sheet && f.schema:
		return nil, &usageError{"--sheet and --schema at once", "write one of the two"}
	case f.sheet:
		what, endings = "a take-off sheet", []string{".csv", ".xlsx"}
	case f.schema:
		what, endings = "a schema", []string{".json"}
	}
	ending := strings.ToLower(filepath.Ext(f.file))
	if f.file != "" {
		if !slices.Contains(endings, ending) {
			return nil, &usageError{fmt.Sprintf("can't write %s as %q", what, f.file), "end its name in " + strings.Join(endings, " or ")}
		}
		if err := free(f.file, "", f.force); err != nil {
			return nil, err
		}
	}
	switch {
	case f.sheet && ending == ".xlsx":
		return takeoff.NewSheet("xlsx")
	case f.sheet:
		return takeoff.NewSheet("csv")
	case f.schema:
		return takeoff.Schema(), nil
	}
	return append(f.schemaLine(), starter...), nil
}

// schemaLine names the schema to editors, if it is beside the file.
func (f newFlags) schemaLine() []byte {
	if f.file == "" {
		return nil
	}
	if _, err := os.Stat(filepath.Join(filepath.Dir(f.file), schemaName)); err != nil {
		return nil
	}
	return []byte(schemaLine)
}
