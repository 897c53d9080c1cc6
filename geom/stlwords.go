package geom

import (
	"bytes"
	"errors"
	"fmt"
	"io"
)

const longestWord = 1 << 10 // no number or keyword comes near it

// wordReader splits a text file into words and counts lines, whether they end
// in LF, CR or CR LF.
type wordReader struct {
	in         io.Reader
	buf        []byte
	from, to   int  // what is left to read is buf[from:to]
	line       int  // of the word that was read last, from 1
	carriage   bool // the last byte was CR, so an LF now belongs to it
	ended      bool // `in` has no more
	err        error
	emptyReads int
}

func newWordReader(in io.Reader) *wordReader {
	w := &wordReader{in: in, buf: make([]byte, 64<<10), line: 1}
	for w.to < len(byteOrderMark) && w.fill() {
	}
	if bytes.HasPrefix(w.buf[:w.to], byteOrderMark) {
		w.from = len(byteOrderMark)
	}
	return w
}

// fill moves what is left to the front and reads more behind it. It returns
// false when nothing more will come.
func (w *wordReader) fill() bool {
	if w.ended {
		return false
	}
	w.to = copy(w.buf, w.buf[w.from:w.to])
	w.from = 0
	n, err := w.in.Read(w.buf[w.to:])
	w.to += n
	if n == 0 && err == nil {
		if w.emptyReads++; w.emptyReads > 100 {
			err = io.ErrNoProgress
		}
	} else {
		w.emptyReads = 0
	}
	if err != nil {
		w.ended = true
		if !errors.Is(err, io.EOF) {
			w.err = readFault(err)
		}
	}
	return n > 0 || !w.ended
}

// next returns the next word, which is valid until the next call, or nil at
// the end of the file or after an error, which is then in err.
func (w *wordReader) next() []byte {
	if !w.skipBlanks() {
		return nil
	}
	size := 0
	for {
		for ; w.from+size < w.to; size++ {
			if isBlank(w.buf[w.from+size]) {
				return w.take(size)
			}
		}
		if size > longestWord {
			w.err = &FileError{Line: w.line, Msg: fmt.Sprintf("a word of more than %d characters, which begins with %s", longestWord, quoted(w.take(size))),
				Fix: "the file is damaged or of another kind: " + fixExport}
			return nil
		}
		if !w.fill() {
			break
		}
	}
	if w.err != nil {
		return nil
	}
	return w.take(size)
}

func (w *wordReader) take(size int) []byte {
	word := w.buf[w.from : w.from+size]
	w.from += size
	w.carriage = false
	return word
}

func (w *wordReader) skipBlanks() bool {
	for {
		for ; w.from < w.to; w.from++ {
			c := w.buf[w.from]
			if !isBlank(c) {
				return true
			}
			w.count(c)
		}
		if !w.fill() {
			return false
		}
	}
}

// count counts a line at its end.
func (w *wordReader) count(blank byte) {
	if blank == '\r' || blank == '\n' && !w.carriage {
		w.line++
	}
	w.carriage = blank == '\r'
}

// restOfLine returns what is left of the line, without its end, and at most a
// thousand bytes of it.
func (w *wordReader) restOfLine() []byte {
	var rest []byte
	for {
		left := w.buf[w.from:w.to]
		end := bytes.IndexAny(left, "\r\n")
		part := left
		if end >= 0 {
			part = left[:end]
		}
		rest = append(rest, part[:min(len(part), longestWord-len(rest))]...)
		w.from += len(part)
		if end >= 0 || !w.fill() {
			return rest
		}
	}
}
