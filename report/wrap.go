package report

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// glue is a space at which no line is broken. It is printed as a plain space.
const glue = "\u00a0"

// figure finds the spaces inside a figure: between thousands, before a unit,
// and between feet and inches.
var figure = regexp.MustCompile(`(\d) (\d{3}\b|kg\b|lb|kN\b|N\b|mm\b|m\b|m³|ft\b|t\b|%|°)|(\d') (\d)`)

// glued keeps a text on one line.
func glued(text string) string { return strings.ReplaceAll(text, " ", glue) }

// clean makes a text fit to print: line breaks and tabs become spaces, what
// can't be printed is replaced, so that a name in a file can't steer a
// terminal.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			return ' '
		case !unicode.IsGraphic(r):
			return utf8.RuneError
		}
		return r
	}, text)
}

// tied is a clean text whose figures keep to their units.
func tied(text string) string {
	text = clean(text)
	for range 2 { // twice: the digit after one gap stands before the next
		text = figure.ReplaceAllString(text, "$1$3"+glue+"$2$4")
	}
	return text
}

// wrap breaks a text at its spaces into lines of at most width characters,
// the first one less by first. A longer word is broken where it must be.
func wrap(text string, first, width int) []string {
	text = tied(text)
	var lines []string
	line, room := "", width-first
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }) {
		if line != "" && length(line)+1+length(word) <= room {
			line += " " + word
			continue
		}
		if line != "" {
			lines, line, room = append(lines, line), "", width
		}
		for length(word) > room {
			head, tail := cut(word, room)
			lines, word, room = append(lines, head), tail, width
		}
		line = word
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	for i, l := range lines {
		lines[i] = strings.ReplaceAll(l, glue, " ")
	}
	return lines
}

// length counts characters.
func length(s string) int { return utf8.RuneCountInString(s) }

// cut splits a word after at most n characters, at a glued space if there is
// one.
func cut(word string, n int) (head, tail string) {
	r := []rune(word)
	head, tail = string(r[:n]), string(r[n:])
	if at := strings.LastIndex(head, glue); at > 0 {
		return head[:at], head[at+len(glue):] + tail
	}
	return head, tail
}

// padded fills a text with spaces to a width.
func padded(text string, width int, right bool) string {
	gap := strings.Repeat(" ", max(0, width-length(text)))
	if right {
		return gap + text
	}
	return text + gap
}
