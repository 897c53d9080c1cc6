package takeoff

import (
	"fmt"
	"regexp"
	"strings"

	"plumbhook/units"
)

// measure is what the figures of a column measure.
type measure int

const (
	words measure = iota // texts and counts: no unit
	ofLength
	ofMass
	ofPart // a fraction, in per cent
)

// column is one column that a take-off sheet may have. The table of columns is
// the only description of a sheet: the reader, the empty sheet and the
// reference page are made from it.
type column struct {
	name    string
	also    []string // other names for it, in lower case
	takes   string   // what stands in it, in words
	measure measure
	fresh   bool // it is in an empty sheet
}

// columns is the table, in the order of an empty sheet.
var columns = []column{
	{name: "mark", also: []string{"item", "tag", "pos", "piece mark", "part mark", "item no", "part no"}, fresh: true,
		takes: "what the drawing calls the piece"},
	{name: "quantity", also: []string{"qty", "count", "off", "no off", "number off", "pieces", "pcs"}, fresh: true,
		takes: "how many there are, a whole number; without this column one each"},
	{name: "description", also: []string{"desc", "name", "part"}, fresh: true, takes: "what it is, in words"},
	{name: "size", also: []string{"sizes", "dimensions", "profile", "section"}, measure: ofLength, fresh: true,
		takes: "a solid in the words of the table of sizes; blank where only the weight is known"},
	{name: "material", also: []string{"mat", "matl"}, fresh: true,
		takes: "a name from `plumbhook materials`; blank: the material above the header, or `--material`"},
	{name: "length", also: []string{"len", "lg"}, measure: ofLength, fresh: true, takes: "of long things"},
	{name: "along", also: []string{"direction", "axis", "runs along"}, fresh: true,
		takes: "the axis of the load along which a long thing runs, x, y or z (or -x, -y, -z); blank: z, upright, with a warning"},
	{name: "up", also: []string{"depth along", "depth up"},
		takes: "the axis of the load to which the depth of a section points, such as z; needed for channels, angles and the like"},
	{name: "x", also: centreNames("x", "lcg"), measure: ofLength, fresh: true, takes: "the centre of the piece: of its bounding box, or the CG where only the weight is given"},
	{name: "y", also: centreNames("y", "tcg"), measure: ofLength, fresh: true, takes: "likewise"},
	{name: "z", also: centreNames("z", "vcg"), measure: ofLength, fresh: true, takes: "likewise, upward"},
	{name: "dx", also: []string{"step x", "spacing x", "pitch x"}, measure: ofLength,
		takes: "the way from one piece to the next where the quantity is more than 1; x, y, z is then the first. Without it x, y, z is the common centre of all, with a warning"},
	{name: "dy", also: []string{"step y", "spacing y", "pitch y"}, measure: ofLength, takes: "likewise; blank: 0"},
	{name: "dz", also: []string{"step z", "spacing z", "pitch z"}, measure: ofLength, takes: "likewise; blank: 0"},
	{name: "weight", also: []string{"weight given", "given weight", "unit weight", "weight each", "weight per piece", "wt", "unit wt", "mass", "unit mass"},
		measure: ofMass, fresh: true, takes: "of one piece, as stated by others"},
	{name: "total weight", also: []string{"weight total", "total wt", "total mass"}, measure: ofMass, takes: "of all pieces of the row, as stated by others"},
	{name: "status", takes: strings.Join(statuses, ", ") + ": how the weight is known", fresh: true},
	{name: "tolerance", also: []string{"tol"}, measure: ofPart, takes: aPercent},
}

// centreNames are the names of a coordinate of the centre.
func centreNames(axis, naval string) []string {
	var names []string
	for _, word := range []string{"cg", "cog", "centre", "center"} {
		names = append(names, word+" "+axis, axis+" "+word)
	}
	return append(names, naval, axis+" coordinate")
}

// columnNames lists the names in words, for the help on a wrong one.
func columnNames(columns []column) []string {
	var names []string
	for _, c := range columns {
		names = append(names, c.name)
	}
	return names
}

// columnNamed finds a column by one of its names.
func columnNamed(columns []column, name string) (column, bool) {
	for _, c := range columns {
		if c.name == name {
			return c, true
		}
		for _, other := range c.also {
			if other == name {
				return c, true
			}
		}
	}
	return column{}, false
}

// isRemark tells whether a header begins a column that is not to be read.
func isRemark(header string) bool {
	for _, word := range []string{"note", "remark", "comment"} {
		if strings.HasPrefix(plainHeader(header), word) {
			return true
		}
	}
	return false
}

var (
	unitInBrackets = regexp.MustCompile(`^(.*?)\s*[(\[]\s*([^()\[\]]+?)\s*[)\]]\s*$`)
	unitAtEnd      = regexp.MustCompile(`^(.*?)(?:,| in)?\s+([^ ]+)$`)
)

// plainHeader is a header blind to case, dots and the like.
func plainHeader(text string) string {
	return strings.ToLower(oneLine(signsToBlanks.Replace(text)))
}

var signsToBlanks = strings.NewReplacer("_", " ", "-", " ", ".", " ", ":", " ")

// headerOf finds the column that a header means, and the unit that it names:
// `length`, `length (mm)`, `Weight [kg]`, `x, mm`, `WEIGHT KG`.
func headerOf(columns []column, text string) (c column, unit string, ok bool) {
	if c, ok = columnNamed(columns, plainHeader(text)); ok {
		return c, "", true
	}
	for _, form := range []*regexp.Regexp{unitInBrackets, unitAtEnd} {
		m := form.FindStringSubmatch(oneLine(text))
		if m == nil {
			continue
		}
		if c, ok = columnNamed(columns, plainHeader(m[1])); ok && (form == unitInBrackets || c.measures(m[2])) {
			return c, m[2], true
		}
	}
	return column{}, "", false
}

// measures tells whether a word is a unit of what the column measures.
func (c column) measures(unit string) bool {
	switch c.measure {
	case ofLength:
		_, err := units.ParseLengthUnit(unit)
		return err == nil
	case ofMass:
		_, err := units.ParseMass("1 " + unit)
		return err == nil
	case ofPart:
		return unit == "%"
	}
	return false
}

// unitsOf lists the units of what the column measures, for a message.
func (c column) unitsOf() string {
	switch c.measure {
	case ofLength:
		return aUnit
	case ofMass:
		return "a unit of mass: kg, t, lb, short ton or long ton"
	case ofPart:
		return "%"
	}
	return fmt.Sprintf("no unit: `%s` has none", c.name)
}
