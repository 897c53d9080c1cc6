package density

import (
	"errors"
	"strings"
	"unicode"

	"plumbhook/units"
)

// request is the designation of a section that is computed from its sizes.
type request struct {
	name     string // as asked for
	word     string // the letters before the sizes: shs, hss, roundbar
	sizes    string // the sizes with their x and units
	standard string // of a hollow section, where one is named
}

// makers says who computes what.
var makers = map[string]func(request) (Section, error){
	"shs": metricHollow, "cfshs": metricHollow, "hfshs": metricHollow,
	"rhs": metricHollow, "cfrhs": metricHollow, "hfrhs": metricHollow,
	"chs": metricHollow, "cfchs": metricHollow, "hfchs": metricHollow, "tube": metricHollow, "pipe": metricHollow,
	"hss":   hss,
	"round": bar, "roundbar": bar, "rod": bar, "ø": bar,
	"square": bar, "squarebar": bar,
	"flat": bar, "flatbar": bar,
}

// finishes are the words for a standard of hollow sections, longest first.
var finishes = []struct{ words, standard string }{
	{"en 10210-2", hotFinished}, {"en10210-2", hotFinished}, {"en 10210", hotFinished}, {"en10210", hotFinished},
	{"en 10219-2", coldFormed}, {"en10219-2", coldFormed}, {"en 10219", coldFormed}, {"en10219", coldFormed},
	{"hot finished", hotFinished}, {"hot-finished", hotFinished}, {"hot", hotFinished},
	{"cold formed", coldFormed}, {"cold-formed", coldFormed}, {"cold", coldFormed},
	{"en 10220", ""}, {"en10220", ""},
}

// computedSection computes a hollow section or a bar. It is false where the
// name is of neither.
func computedSection(name string) (Section, bool, error) {
	r := request{name: name}
	text := strings.TrimSpace(tidySection(name))
	for _, f := range finishes {
		if before, ok := strings.CutSuffix(text, f.words); ok {
			text, r.standard = before, f.standard
			break
		}
		if after, ok := strings.CutPrefix(text, f.words); ok {
			text, r.standard = after, f.standard
			break
		}
	}
	start := strings.IndexAny(text, "0123456789.")
	if start <= 0 {
		return Section{}, false, nil
	}
	for _, letter := range text[:start] {
		switch {
		case unicode.IsLetter(letter):
			r.word += string(letter)
		case !unicode.IsSpace(letter) && letter != '-':
			return Section{}, false, nil
		}
	}
	r.sizes = strings.TrimSpace(text[start:])
	compute, ok := makers[r.word]
	if !ok || r.word == "pipe" && strings.Contains(r.sizes, "sch") {
		return Section{}, false, nil
	}
	if r.standard == "" && strings.HasPrefix(r.word, "hf") {
		r.standard = hotFinished
	}
	if r.standard == "" && strings.HasPrefix(r.word, "cf") {
		r.standard = coldFormed
	}
	s, err := compute(r)
	return s, err == nil, err
}

func (r request) round() bool {
	return strings.HasSuffix(r.word, "chs") || r.word == "tube" || r.word == "pipe"
}

// parse reads n sizes into metres.
func (r request) parse(bare units.LengthUnit, n int) ([]float64, error) {
	lengths, err := units.ParseSize(r.sizes, bare, n)
	if err != nil {
		return nil, sizeError(r.name, err)
	}
	var size []float64
	for _, l := range lengths {
		if l <= 0 {
			return nil, &SizeError{r.name, "a size that is not above 0", "write the sizes as in SHS 100x100x5, CHS 168.3x5.6, round 20"}
		}
		size = append(size, float64(l))
	}
	return size, nil
}

// sizeError puts what is wrong with a size under the name of the section.
func sizeError(name string, err error) error {
	mend := "write the sizes as in SHS 100x100x5, CHS 168.3x5.6, HSS4x4x1/4, round 20"
	if p := (*units.ParseError)(nil); errors.As(err, &p) {
		return &SizeError{name, p.Error(), mend + " (" + p.Fix + ")"}
	}
	return &SizeError{name, err.Error(), mend}
}
