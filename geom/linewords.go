package geom

import "bytes"

// What wordReader does besides for files in which the end of a line matters.

// wordOnLine returns the next word of the line, or nil where the line ends.
func (w *wordReader) wordOnLine() []byte {
	for {
		for ; w.from < w.to; w.from++ {
			switch c := w.buf[w.from]; {
			case c == '\n' && w.carriage: // the second half of the line end before
			case c == '\n' || c == '\r':
				return nil
			case !isBlank(c):
				return w.next()
			}
			w.carriage = false
		}
		if !w.fill() {
			return nil
		}
	}
}

// skipLine goes to the start of the next line; false at the end of the file.
func (w *wordReader) skipLine() bool {
	for {
		for ; w.from < w.to; w.from++ {
			switch c := w.buf[w.from]; {
			case c == '\n' && w.carriage:
			case c == '\n' || c == '\r':
				w.from++
				w.count(c)
				return true
			}
			w.carriage = false
		}
		if !w.fill() {
			return false
		}
	}
}

// wholeLine returns a line without its end and without the blanks around it,
// at most a thousand bytes of it, and its number; false at the end of the file.
func (w *wordReader) wholeLine() (line string, number int, ok bool) {
	if w.nextIs('\n') && w.carriage {
		w.from++
	}
	w.carriage = false
	if _, more := w.peek(); !more {
		return "", w.line, false
	}
	number = w.line
	line = string(bytes.TrimSpace(w.restOfLine()))
	w.skipLine()
	return line, number, w.err == nil
}

// bytes returns the next n bytes, no more than a few, of a file that goes on
// in binary; false at its end. They are valid until the next call.
func (w *wordReader) bytes(n int) ([]byte, bool) {
	for w.to-w.from < n {
		if !w.fill() {
			return nil, false
		}
	}
	w.from += n
	return w.buf[w.from-n : w.from], true
}

// peek returns the next byte without passing it; false at the end of the file.
func (w *wordReader) peek() (c byte, ok bool) {
	for w.from == w.to {
		if !w.fill() {
			return 0, false
		}
	}
	return w.buf[w.from], true
}

func (w *wordReader) nextIs(want byte) bool {
	c, ok := w.peek()
	return ok && c == want
}
