package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"plumbhook/lift"
	"plumbhook/units"
)

// Options say how text looks. The zero value is the default: both systems of
// units, 80 columns, no colour.
type Options struct {
	Show    units.Show
	Width   int    // columns of a line, in characters; less than 80 is taken as 80
	Color   bool   // colour the verdict and the words yes, care and no; they are there without it too
	Version string // of the program, printed with the title; empty: left out
}

// leastWidth is the width that the tables are laid out for.
const leastWidth = 80

// Text prints a result of package lift, [Materials] or [Sections], for a person
// to read. A lift that is not acceptable begins with the words NOT ACCEPTABLE
// and the reasons. A [lift.Failed] has no figures and prints nothing: its problems are
// not part of a report.
func Text(w io.Writer, result any, opt Options) error {
	p := newPage(opt)
	switch r := result.(type) {
	case lift.Checked:
		p.checked(r)
	case lift.Weighed:
		p.weighed(r)
	case lift.Dip:
		p.dip(r)
	case lift.Picked:
		p.picked(r)
	case lift.Hung:
		p.hung(r)
	case lift.Slung:
		p.slung(r)
	case lift.LiftSheet:
		p.sheet(r)
	case lift.Verified:
		p.verified(r)
	case lift.BidResult:
		p.bid(r)
	case lift.Compared:
		p.revision(r)
	case Materials:
		p.materials(r)
	case Sections:
		p.sections(r)
	case lift.Failed:
		return nil
	default:
		return fmt.Errorf("report: no text for a %T", result)
	}
	_, err := io.WriteString(w, p.text())
	return err
}

// JSON prints a result as one indented document in SI and with all digits. A
// result that holds NaN or infinity is an error, and then nothing is printed.
func JSON(w io.Writer, result any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(result); err != nil {
		if bad := (*json.UnsupportedValueError)(nil); errors.As(err, &bad) {
			return fmt.Errorf("report: the result holds %s, which is no figure: %w", bad.Str, lift.ErrProgram)
		}
		return fmt.Errorf("report: %w", err)
	}
	_, err := w.Write(visible(b.Bytes()))
	return err
}

// visible writes what can't be seen in a JSON document by its number, as \u202e, which
// means the same: the document may be shown on a terminal. Such stands in texts alone.
func visible(doc []byte) []byte {
	var out []byte
	kept := 0
	for at, c := range string(doc) {
		if c == '\n' || c == utf8.RuneError || unicode.IsGraphic(c) {
			continue
		}
		out = append(out, doc[kept:at]...)
		for _, half := range utf16.Encode([]rune{c}) {
			out = fmt.Appendf(out, `\u%04x`, half)
		}
		kept = at + utf8.RuneLen(c)
	}
	if kept == 0 {
		return doc
	}
	return append(out, doc[kept:]...)
}
