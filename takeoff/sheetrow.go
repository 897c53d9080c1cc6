package takeoff

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// sheetRow is one row of a sheet that is a part.
type sheetRow struct {
	number   int
	name     string
	cells    map[string]*yaml.Node // by column; blank ones are not there
	quantity int
	together bool       // x, y, z is the common centre of all pieces
	given    units.Mass // of one piece; 0: not given
	total    units.Mass // of all pieces; 0: not given
	envelope bool       // the size only says how far the weight reaches
	upright  bool       // a long thing
}

// weighs tells whether the row gives a weight.
func (w *sheetRow) weighs() bool { return w.cells["weight"] != nil || w.cells["total weight"] != nil }

// parts makes the list of parts of a load file from the rows.
func (s *sheet) parts() *yaml.Node {
	list := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Line: s.grid[s.head].number, Column: 1}
	for _, row := range s.grid[s.head+1:] {
		if row.blank() {
			continue
		}
		s.inColumns(row)
		w := &sheetRow{number: row.number, cells: map[string]*yaml.Node{}, quantity: 1}
		for _, c := range columns {
			if n := s.node(row, c.name); n != nil {
				w.cells[c.name] = n
			}
		}
		if len(w.cells) == 0 { // a remark
			continue
		}
		if w.isHeading() {
			s.heads = append(s.heads, strconv.Itoa(row.number))
			continue
		}
		if s.hasDates(w) {
			continue
		}
		before := s.faults
		part := s.part(w)
		if s.gathered += w.quantity; s.gathered > s.source.opt.mostParts() {
			s.reader.at(row.number, 1, fmt.Sprintf("the sheet has more than %d pieces", s.source.opt.mostParts()), "join small parts into one row with their weight, "+raiseParts)
			return list
		}
		if s.faults == before {
			s.rows[row.number] = w
			list.Content = append(list.Content, part)
		}
	}
	return list
}

// inColumns reports cells that stand in no column, most likely because of a
// decimal comma or a separator within a text.
func (s *sheet) inColumns(row gridRow) {
	header := s.grid[s.head].cells
	for i, c := range row.cells {
		if c != "" && (i >= len(header) || header[i] == "") {
			s.reader.at(row.number, i+1, fmt.Sprintf("%q stands in a column without a name", short(c)),
				"name the column in the header; in CSV, put texts with a separator in quotes and write decimals with a point")
			return
		}
	}
}

// isHeading tells whether a row is no part: words alone, or a total.
func (w *sheetRow) isHeading() bool {
	alone := w.cells["size"] == nil
	for name := range w.cells {
		alone = alone && (name == "mark" || name == "description")
	}
	if alone {
		return true
	}
	for _, name := range []string{"mark", "description"} {
		if n := w.cells[name]; n != nil && w.cells["size"] == nil && w.cells["x"] == nil && w.cells["y"] == nil && w.cells["z"] == nil {
			word := plainHeader(n.Value)
			return slices.Contains([]string{"total", "totals", "sum", "subtotal", "sub total", "grand total"}, word)
		}
	}
	return false
}

// blank reports a cell that has to be filled.
func (s *sheet) blank(w *sheetRow, name, text, fix string) {
	if s.at[name] == 0 {
		text, fix = text+", and the sheet has no column `"+name+"`", fix+" in a column of that name"
	}
	s.reader.at(w.number, max(s.at[name], 1), text, fix+"; a formula counts once a spreadsheet has worked it out and saved its value")
}

// part makes the group of keys of one part.
func (s *sheet) part(w *sheetRow) *yaml.Node {
	part := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: w.number, Column: max(s.at["size"], 1)}
	s.name(w, part)
	s.howMany(w, part)
	if w.cells["size"] != nil {
		s.solid(w, part)
	}
	s.weights(w)
	switch {
	case w.cells["size"] == nil && !w.weighs():
		s.blank(w, "size", "the row has no size and no weight", "write a size and a material, or a weight")
	case w.cells["size"] == nil || w.envelope:
		put(part, "weight", s.weightOfOne(w))
	}
	s.trulyWeighed(w)
	s.centre(w, part)
	s.other(w, part)
	return part
}

// name joins mark and description. A mark is often in a sheet more than once;
// the row tells such parts apart.
func (s *sheet) name(w *sheetRow, part *yaml.Node) {
	var words []string
	at := 1
	for _, name := range []string{"description", "mark"} {
		if n := w.cells[name]; n != nil {
			words, at = append([]string{n.Value}, words...), n.Column
		}
	}
	w.name = strings.Join(words, " ")
	if w.name == "" {
		w.name = fmt.Sprintf("row %d", w.number)
	} else if s.names[w.name] {
		w.name += fmt.Sprintf(" (row %d)", w.number)
	}
	s.names[w.name] = true
	put(part, "name", text(w.name, w.number, at))
}

