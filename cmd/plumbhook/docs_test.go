package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// docsPages are the pages of docs/ that show commands, from the top folder.
func docsPages(t *testing.T) []string {
	t.Helper()
	pages, err := filepath.Glob("docs/*.md")
	require.NoError(t, err)
	pages = slices.DeleteFunc(pages, func(name string) bool {
		return slices.Contains([]string{"load-file.md", "bid.md"}, filepath.Base(name)) // made from tables
	})
	require.NotEmpty(t, pages)
	return pages
}

// TestDocsRun runs each command that a page of docs/ shows in a console block,
// in a copy of docs/loads, and finds what stands under it in what it prints:
// whole lines, one after the other, but for "…", which stands for any number
// of lines. "echo $?" shows the exit code of the command before it; without it
// the command must have gone well.
func TestDocsRun(t *testing.T) {
	t.Chdir(root)
	loads, err := filepath.Abs("docs/loads")
	require.NoError(t, err)
	for _, page := range docsPages(t) {
		t.Run(filepath.Base(page), func(t *testing.T) {
			text, err := os.ReadFile(page)
			require.NoError(t, err)
			shown := shownBlocks(string(text))
			if !strings.HasSuffix(page, "method.md") {
				require.NotEmpty(t, shown, "a page without a command")
			}
			copied := t.TempDir()
			require.NoError(t, os.CopyFS(copied, os.DirFS(loads)))
			t.Chdir(copied)
			ran := map[string]*shownRunning{}
			for _, s := range shown {
				if ran[s.command] == nil {
					ran[s.command] = runShown(t, s.command)
				}
				ran[s.command].shows(t, s)
			}
		})
	}
}

// shownRunning is what a command of a page printed, line by line, and its exit code.
type shownRunning struct {
	printed []string
	code    int
}

// runShown runs a command of a page.
func runShown(t *testing.T, command string) *shownRunning {
	t.Helper()
	args, in := typed(t, command)
	var out, errOut bytes.Buffer
	code := Main(args, in, &out, &errOut)
	return &shownRunning{strings.Split(out.String()+errOut.String(), "\n"), code}
}

// shows holds what a page shows of a command against what it printed.
func (r *shownRunning) shows(t *testing.T, s shownBlock) {
	t.Helper()
	assert.Equal(t, s.code, r.code, "exit code of %q", s.command)
	rest := r.printed
	for _, piece := range s.pieces {
		at := find(rest, piece)
		if !assert.GreaterOrEqual(t, at, 0, "%q does not print (there):\n%s", s.command, strings.Join(piece, "\n")) {
			return
		}
		rest = rest[at+len(piece):]
	}
}

// find returns where the lines of the piece stand one after the other, or -1.
func find(lines, piece []string) int {
	for at := 0; at+len(piece) <= len(lines); at++ {
		if slices.Equal(lines[at:at+len(piece)], piece) {
			return at
		}
	}
	return -1
}

// shownBlock is a command of a page, the pieces that it shows of what the
// command prints, and the exit code.
type shownBlock struct {
	command string
	pieces  [][]string
	code    int
}

// shownBlocks gathers the commands of the console blocks of a page.
func shownBlocks(page string) []shownBlock {
	var blocks []shownBlock
	inside, code, open := false, false, false
	for line := range strings.Lines(page) {
		line = strings.TrimSuffix(line, "\n")
		command, isCommand := strings.CutPrefix(line, "$ ")
		switch {
		case strings.HasPrefix(line, "```"):
			inside, code, open = line == "```console", false, false
		case !inside:
		case isCommand && command == "echo $?":
			code = true
		case isCommand:
			blocks, open = append(blocks, shownBlock{command: command}), false
		case code:
			blocks[len(blocks)-1].code, _ = strconv.Atoi(line)
		case line == "…":
			open = false
		default:
			last := &blocks[len(blocks)-1]
			if !open {
				last.pieces, open = append(last.pieces, nil), true
			}
			n := len(last.pieces) - 1
			last.pieces[n] = append(last.pieces[n], line)
		}
	}
	return blocks
}

// TestDocsShowTheirLoadFiles: each yaml block of a page stands, line for line,
// in a load file of docs/loads.
func TestDocsShowTheirLoadFiles(t *testing.T) {
	t.Chdir(root)
	names, err := filepath.Glob("docs/loads/*")
	require.NoError(t, err)
	var files [][]string
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		files = append(files, strings.Split(string(text), "\n"))
	}
	for _, page := range docsPages(t) {
		text, err := os.ReadFile(page)
		require.NoError(t, err)
		for _, block := range loadBlocks(string(text)) {
			found := slices.ContainsFunc(files, func(lines []string) bool { return find(lines, block) >= 0 })
			assert.True(t, found, "%s: no file of docs/loads has these lines:\n%s", page, strings.Join(block, "\n"))
		}
	}
}

// loadBlocks returns the lines of each yaml and csv block of a page.
func loadBlocks(page string) [][]string {
	var blocks [][]string
	inside := false
	for line := range strings.Lines(page) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case strings.HasPrefix(line, "```"):
			inside = line == "```yaml" || line == "```csv"
			if inside {
				blocks = append(blocks, nil)
			}
		case inside:
			blocks[len(blocks)-1] = append(blocks[len(blocks)-1], line)
		}
	}
	return blocks
}

// TestDocsPictures makes each picture of docs/pictures from the load file of
// its name and compares it with the one that is there. With -update it is
// written anew.
func TestDocsPictures(t *testing.T) {
	t.Chdir(filepath.Join(root, "docs", "pictures"))
	names, err := filepath.Glob("*.svg")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, name := range names {
		load := filepath.Join("..", "loads", strings.TrimSuffix(name, ".svg")+".yaml")
		if _, err := os.Stat(load); err != nil {
			load = strings.TrimSuffix(load, ".yaml") + ".csv"
		}
		made := filepath.Join(t.TempDir(), name)
		var out, errOut bytes.Buffer
		code := Main([]string{"sheet", load, "--show", "metric", "-o", made}, &out, &out, &errOut)
		require.Contains(t, []int{codeFine, codeNotAcceptable}, code, "%s", &errOut)
		got, err := os.ReadFile(made)
		require.NoError(t, err)
		if *update {
			require.NoError(t, os.WriteFile(name, got, 0o644))
		}
		want, err := os.ReadFile(name)
		require.NoError(t, err)
		require.Equal(t, withoutProgram(want), withoutProgram(got), "docs/pictures/%s is not current: run make pictures and look at it", name)
	}
}

// withoutProgram leaves out which edition of the program made a picture.
func withoutProgram(svg []byte) string {
	return regexp.MustCompile(`Program: plumbhook [^<]*`).ReplaceAllString(string(svg), "")
}

// TestDocsLinks: what a page of docs/ or the README links to in this folder is there.
func TestDocsLinks(t *testing.T) {
	t.Chdir(root)
	for _, page := range append(docsPages(t), "README.md") {
		text, err := os.ReadFile(page)
		require.NoError(t, err)
		for _, rest := range strings.Split(string(text), "](")[1:] {
			target, _, _ := strings.Cut(rest, ")")
			target, _, _ = strings.Cut(target, "#")
			if target == "" || strings.Contains(target, "://") {
				continue
			}
			_, err := os.Stat(filepath.Join(filepath.Dir(page), target))
			assert.NoError(t, err, "%s links to it", page)
		}
	}
}
