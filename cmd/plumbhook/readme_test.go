package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestReadmeRuns runs each command that README.md shows in a console block and
// finds the lines shown under it in what it prints, in their order. A line of
// "…" stands for any number of lines.
func TestReadmeRuns(t *testing.T) {
	t.Chdir(root)
	text, err := os.ReadFile("README.md")
	require.NoError(t, err)
	shown := console(string(text))
	require.NotEmpty(t, shown)
	for _, s := range shown {
		line, ours := strings.CutPrefix(s.command, "go run ./cmd/")
		if !ours {
			assert.Equal(t, "go test ./...", s.command, "a command that no test runs")
			continue
		}
		t.Run(line, func(t *testing.T) {
			args, in := typed(t, line)
			var out, errOut bytes.Buffer
			assert.Equal(t, codeFine, Main(args, in, &out, &errOut), "%s", &errOut)
			printed := strings.Split(out.String(), "\n")
			for _, want := range s.output {
				at := -1
				for i, line := range printed {
					if line == want {
						at = i
						break
					}
				}
				if !assert.GreaterOrEqual(t, at, 0, "README shows %q, which is not printed (there)", want) {
					return
				}
				printed = printed[at+1:]
			}
		})
	}
}

// shownRun is a command of the README and lines that it prints.
type shownRun struct {
	command string
	output  []string
}

// console gathers the commands of the console blocks.
func console(text string) []shownRun {
	var runs []shownRun
	inside := false
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		command, isCommand := strings.CutPrefix(line, "$ ")
		switch {
		case strings.HasPrefix(line, "```"):
			inside = line == "```console"
		case inside && isCommand:
			runs = append(runs, shownRun{command: command})
		case inside && line != "…" && line != "" && len(runs) > 0:
			last := &runs[len(runs)-1]
			last.output = append(last.output, line)
		}
	}
	return runs
}
