package units

import (
	"fmt"
	"regexp"
	"strings"
)

var times = regexp.MustCompile(`[xX×]`)

// ParseSize reads n lengths with an x between them: 2400 x 1200 x 20. Each may
// carry its unit; a bare one takes the unit bare. Where only the last carries a
// unit (2400 x 1200 x 20 mm) it counts for all, unless another unit is stated
// for bare numbers: then it is doubtful, and refused. The error is a
// *[ParseError].
func ParseSize(text string, bare LengthUnit, n int) ([]Length, error) {
	if size := bareSize(text, bare, n); size != nil {
		return size, nil
	}
	if len(text) > longest {
		return nil, wrong(text[:20]+"...", "too long for a size", "write the size in at most 200 characters")
	}
	if strings.TrimSpace(text) == "" {
		return nil, wrong(text, "empty value where a size is expected", "write "+sizeExample(n))
	}
	if hexadecimal.MatchString(text) {
		return nil, wrong(text, "a zero in a size, or a hexadecimal number", "write "+sizeExample(n))
	}
	pieces := times.Split(text, -1)
	if len(pieces) != n {
		return nil, wrong(text, fmt.Sprintf("a size of %d lengths where %d are expected", len(pieces), n), "write "+sizeExample(n))
	}
	bare, err := unitForAll(text, pieces, bare)
	if err != nil {
		return nil, err
	}
	size := make([]Length, n)
	for i, piece := range pieces {
		if size[i], err = ParseLength(piece, bare); err != nil {
			return nil, err
		}
	}
	return size, nil
}

// bareSize reads a size of plain numbers, as nearly all are; nil for any other.
func bareSize(text string, bare LengthUnit, n int) []Length {
	size := make([]Length, n)
	for i := range size {
		piece, rest, more := strings.Cut(text, "x")
		length, ok := bareDecimal(strings.TrimSpace(piece), bare)
		if !ok || length == 0 || more != (i < n-1) {
			return nil
		}
		size[i], text = length, rest
	}
	return size
}

// sizeExample returns a size of n lengths, as an example.
func sizeExample(n int) string {
	example := []string{"2400", "1200", "20"}
	if n < 1 || n > 3 {
		return fmt.Sprintf("%d lengths with an x between them", n)
	}
	return strings.Join(example[:n], " x ") + " mm"
}

// unitForAll returns the unit of the bare numbers in a size.
func unitForAll(text string, pieces []string, bare LengthUnit) (LengthUnit, error) {
	last := len(pieces) - 1
	named := 0
	for _, piece := range pieces {
		if _, written := splitUnit(plainForms.Replace(piece)); written != "" {
			named++
		}
	}
	_, written := splitUnit(strings.TrimSpace(plainForms.Replace(pieces[last])))
	if written == "" || named == len(pieces) {
		return bare, nil
	}
	all, ok := lengths.find(written)
	if !ok {
		// A faulty last length gets its own message where it is read.
		if _, err := ParseLength(pieces[last], bare); err != nil {
			return bare, err
		}
		return bare, wrong(text, "some lengths of the size have a unit and some have none", "write the unit after each")
	}
	metres, _ := all.value().Float64()
	if named > 1 || bare.Metres != 0 && bare.Metres != metres { // which one counts for the bare lengths?
		return bare, wrong(text, "doubtful units: "+all.name+" after the last length, none after others",
			"write the unit after each, for example "+unitAfterEach(pieces, all.name))
	}
	return LengthUnit{Name: all.name, Metres: metres}, nil
}

// unitAfterEach writes the size with the unit after each bare number.
func unitAfterEach(pieces []string, name string) string {
	out := make([]string, len(pieces))
	for i, piece := range pieces {
		out[i] = strings.TrimSpace(piece)
		if _, written := splitUnit(out[i]); written == "" {
			out[i] += " " + name
		}
	}
	return strings.Join(out, " x ")
}
