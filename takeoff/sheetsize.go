package takeoff

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/density"
	"plumbhook/units"
)

// sizeForm is one way to write a size in a sheet: a word, so many lengths with
// an x between them, and for long things the column of lengths.
type sizeForm struct {
	words []string // in lower case; "": the lengths alone
	sizes int
	long  bool // takes the column `length`
	kind  string
	shape func(a []float64, length float64) solidText
	means string // in words, with an example
}

// solidText is what stands after a kind of solid in a load file: sizes, or
// fields and their lengths, in metres.
type solidText struct {
	sizes  []float64
	fields []field
}

type field struct {
	name   string
	metres float64
}

// sizeForms is the table of sizes. What fits none of its rows is a designation.
var sizeForms = []sizeForm{
	{words: []string{"", "box"}, sizes: 3, kind: "box", shape: asSizes, means: "`2400 x 1200 x 20`: a box, its sides along x, y and z"},
	{words: []string{"plate"}, sizes: 3, kind: "plate", shape: asSizes, means: "`plate 2400 x 1200 x 20`: the same, its thickness last"},
	{words: []string{"plate"}, sizes: 2, long: true, kind: "plate", means: "`plate 1200 x 20` and a length: the length lies along x",
		shape: func(a []float64, l float64) solidText { return solidText{sizes: []float64{l, a[0], a[1]}} }},
	{words: []string{"pl"}, sizes: 3, kind: "plate", means: "`PL 20x500x1000`: a plate by its mark: the least size is its thickness, and it lies flat, the others along x and y",
		shape: func(a []float64, _ float64) solidText { return solidText{sizes: lying(a[0], a[1], a[2])} }},
	{words: []string{"pl"}, sizes: 2, long: true, kind: "plate", means: "`PL 20x500` and a length: the same, the length along x",
		shape: func(a []float64, l float64) solidText {
			return solidText{sizes: []float64{l, max(a[0], a[1]), min(a[0], a[1])}}
		}},
	{words: []string{"flat", "flat bar", "fl", "fb"}, sizes: 2, long: true, kind: "box", shape: asLong, means: "`flat 100 x 10` and a length"},
	{words: []string{"square", "square bar"}, sizes: 1, long: true, kind: "box", means: "`square 50` and a length",
		shape: func(a []float64, l float64) solidText { return solidText{sizes: []float64{a[0], a[0], l}} }},
	{words: []string{"rod", "round", "round bar", "cylinder", "rd", "d", "ø"}, sizes: 1, long: true, kind: "rod", means: "`rod 50` and a length: its diameter",
		shape: func(a []float64, l float64) solidText {
			return solidText{fields: []field{{"diameter", a[0]}, {"height", l}}}
		}},
	{words: []string{"tube", "ro"}, sizes: 2, long: true, kind: "tube", means: "`tube 120 x 8` and a length: outside diameter and wall",
		shape: func(a []float64, l float64) solidText {
			return solidText{fields: []field{{"outside", a[0]}, {"wall", a[1]}, {"height", l}}}
		}},
	{words: []string{"sphere", "ball"}, sizes: 1, kind: "sphere", means: "`sphere 300`: its diameter",
		shape: func(a []float64, _ float64) solidText { return solidText{fields: []field{{"diameter", a[0]}}} }},
	{words: []string{envelope}, sizes: 3, kind: "box", shape: asSizes, means: "`envelope 800 x 600 x 900` and a weight: a bought thing and the room that it takes"},
}

// envelope is the word for a size that only says how far a weight reaches.
const envelope = "envelope"

// designations are the rest of the table of sizes, in words.
var designations = []string{
	"`HEA 200`, `W12x26` and a length: a rolled section by its designation",
	"`NPS 6 sch 40` or `pipe ...` and a length: a pipe by its designation",
}

func asSizes(a []float64, _ float64) solidText { return solidText{sizes: a} }

// lying puts the least of three sizes last.
func lying(a, b, c float64) []float64 {
	switch min(a, b, c) {
	case c:
		return []float64{a, b, c}
	case b:
		return []float64{a, c, b}
	}
	return []float64{b, c, a}
}

func asLong(a []float64, l float64) solidText { return solidText{sizes: append(slices.Clone(a), l)} }

// node writes the size as a load file has it, at the place of a cell.
func (t solidText) node(at *yaml.Node) *yaml.Node {
	if len(t.sizes) > 0 {
		var sides []string
		for _, side := range t.sizes {
			sides = append(sides, inMetres(side))
		}
		return text(strings.Join(sides, " x "), at.Line, at.Column)
	}
	group := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: at.Line, Column: at.Column}
	for _, f := range t.fields {
		put(group, f.name, text(inMetres(f.metres), at.Line, at.Column))
	}
	return group
}

// inMetres writes a length with its unit, to the last digit.
func inMetres(l float64) string { return strconv.FormatFloat(l, 'f', -1, 64) + " m" }

var wordThenSizes = regexp.MustCompile(`^\s*([A-Za-zø][A-Za-z ]*?)?\s*([0-9.+-].*)$`)

// plainSize brings the signs of a size to those of a load file.
var plainSize = strings.NewReplacer("*", "x", "Ø", "ø", "∅", "ø", "⌀", "ø")

