package units

import "fmt"

// ParseError is what is wrong with a quantity, as the user wrote it. The caller
// that knows the file adds the place.
type ParseError struct {
	Got string // the user's own words
	Msg string // what is wrong
	Fix string // what to write instead
}

// Error returns Msg followed by the user's words in quotes; Fix is kept apart,
// so that a caller can print it on its own line.
func (e *ParseError) Error() string { return fmt.Sprintf("%s: %q", e.Msg, e.Got) }

// quoting puts the whole of what the user wrote into the error about a piece.
func quoting(got string, err error) error {
	if piece, ok := err.(*ParseError); ok {
		return wrong(got, piece.Msg, piece.Fix)
	}
	return err
}

// wrong makes a ParseError about got.
func wrong(got, msg, fix string) *ParseError { return &ParseError{Got: got, Msg: msg, Fix: fix} }
