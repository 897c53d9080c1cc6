package main

import (
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// plain writes messages such that nothing in them steers a terminal: they hold the
// names of files and what stands in them, which may have come from anywhere.
type plain struct{ out io.Writer }

func (p plain) Write(text []byte) (int, error) {
	if _, err := io.WriteString(p.out, printable(string(text))); err != nil {
		return 0, err
	}
	return len(text), nil
}

// printable replaces what can't be printed, and what is there but not seen.
func printable(text string) string {
	return strings.Map(func(c rune) rune {
		if c != '\n' && c != '\t' && !unicode.IsGraphic(c) {
			return utf8.RuneError
		}
		return c
	}, text)
}