// formOf finds the form of a size, and its lengths as they stand after the
// word. nil: none, it is a designation.
func formOf(size string) (form *sizeForm, lengths string) {
	m := wordThenSizes.FindStringSubmatch(plainSize.Replace(size))
	if m == nil {
		return nil, ""
	}
	word, count := strings.ToLower(m[1]), len(strings.FieldsFunc(m[2], func(c rune) bool { return strings.ContainsRune("xX×", c) }))
	for i, f := range sizeForms {
		// The count tells two forms of one word apart; the last one is taken
		// where neither fits, for its message.
		if slices.Contains(f.words, word) && (form == nil || f.sizes == count) {
			form = &sizeForms[i]
		}
	}
	return form, m[2]
}

// solid puts what a size means into the group of a part.
func (s *sheet) solid(w *sheetRow, part *yaml.Node) {
	size := w.cells["size"]
	form, lengths := formOf(size.Value)
	if form == nil {
		s.designation(w, part)
		return
	}
	s.reader.bare = s.lengthUnit("size")
	a, ok := s.sizes(text(lengths, size.Line, size.Column), form.sizes)
	length, known := s.lengthOf(w, form.long, ok, a)
	if !ok || !known {
		return
	}
	if form.words[0] == envelope && !w.weighs() {
		s.bad(size, "an envelope without a weight", "write its weight in the column `weight`; or a size that is of solid material, such as `2400 x 1200 x 20`")
		return
	}
	w.envelope, w.upright = form.words[0] == envelope, form.long && form.kind != "plate"
	put(part, form.kind, form.shape(a, length).node(size))
}

// designation puts a rolled section or a pipe into the group of a part.
func (s *sheet) designation(w *sheetRow, part *yaml.Node) {
	size := w.cells["size"]
	first, rest, _ := strings.Cut(size.Value, " ")
	var known []string
	for _, f := range sizeForms {
		known = append(known, f.words...)
	}
	near := units.Nearest(strings.ToLower(first), known)
	_, isForm := slices.BinarySearch(slices.Sorted(slices.Values(known)), strings.ToLower(first))
	switch {
	case isForm:
		s.bad(size, fmt.Sprintf("no sizes after the word %q", first), "write one of: "+formsInWords())
		return
	case len(first) > 3 && len(near) > 0:
		s.bad(size, fmt.Sprintf("the size %q is not understood", short(size.Value)), fmt.Sprintf("did you mean `%s`? write one of: %s", near[0], formsInWords()))
		return
	}
	kind, name := "section", size.Value
	switch strings.ToLower(first) {
	case "nps", "dn":
		kind = "pipe"
	case "pipe":
		kind, name = "pipe", strings.TrimSpace(rest)
	}
	if !s.known(kind, name, size) {
		return
	}
	if length, ok := s.lengthOf(w, true, true, nil); ok {
		w.upright = true
		put(part, kind, text(name, size.Line, size.Column))
		put(part, "length", text(inMetres(length), w.cells["length"].Line, w.cells["length"].Column))
	}
}

// known sees that the tables have a designation, before anything else is asked
// of its row. What is like none of them may not be meant as one.
func (s *sheet) known(kindName, name string, size *yaml.Node) bool {
	_, err := density.FindSection(name)
	if u := (*density.UnknownError)(nil); errors.As(err, &u) && len(u.Near) == 0 && u.Hint() == "" {
		s.bad(size, fmt.Sprintf("unknown size %q", short(size.Value)), "write one of: "+formsInWords()+"; of what has no such size, such as bolts, give the weight in the column `weight` and leave the size blank")
		return false
	}
	_, ok := s.section(kind{name: kindName}, text(name, size.Line, size.Column))
	return ok
}

// formsInWords lists the ways to write a size.
func formsInWords() string {
	var all []string
	for _, f := range sizeForms {
		example, _, _ := strings.Cut(f.means, ":")
		all = append(all, example)
	}
	return strings.Join(append(all, "or a section or pipe that `plumbhook sections` lists"), "; ")
}

// lengthOf reads the length of a row. A thing that takes none may have one all
// the same, if it is one of its sizes.
func (s *sheet) lengthOf(w *sheetRow, takes, sized bool, sizes []float64) (float64, bool) {
	n := w.cells["length"]
	if n == nil {
		if takes {
			s.blank(w, "length", "this size needs a length", "write "+aLength)
		}
		return 0, !takes
	}
	s.reader.bare = s.lengthUnit("length")
	length, ok := s.positive(n)
	if !ok || takes || !sized {
		return length, ok
	}
	if slices.ContainsFunc(sizes, func(side float64) bool { return math.Abs(side-length) <= mostGap }) {
		return length, true
	}
	s.bad(n, fmt.Sprintf("the length %s is none of the sizes %s", n.Value, w.cells["size"].Value), "correct one of the two, or leave the length blank")
	return 0, false
}

// lengthUnit returns the unit of bare lengths in a column.
func (s *sheet) lengthUnit(name string) units.LengthUnit {
	if u, err := units.ParseLengthUnit(s.unit[name]); err == nil {
		return u
	}
	return s.bare
}
