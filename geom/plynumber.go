package geom

import (
	"fmt"
	"math"
)

// raw returns the next number of a binary file; false at its end.
func (r *plyReader) raw(kind plyType) (float64, bool) {
	b, ok := r.words.bytes(kind.size)
	if !ok {
		return 0, false
	}
	switch kind {
	case plyType{1, true, false}:
		return float64(int8(b[0])), true
	case plyType{1, false, false}:
		return float64(b[0]), true
	case plyType{2, true, false}:
		return float64(int16(r.order.Uint16(b))), true
	case plyType{2, false, false}:
		return float64(r.order.Uint16(b)), true
	case plyType{4, true, false}:
		return float64(int32(r.order.Uint32(b))), true
	case plyType{4, false, false}:
		return float64(r.order.Uint32(b)), true
	case plyType{4, true, true}:
		return float64(math.Float32frombits(r.order.Uint32(b))), true
	}
	return math.Float64frombits(r.order.Uint64(b)), true
}

// cutOff is the error for a piece of which a part is missing.
func (r *plyReader) cutOff() error {
	if r.words.err != nil {
		return r.words.err
	}
	if r.order == nil {
		return r.fault(fmt.Sprintf("the line ends before the last number that the header announces for %q", r.element), fixPLY)
	}
	return r.fault("the file ends within it: it is cut off", fixPLY)
}

func (r *plyReader) coordinate(kind plyType, axis int) (float64, error) {
	if r.order != nil {
		c, ok := r.raw(kind)
		if !ok {
			return 0, r.cutOff()
		}
		if !(math.Abs(c) <= mostCoordinate) { // NaN fails too
			return 0, r.fault(fmt.Sprintf("%c %s", "xyz"[axis], coordinateFault(c)), fixPLY)
		}
		return c, nil
	}
	word := r.words.wordOnLine()
	if word == nil {
		return 0, r.cutOff()
	}
	c, msg := parseCoordinate(word)
	if msg != "" {
		return 0, r.fault(fmt.Sprintf("%c of a vertex, %s, %s", "xyz"[axis], quoted(word), msg), fixNumber)
	}
	return c, nil
}

// integer reads a number of a type that holds whole numbers.
func (r *plyReader) integer(kind plyType) (int, error) {
	if r.order != nil {
		n, ok := r.raw(kind)
		if !ok {
			return 0, r.cutOff()
		}
		return int(n), nil
	}
	word := r.words.wordOnLine()
	if word == nil {
		return 0, r.cutOff()
	}
	n, ok := parseIndex(word)
	if !ok {
		return 0, r.fault(quoted(word)+" is not a whole number", fixPLY)
	}
	return n, nil
}

// pass reads a property that nothing is done with.
func (r *plyReader) pass(p plyProperty) error {
	n := 1
	if p.list {
		var err error
		if n, err = r.integer(p.length); err != nil {
			return err
		}
		if n < 0 {
			return r.fault(fmt.Sprintf("a list with %d numbers", n), fixPLY)
		}
	}
	for range n {
		passed := false
		if r.order == nil {
			passed = r.words.wordOnLine() != nil
		} else {
			_, passed = r.words.bytes(p.kind.size)
		}
		if !passed {
			return r.cutOff()
		}
	}
	return nil
}
