package lift

import (
	"errors"
	"fmt"
	"io/fs"

	"plumbhook/takeoff"
)

// Schema names the form of the JSON results.
const Schema = "plumbhook/1"

// Header is on every result.
type Header struct {
	Schema      string    `json:"schema"`
	Load        string    `json:"load"`
	State       string    `json:"state,omitempty"` // the one that these figures are of; empty: as drawn
	Drawing     string    `json:"drawing,omitempty"`
	Datum       string    `json:"datum,omitempty"`
	InputSHA256 string    `json:"input_sha256"`
	Program     string    `json:"program,omitempty"` // its version, where the command line knows it
	Verdict     Verdict   `json:"verdict"`
	Warnings    []Warning `json:"warnings"`
	Errors      []Problem `json:"errors"`
	Assumptions []string  `json:"assumptions"` // defaults that were taken

	Tables map[string]string `json:"tables,omitempty"` // edition of each table in the program, with the trace
	Trace  []Traced          `json:"trace,omitempty"`  // where each figure comes from, where asked for
}

// Head returns what is on every result.
func (h *Header) Head() *Header { return h }

// Verdict says whether the lift as described may be made, and if not why.
type Verdict struct {
	Acceptable bool     `json:"acceptable"`
	Reasons    []string `json:"reasons"`
}

// Warning is something that an expert would frown at.
type Warning struct {
	Code string `json:"code"`
	Text string `json:"text"`
	Fix  string `json:"fix"`
}

// Problem is a fault of the input.
type Problem struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Cell   string `json:"cell"`
	Text   string `json:"text"`
	Fix    string `json:"fix"`
}

// Failed is the result of an input that can't be used.
type Failed struct {
	Header
}

// ErrProgram marks a fault of the program, not of the input: what it found
// must not be relied on.
var ErrProgram = errors.New("the program failed")

func newHeader(l *takeoff.Load) Header {
	h := Header{Schema: Schema, Load: l.Name, State: l.State, Drawing: l.Drawing, Datum: l.Datum, InputSHA256: l.SHA256,
		Verdict: Verdict{Acceptable: true, Reasons: []string{}}, Warnings: []Warning{}, Errors: []Problem{}, Assumptions: []string{}}
	for _, w := range l.Warnings {
		if w.Note {
			continue // check lists it
		}
		text := w.Text
		if w.Part != "" {
			text = w.Part + ": " + text
		}
		h.warn(w.Code, text, w.Fix)
	}
	return h
}

func (h *Header) warn(code, text, fix string) {
	if h.warned(code, text) {
		return
	}
	h.Warnings = append(h.Warnings, Warning{code, text, fix})
}

// warned tells whether a warning has been given already.
func (h *Header) warned(code, text string) bool {
	for _, w := range h.Warnings {
		if w.Code == code && w.Text == text {
			return true
		}
	}
	return false
}

// refuse makes the lift not acceptable.
func (h *Header) refuse(format string, args ...any) {
	h.Verdict.Acceptable = false
	h.Verdict.Reasons = append(h.Verdict.Reasons, fmt.Sprintf(format, args...))
}

func (h *Header) assume(format string, args ...any) {
	h.Assumptions = append(h.Assumptions, fmt.Sprintf(format, args...))
}

// Strict counts every warning as a reason against the lift.
func (h *Header) Strict() {
	for _, w := range h.Warnings {
		h.refuse("warning counted by --strict: %s", w.Text)
	}
}

// Fail turns what reading an input returned into a result.
func Fail(err error) Failed {
	f := Failed{Header{Schema: Schema, Verdict: Verdict{Reasons: []string{}}, Warnings: []Warning{}, Errors: []Problem{}, Assumptions: []string{}}}
	var problems takeoff.Problems
	var missing *fs.PathError
	switch {
	case errors.As(err, &problems):
		for _, p := range problems {
			f.Errors = append(f.Errors, Problem{p.File, p.Line, p.Column, p.Cell, p.Text, p.Fix})
		}
	case errors.As(err, &missing):
		f.Errors = append(f.Errors, Problem{File: missing.Path, Text: missing.Err.Error(), Fix: "see that the file is there and may be read"})
	default:
		f.Errors = append(f.Errors, Problem{Text: err.Error(), Fix: ""})
	}
	f.Verdict.Reasons = append(f.Verdict.Reasons, "the input can't be used: see errors")
	return f
}

// bad is a fault of the input that shows only once it is put together.
func bad(l *takeoff.Load, line int, text, fix string) error {
	return takeoff.Problems{{File: l.File, Line: line, Text: text, Fix: fix}}
}
