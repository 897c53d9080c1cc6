package geom

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
)

// readText reads every solid of a text file:
//
//	solid NAME
//	facet normal 0 0 1
//	  outer loop
//	    vertex 0 0 0
//	    vertex 1 0 0
//	    vertex 0 1 0
//	  endloop
//	endfacet
//	endsolid NAME
//
// The name is the rest of its line; elsewhere line ends are blanks like others.
//
// It reads word by word and knows the line of each, so that a fault is told with
// its place; [stlFile.quickText] is for files without one.
func readText(in io.Reader, lim Limits, add func(corners [3]Vec)) (STLInfo, error) {
	t := &textReader{words: newWordReader(in), add: add, most: lim.Triangles}
	for where := "at the start of the file"; ; where = "after the end of a solid" {
		switch word := t.next(); {
		case t.words.err != nil:
			return STLInfo{}, t.words.err
		case word == nil && t.info.Triangles > 0:
			return t.info, nil
		case word == nil:
			return STLInfo{}, &FileError{Line: t.words.line, Msg: "the file ends and has no facet", Fix: fixExport}
		case !isWord(word, "solid"):
			return STLInfo{}, t.unexpected(word, "solid", where)
		}
		if err := t.solid(); err != nil {
			return STLInfo{}, err
		}
	}
}

type textReader struct {
	words *wordReader
	add   func(corners [3]Vec)
	most  int
	info  STLInfo
	facet int // line that the present facet began on
}

func (t *textReader) next() []byte { return t.words.next() }

// solid reads from after "solid" to the end of the line of its "endsolid".
func (t *textReader) solid() error {
	began, before := t.words.line, t.info.Triangles
	name := printable(string(t.words.restOfLine()))
	if t.info.Name == "" {
		t.info.Name = name
	}
	for {
		word := t.next()
		switch {
		case isWord(word, "facet"):
			if err := t.readFacet(); err != nil {
				return err
			}
		case isWord(word, "endsolid"):
			t.words.restOfLine()
			if t.info.Triangles > before {
				t.info.Solids++
			}
			return nil
		default:
			return t.unexpected(word, "facet", fmt.Sprintf("or \"endsolid\" in the solid that begins on line %d", began))
		}
	}
}

// readFacet reads from after "facet" to its "endfacet".
func (t *textReader) readFacet() error {
	t.facet = t.words.line
	if t.info.Triangles >= t.most {
		fault := tooManyTriangles(t.most)
		fault.Line = t.facet
		return fault
	}
	if err := t.expect("normal"); err != nil {
		return err
	}
	for range 3 {
		if word := t.next(); !isNormalNumber(word) {
			return t.unexpected(word, "", "three numbers are expected for the normal")
		}
	}
	if err := t.expect("outer", "loop"); err != nil {
		return err
	}
	var corners [3]Vec
	for i := range corners {
		if err := t.vertex(&corners[i]); err != nil {
			return err
		}
	}
	if err := t.expect("endloop", "endfacet"); err != nil {
		return err
	}
	t.add(corners)
	t.info.Triangles++
	return nil
}

func (t *textReader) vertex(v *Vec) error {
	if err := t.expect("vertex"); err != nil {
		return err
	}
	for axis := range v {
		word := t.next()
		c, msg := parseCoordinate(word)
		switch {
		case msg != "" && (word == nil || isKeyword(word)):
			return t.unexpected(word, "", "three numbers are expected for a vertex")
		case msg != "":
			return t.fault(fmt.Sprintf("%c of a vertex, %s, %s", "xyz"[axis], quoted(word), msg),
				"write a plain decimal number such as 12.5 or 1.25e+01, or export the file again")
		}
		v[axis] = c
	}
	return nil
}

func (t *textReader) expect(wants ...string) error {
	for _, want := range wants {
		if word := t.next(); !isWord(word, want) {
			return t.unexpected(word, want, fmt.Sprintf("in the facet that begins on line %d (a facet has a normal and one loop of three vertices)", t.facet))
		}
	}
	return nil
}

// unexpected is the error for a word that does not belong where it stands; a
// nil word is the end of the file, or what made the reader stop.
func (t *textReader) unexpected(word []byte, want, where string) error {
	if t.words.err != nil {
		return t.words.err
	}
	if want != "" {
		want = fmt.Sprintf("expected %q ", want)
	}
	if word == nil {
		return t.fault(want+where+", found the end of the file",
			"the file looks cut off: copy or export it again; if it is whole, its last line must be \"endsolid\"")
	}
	return t.fault(want+where+", found "+quoted(word), "correct this line, or export the file again")
}

func (t *textReader) fault(msg, fix string) error {
	return &FileError{Line: t.words.line, Msg: msg, Fix: fix}
}

// parseCoordinate reads a decimal number in full precision, or says what is
// wrong with it. strconv alone would also take hexadecimal, "_" and "inf".
func parseCoordinate(word []byte) (float64, string) {
	if value, ok := plainDecimal(word); ok && math.Abs(value) <= mostCoordinate {
		return value, ""
	}
	for _, c := range word {
		switch {
		case c >= '0' && c <= '9', c == '.', c == '-', c == '+', c == 'e', c == 'E':
		case c == ',':
			return 0, "has a comma: the decimal sign in such a file is a point"
		case isSpecialNumber(word):
			return 0, "is not a finite number"
		default:
			return 0, "is not a number"
		}
	}
	value, err := strconv.ParseFloat(string(word), 64)
	if err != nil && !errors.Is(err, strconv.ErrRange) {
		return 0, "is not a number"
	}
	if !(math.Abs(value) <= mostCoordinate) {
		return 0, coordinateFault(value)
	}
	return value, ""
}

// isNormalNumber accepts what programs write for a normal, also "nan", "-inf"
// and "1.#IND" of a facet without area: normals are not used.
func isNormalNumber(word []byte) bool {
	if word == nil || isSpecialNumber(word) {
		return word != nil
	}
	if _, ok := plainDecimal(word); ok {
		return true
	}
	_, err := strconv.ParseFloat(string(word), 64)
	return err == nil || errors.Is(err, strconv.ErrRange)
}

// isSpecialNumber reports whether word is a spelling of NaN or infinity, with
// or without a sign: "nan", "NaN", "-nan(ind)", "inf", "Infinity", "1.#QNAN".
func isSpecialNumber(word []byte) bool {
	word = bytes.TrimLeft(word, "+-")
	if len(word) < 3 {
		return false
	}
	return isWord(word[:3], "nan") || isWord(word[:3], "inf") || string(word[:3]) == "1.#"
}

func isKeyword(word []byte) bool {
	for _, k := range []string{"vertex", "endloop", "endfacet", "endsolid", "facet", "solid"} {
		if isWord(word, k) {
			return true
		}
	}
	return false
}

// isWord compares without regard to case; want is in lower-case letters.
func isWord(word []byte, want string) bool {
	if len(word) != len(want) {
		return false
	}
	for i, c := range word {
		if c|0x20 != want[i] {
			return false
		}
	}
	return true
}

// quoted is a word as a message shows it: in quotes, control characters
// spelled out, and not longer than a line.
func quoted(word []byte) string {
	const most = 40
	if len(word) > most {
		return strconv.Quote(string(word[:most])) + "..."
	}
	return strconv.Quote(string(word))
}
