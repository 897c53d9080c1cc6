package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
)

// newHelp is the help command; a topic that there is not is wrong usage.
func newHelp() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Help about a command",
		RunE: func(cmd *cobra.Command, args []string) error {
			about, rest, err := cmd.Root().Find(args)
			if err != nil || len(rest) > 0 {
				return &usageError{fmt.Sprintf("no command %q", strings.Join(args, " ")), "plumbhook --help lists the commands"}
			}
			return about.Help()
		},
	}
}
