package geom

import (
	"bytes"
	"encoding/binary"
	"math"
)

// quickFacets are handed on at a time: few enough to stay in the cache, and a
// block of the sums.
const quickFacets = 500

// quickParser reads one run of plain text, from a place where a facet begins or,
// in the first run, from the start of the file.
type quickParser struct {
	text    []byte // with quickPad bytes more behind its end
	at, end int
	facets  [][3]Vec // read and not yet given
	give    func([][3]Vec)

	empty         bool // no facet begins in the run
	began, inside bool // within a solid, at the beginning and now
	held          bool // the present solid holds a facet
	count, solids int
	name          string
	err           error
}

// parse reads the run, and tells whether it was plain.
func (q *quickParser) parse() bool {
	if !q.inside && bytes.HasPrefix(q.text, byteOrderMark) {
		q.at = len(byteOrderMark)
	}
	for q.skip(); q.at < q.end; q.skip() {
		switch {
		case q.inside && wordFacet.stands(q.text, q.at):
			q.at += wordFacet.length
			if !q.facet() {
				return false
			}
		case q.inside && wordEndsolid.stands(q.text, q.at):
			q.at += wordEndsolid.length
			q.restOfLine()
			if q.held {
				q.solids++
			}
			q.inside = false
		case !q.inside && wordSolid.stands(q.text, q.at):
			q.at += wordSolid.length
			if name := q.restOfLine(); q.name == "" {
				q.name = printable(string(name[:min(len(name), longestWord)]))
			}
			q.inside, q.held = true, false
		default:
			return false
		}
	}
	q.handOn()
	return true
}

func (q *quickParser) handOn() {
	if len(q.facets) > 0 {
		q.give(q.facets)
		q.facets = q.facets[:0]
	}
}

// facet reads from after "facet" to its "endfacet".
func (q *quickParser) facet() bool {
	var f [3]Vec
	ok := q.word(&wordNormal) && q.normal() && q.word(&wordOuter) && q.word(&wordLoop) &&
		q.word(&wordVertex) && q.point(&f[0]) && q.word(&wordVertex) && q.point(&f[1]) && q.word(&wordVertex) && q.point(&f[2]) &&
		q.word(&wordEndloop) && q.word(&wordEndfacet)
	if !ok {
		return false
	}
	q.held = true
	q.count++
	if q.facets = append(q.facets, f); len(q.facets) == quickFacets {
		q.handOn()
	}
	return true
}

func (q *quickParser) skip() {
	at := q.at
	for isBlank(q.text[at]) && at < q.end {
		at++
	}
	q.at = at
}

func (q *quickParser) word(want *quickWord) bool {
	text, at := q.text, q.at
	for isBlank(text[at]) && at < q.end {
		at++
	}
	q.at = at + want.length
	return want.stands(text, at)
}

func (q *quickParser) point(v *Vec) bool {
	text, at := q.text, q.at
	for axis := range v {
		for isBlank(text[at]) && at < q.end {
			at++
		}
		value, to := quickNumber(text, at)
		if to == 0 || !(math.Abs(value) <= mostCoordinate) {
			return false
		}
		v[axis], at = value, to
	}
	q.at = at
	return true
}

// normal passes over the three numbers of a normal: they are not used.
func (q *quickParser) normal() bool {
	for range 3 {
		q.skip()
		if _, to := quickNumber(q.text, q.at); to > 0 {
			q.at = to
			continue
		}
		from := q.at
		for q.text[q.at] > ' ' && q.at-from <= longestWord {
			q.at++
		}
		if q.at == from || !isNormalNumber(q.text[from:q.at]) {
			return false
		}
	}
	return true
}

func (q *quickParser) restOfLine() []byte {
	rest := q.text[q.at:q.end]
	if end := bytes.IndexAny(rest, "\r\n"); end >= 0 {
		rest = rest[:end]
	}
	q.at += len(rest)
	return rest
}

// quickWord is a word of up to 8 letters, compared all at once.
type quickWord struct {
	letters, mask uint64
	length        int
}