// howMany reads the quantity and the step from piece to piece.
func (s *sheet) howMany(w *sheetRow, part *yaml.Node) {
	n := w.cells["quantity"]
	switch {
	case n != nil:
		if count, ok := s.copies(n); ok {
			w.quantity = count
		}
	case s.at["quantity"] != 0:
		s.blank(w, "quantity", "the quantity is blank", "write how many there are, 1 for one")
	}
	step := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Line: w.number}
	for _, name := range []string{"dx", "dy", "dz"} {
		way := 0.0
		if d := w.cells[name]; d != nil {
			step.Column = d.Column
			s.reader.bare = s.lengthUnit(name)
			way, _ = s.length(d)
		}
		step.Content = append(step.Content, text(inMetres(way), w.number, max(s.at[name], 1)))
	}
	w.together = w.quantity > 1 && step.Column == 0
	if w.quantity > 1 && !w.together {
		put(part, "count", n)
		put(part, "step", step)
	}
}

// centre reads x, y and z.
func (s *sheet) centre(w *sheetRow, part *yaml.Node) {
	place := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Line: w.number, Column: max(s.at["x"], 1)}
	for _, axis := range []string{"x", "y", "z"} {
		n := w.cells[axis]
		switch {
		case n == nil:
			s.blank(w, axis, axis+" is blank: the part has no place, and the centre of gravity would not be known", "write where its centre is, 0 for zero")
		default:
			s.reader.bare = s.lengthUnit(axis)
			if l, ok := s.length(n); ok {
				place.Content = append(place.Content, text(inMetres(l), n.Line, n.Column))
			}
		}
	}
	if len(place.Content) == 3 {
		put(part, "center", place)
	}
}

// weights reads the weights that the row gives. Without one for a piece it is
// an even share of the total.
func (s *sheet) weights(w *sheetRow) {
	read := func(name string) units.Mass {
		n := w.cells[name]
		if n == nil {
			return 0
		}
		m, _ := s.mass(s.withUnit(n, name))
		return m
	}
	w.given, w.total = read("weight"), read("total weight")
	if w.cells["weight"] == nil {
		w.given = w.total / units.Mass(w.quantity)
	}
}

// weightOfOne is the weight of a piece, as it was written wherever that is of
// one.
func (s *sheet) weightOfOne(w *sheetRow) *yaml.Node {
	if n := w.cells["weight"]; n != nil {
		return s.withUnit(n, "weight")
	}
	n := w.cells["total weight"]
	if w.quantity == 1 {
		return s.withUnit(n, "total weight")
	}
	return text(massText(w.given), n.Line, n.Column)
}

// withUnit gives a bare number the unit of its column.
func (s *sheet) withUnit(n *yaml.Node, name string) *yaml.Node {
	if _, err := units.ParseNumber(n.Value); err == nil && s.unit[name] != "" {
		return text(n.Value+" "+s.unit[name], n.Line, n.Column)
	}
	return n
}

// massText writes a weight with its unit, to the last digit.
func massText(m units.Mass) string { return strconv.FormatFloat(float64(m), 'f', -1, 64) + " kg" }

// other passes on what a load file says in the same words.
func (s *sheet) other(w *sheetRow, part *yaml.Node) {
	solid := w.cells["size"] != nil && !w.envelope
	material := w.cells["material"]
	switch {
	case !solid: // what a bought thing is made of is for the reader's eyes
	case material != nil:
		put(part, "material", material)
	case !s.hasMaterial():
		s.blank(w, "material", "the row has no material", "write its material, or one for all above the header; a bought thing of known weight: `envelope 800 x 600 x 900` as its size")
	}
	if n := w.cells["along"]; n != nil && w.cells["size"] != nil {
		w.upright = false
		put(part, "along", text(strings.ToLower(n.Value), n.Line, n.Column))
	}
	for _, name := range []string{"up", "status"} {
		if n := w.cells[name]; n != nil && (name != "up" || w.cells["size"] != nil) {
			put(part, name, text(strings.ToLower(n.Value), n.Line, n.Column))
		}
	}
	if n := w.cells["tolerance"]; n != nil {
		put(part, "tolerance", s.withUnit(n, "tolerance"))
	}
}

// hasMaterial tells whether there is a material for rows that name none.
func (s *sheet) hasMaterial() bool {
	if s.fallback != nil {
		return true
	}
	for _, row := range s.grid[:s.head] {
		for _, c := range row.cells {
			if c != "" {
				if plainHeader(c) == "material" {
					return true
				}
				break
			}
		}
	}
	return false
}
