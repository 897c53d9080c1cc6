package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/testscript"
)

// exits runs a command that must end with a code: exits 3 plumbhook weigh a.yaml
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	err := ts.Exec(args[1], args[2:]...)
	code := 0
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		code = exit.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if strconv.Itoa(code) != args[0] {
		ts.Fatalf("exit code %d, want %s", code, args[0])
	}
}

// hasKeys sees that a file (or stdout) is one JSON document with all the keys;
// a dot goes down a level, a number into a list. A key may have a value:
// json stdout schema=plumbhook/1 legs.0.pick=A
func hasKeys(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: json FILE KEY[=VALUE]...")
	}
	decoder := json.NewDecoder(strings.NewReader(ts.ReadFile(args[0])))
	decoder.UseNumber()
	var doc any
	ts.Check(decoder.Decode(&doc))
	if _, err := decoder.Token(); err != io.EOF {
		ts.Fatalf("more than one document")
	}
	for _, want := range args[1:] {
		path, value, given := strings.Cut(want, "=")
		at := doc
		for key := range strings.SplitSeq(path, ".") {
			var ok bool
			if at, ok = down(at, key); !ok {
				ts.Fatalf("no %q in %q", key, path)
			}
		}
		if got, _ := json.Marshal(at); given && strings.Trim(string(got), `"`) != value {
			ts.Fatalf("%s is %s, want %s", path, got, value)
		}
	}
}

// down goes one level into a document.
func down(at any, key string) (any, bool) {
	switch v := at.(type) {
	case map[string]any:
		next, ok := v[key]
		return next, ok
	case []any:
		if i, err := strconv.Atoi(key); err == nil && i < len(v) {
			return v[i], true
		}
	}
	return nil, false
}

// narrowLines sees that no line of a file (or stdout) is over 80 characters.
func narrowLines(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: narrow FILE")
	}
	for line := range strings.Lines(ts.ReadFile(args[0])) {
		if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > 80 {
			ts.Fatalf("%d characters: %s", n, line)
		}
	}
}

// countLines sees how many lines of a file (or stdout) hold a text.
func countLines(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: lines FILE TEXT NUMBER")
	}
	n := 0
	for line := range strings.Lines(ts.ReadFile(args[0])) {
		if strings.Contains(line, args[1]) {
			n++
		}
	}
	if strconv.Itoa(n) != args[2] {
		ts.Fatalf("%d lines hold %q, want %s", n, args[1], args[2])
	}
}