var (
	wordSolid, wordEndsolid             = newQuickWord("solid"), newQuickWord("endsolid")
	wordFacet, wordEndfacet, wordNormal = newQuickWord("facet"), newQuickWord("endfacet"), newQuickWord("normal")
	wordOuter, wordLoop, wordEndloop    = newQuickWord("outer"), newQuickWord("loop"), newQuickWord("endloop")
	wordVertex                          = newQuickWord("vertex")
)

func newQuickWord(word string) quickWord {
	var letters [8]byte
	copy(letters[:], word)
	return quickWord{binary.LittleEndian.Uint64(letters[:]), 1<<(8*len(word)) - 1, len(word)}
}

// stands tells whether the word stands at a place, in any case of letters, with a
// blank or the end of the text behind it.
func (w *quickWord) stands(text []byte, at int) bool {
	got, end := binary.LittleEndian.Uint64(text[at:])|0x2020202020202020, at+w.length
	return got&w.mask == w.letters && (isBlank(text[end]) || end == len(text)-quickPad)
}

// quickNumber reads a decimal number with a blank or the end of the text behind
// it, and returns where it ends, 0 where it is not plain. It is [plainDecimal]
// without the search for the end of the word, and takes eight digits at once;
// what that can't read exactly goes to the standard parser.
func quickNumber(text []byte, at int) (value float64, to int) {
	start, minus := at, text[at] == '-'
	if minus || text[at] == '+' {
		at++
	}
	first := at
	digits := uint64(0)
	for ; text[at]-'0' < 10; at++ {
		digits = 10*digits + uint64(text[at]-'0')
	}
	length, power := at-first, 0
	if text[at] == '.' {
		at++
		from := at
		if eight, ok := eightDigits(binary.LittleEndian.Uint64(text[at:])); ok {
			digits = 1e8*digits + eight
			at += 8
		}
		for ; text[at]-'0' < 10; at++ {
			digits = 10*digits + uint64(text[at]-'0')
		}
		length += at - from
		power = from - at
	}
	if text[at]|0x20 == 'e' {
		written, end := quickPower(text, at+1)
		if end == 0 {
			return slowNumber(text, start)
		}
		power, at = power+written, end
	}
	if length == 0 || length > 19 || digits > 1<<53 || power < -22 || power > 22 || text[at] > ' ' {
		return slowNumber(text, start)
	}
	return shifted(digits, power, minus), at
}

// quickPower reads an exponent, without its e, of up to three digits.
func quickPower(text []byte, at int) (power, to int) {
	minus := text[at] == '-'
	if minus || text[at] == '+' {
		at++
	}
	from := at
	for ; text[at]-'0' < 10 && at-from < 4; at++ {
		power = 10*power + int(text[at]-'0')
	}
	if at == from || at-from > 3 {
		return 0, 0
	}
	if minus {
		power = -power
	}
	return power, at
}

// eightDigits reads eight decimal digits at once, the first in the lowest byte.
//
// Source: D. Lemire, "Number Parsing at a Gigabyte per Second", Software: Practice
// and Experience 51(8), 2021 (from memory).
func eightDigits(word uint64) (value uint64, ok bool) {
	const zeros, sixes, highs = 0x3030303030303030, 0x0606060606060606, 0xf0f0f0f0f0f0f0f0
	if word&highs != zeros || (word+sixes)&highs != zeros {
		return 0, false
	}
	word -= zeros
	word = 10*word + word>>8
	return ((word&0x000000ff000000ff)*(100+1000000<<32) + (word>>16&0x000000ff000000ff)*(1+10000<<32)) >> 32, true
}

// slowNumber reads a number of any length, of as many digits as there are.
func slowNumber(text []byte, at int) (value float64, to int) {
	to = at
	for to < len(text) && text[to] > ' ' && to-at <= longestWord {
		to++
	}
	value, fault := parseCoordinate(text[at:to])
	if fault != "" || to == at {
		return 0, 0
	}
	return value, to
}
