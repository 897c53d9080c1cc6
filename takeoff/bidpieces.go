package takeoff

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"path"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// BidPiece is one row of a list of pieces to be priced: a rough piece, or the name
// of the take-off that has replaced it.
type BidPiece struct {
	Mark, Drawing string
	Quantity      int
	LoadFile      string // as a path beside the list; empty: a rough piece
	Load          *Load  // of a rough piece
	Err           error  // what is wrong with the row
	Assumed       []string
	Inputs        []Input
	Row           int
}

// pieceColumns is the table of columns of a list of pieces.
var pieceColumns = []column{
	{name: "mark", also: []string{"item", "tag", "piece mark", "pos", "item no"}, takes: "what the drawing calls the piece; each has its own"},
	{name: "quantity", also: []string{"qty", "count", "lifts", "pieces", "no off", "off"}, takes: "how many lifts of it, a whole number; without this column one each"},
	{name: "description", also: []string{"desc", "name"}, takes: "what it is, in words"},
	{name: "load file", also: []string{"take off", "takeoff"}, takes: "a load file or take-off sheet beside this list, which then counts instead of the rest of the row"},
	{name: "envelope", also: []string{"dimensions", "overall size", "l x w x h", "envelope size"}, measure: ofLength, takes: "length x width x height over all"},
	{name: "fill", also: []string{"fill factor", "solidity"}, takes: "how much of the envelope is solid, such as 12 % or 0.12"},
	{name: "material", also: []string{"mat"}, takes: "a name from `plumbhook materials`"},
	{name: "weight", also: []string{"wt", "mass", "unit weight", "weight each"}, measure: ofMass, takes: "of one piece, with its unit, where somebody states it"},
	{name: "tolerance", also: []string{"tol", "band"}, measure: ofPart, takes: aPercent},
	{name: "status", takes: strings.Join(statuses, ", ") + ": how a weight is known"},
	{name: "picks", also: []string{"legs", "pick points"}, takes: "2 or 4; blank: 4"},
	{name: "cg within", also: []string{"cg off", "cg tolerance"}, measure: ofLength, takes: "how far the CG may be from the middle of the envelope, each way"},
	{name: "drawing", also: []string{"dwg", "drawing no", "sheet"}, takes: "the drawing and its revision"},
}

const pieceHeader = "write a row with the names of the columns: mark, quantity, envelope (mm), fill, material, weight (kg), tolerance, load file"

// What is taken of a rough piece where its row says nothing. All of them are
// common practice, no source, and each use is said among the assumptions.
const (
	fillLow, fillHigh = -0.30, 0.50 // of envelope × fill × material: more is left out than counted twice
	pickInset         = 0.10        // of each side, from the ends to the picks
	cgOff             = 0.10        // of the shorter side in plan, the CG from the middle
)

// ReadPieces reads a list of pieces. A fault of a row stands with its piece; the
// error is of the list as a whole.
func ReadPieces(fsys fs.FS, name string, opt Options) ([]BidPiece, error) {
	s, err := listFile(fsys, name, opt, pieceColumns, "pieces", pieceHeader)
	if err != nil {
		return nil, err
	}
	head := s.grid[s.head].number
	if s.at["mark"] == 0 || s.at["envelope"] == 0 && s.at["load file"] == 0 {
		s.reader.at(head, 1, "a list of pieces needs the column `mark`, and `envelope` or `load file`", pieceHeader)
		return nil, s.allProblems()
	}
	var pieces []BidPiece
	first := map[string]int{}
	for _, row := range s.grid[s.head+1:] {
		if row.blank() {
			continue
		}
		in := *s // each row has its own faults
		in.reader = newReader(s.file, s.source, s.tolerances)
		in.cells = true
		in.noFormulas(grid{row})
		p := in.piece(row)
		if at := first[p.Mark]; at > 0 && in.faults == 0 {
			in.bad(in.node(row, "mark"), fmt.Sprintf("the mark %q is here twice, first in row %d", short(p.Mark), at), "give each piece its own mark, and several alike a `quantity`")
		}
		first[p.Mark] = row.number
		if in.faults > 0 {
			p.Load, p.Err = nil, in.allProblems()
		}
		pieces = append(pieces, p)
	}
	if len(pieces) == 0 {
		s.reader.at(head, 1, "no pieces under the header", "write a row for each piece")
		return nil, s.allProblems()
	}
	return pieces, nil
}

// piece reads one row.
func (s *sheet) piece(row gridRow) BidPiece {
	s.inColumns(row)
	p := BidPiece{Mark: s.text(row, "mark"), Drawing: s.text(row, "drawing"), Quantity: 1, Row: row.number}
	for _, c := range pieceColumns {
		if n := s.node(row, c.name); n != nil && c.name != "mark" {
			p.Inputs = append(p.Inputs, Input{c.name, s.withUnit(n, c.name).Value})
		}
	}
	if p.Mark == "" {
		p.Mark = fmt.Sprintf("row %d", row.number)
		s.reader.at(row.number, s.at["mark"], "the piece has no mark", "write what the drawing calls it")
	}
	if n := s.node(row, "quantity"); n != nil {
		p.Quantity, _ = s.whole(n, mostParts)
	}
	if n := s.node(row, "load file"); n != nil {
		full, f := s.source.path(n.Value, "frame.yaml")
		if f != nil {
			s.bad(n, fmt.Sprintf("the load file %s can't be read: %s", short(n.Value), f.text), f.fix)
		}
		p.LoadFile = full
		return p
	}
	p.Load, p.Assumed = s.rough(row, p)
	return p
}

// rough makes a load of one row: a known or guessed weight in its envelope, under
// picks at the corners of the top.
func (s *sheet) rough(row gridRow, p BidPiece) (*Load, []string) {
	n := s.node(row, "envelope")
	if n == nil {
		s.reader.at(row.number, max(s.at["envelope"], 1), "the piece has no envelope and no load file", "write its length x width x height over all, or the name of its take-off")
		return nil, nil
	}
	s.reader.bare = s.lengthUnit("envelope")
	sides, ok := s.sizes(n, 3)
	if !ok {
		return nil, nil
	}
	part := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: row.number, Column: n.Column}
	at := func(words string) *yaml.Node { return text(words, row.number, n.Column) }
	put(part, "name", at("the whole piece"))
	assumed := s.roughWeight(row, part, sides)
	if s.faults > 0 {
		return nil, nil
	}
	put(part, "box", at(solidText{sizes: sides}.node(n).Value))
	put(part, "center", placeAt(0, 0, sides[2]/2, n))
	off := cgOff * min(sides[0], sides[1])
	if given := s.node(row, "cg within"); given != nil {
		s.reader.bare = s.lengthUnit("cg within")
		put(part, "position", text(s.withUnit(given, "cg within").Value, row.number, given.Column))
	} else {
		put(part, "position", at(inMetres(off)))
		assumed = append(assumed, fmt.Sprintf("CG within %s of the middle of the envelope: %g %% of its shorter side (common practice, no source)", units.Length(off).Format(units.Both), 100*cgOff))
	}
	root := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: row.number, Column: 1}
	put(root, "load", at(strings.TrimSpace(p.Mark+" "+s.text(row, "description"))))
	if p.Drawing != "" {
		put(root, "drawing", text(p.Drawing, row.number, s.at["drawing"]))
	}
	put(root, "parts", &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Line: row.number, Column: n.Column, Content: []*yaml.Node{part}})
	if rules := s.aboveHeader("rules"); rules != nil {
		put(root, "rules", rules)
	}
	picks, how := s.roughPicks(row, sides, n)
	put(root, "picks", picks)
	l := &Load{File: fmt.Sprintf("%s row %d", s.file, row.number)}
	walk(s.reader, root, "a piece", topKeys(), l)
	if s.faults > 0 {
		return nil, nil
	}
	l.Warnings = s.warnings
	sum := sha256.Sum256([]byte(strings.Join(row.cells, "\x00")))
	l.SHA256 = hex.EncodeToString(sum[:])
	return l, append(assumed, how)
}

// roughWeight puts the weight of a row and its tolerance into the part, and says
// what was taken for it.
func (s *sheet) roughWeight(row gridRow, part *yaml.Node, sides []float64) (assumed []string) {
	weight, fill, material := s.node(row, "weight"), s.node(row, "fill"), s.node(row, "material")
	tolerance, status := s.node(row, "tolerance"), s.node(row, "status")
	switch {
	case weight != nil:
		put(part, "weight", s.withUnit(weight, "weight"))
		if tolerance == nil && status == nil {
			status = text("estimated", row.number, weight.Column)
			assumed = append(assumed, "weight as stated, how it is known is not: taken as estimated, "+s.tolerances["estimated"].span.String())
		}
	case fill == nil || material == nil:
		s.reader.at(row.number, max(s.at["fill"], s.at["weight"], 1), "the piece has no weight, nor both `fill` and `material`", "write its weight, or how much of the envelope is solid and of what, such as 12 % and structural steel")
		return nil
	default:
		solid, ok := s.fill(fill)
		m, found := s.material(material)
		if !ok || !found {
			return nil
		}
		kg := sides[0] * sides[1] * sides[2] * solid * float64(m.Density)
		put(part, "weight", text(strconv.FormatFloat(kg, 'g', 6, 64)+" kg", row.number, fill.Column))
		status = nil
		assumed = append(assumed, fmt.Sprintf("no real weight: envelope × fill %g %% × %s", 100*solid, m))
		if tolerance == nil {
			tolerance = text(span{fillLow, fillHigh}.String(), row.number, fill.Column)
			assumed = append(assumed, fmt.Sprintf("weight by fill: %g %% / +%g %% (common practice, no source)", 100*fillLow, 100*fillHigh))
		}
	}
	if tolerance != nil {
		put(part, "tolerance", s.withUnit(tolerance, "tolerance"))
	}
	if status != nil {
		put(part, "status", text(strings.ToLower(status.Value), status.Line, status.Column))
	}
	return assumed
}

// fill reads how much of an envelope is solid.
func (s *sheet) fill(n *yaml.Node) (float64, bool) {
	f, err := units.ParseNumber(n.Value)
	if strings.HasSuffix(strings.TrimSpace(n.Value), "%") {
		f, err = units.ParsePercent(n.Value)
	}
	if err != nil || !(f > 0 && f <= 1) {
		s.bad(n, fmt.Sprintf("the fill %s is not above 0 and at most 1", short(n.Value)), "write how much of the envelope is solid, such as 12 % or 0.12")
		return 0, false
	}
	return f, true
}

// roughPicks are picks on top of the envelope, in from its ends.
func (s *sheet) roughPicks(row gridRow, sides []float64, at *yaml.Node) (*yaml.Node, string) {
	x, y, z := sides[0]*(0.5-pickInset), sides[1]*(0.5-pickInset), sides[2]
	places := [][3]float64{{-x, -y, z}, {x, -y, z}, {x, y, z}, {-x, y, z}}
	how := fmt.Sprintf("four picks on top of the envelope, in from its ends by %g %% of each side; strength there not looked at", 100*pickInset)
	if n := s.node(row, "picks"); n != nil {
		switch n.Value {
		case "4":
		case "2":
			places = [][3]float64{{-x, 0, z}, {x, 0, z}}
			how = fmt.Sprintf("two picks on top of the envelope, in from its ends by %g %% of its length; strength there not looked at", 100*pickInset)
		default:
			s.bad(n, fmt.Sprintf("%q is not a pattern of picks", short(n.Value)), "write 2 or 4; for any other write a load file")
		}
	}
	list := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Line: at.Line, Column: at.Column}
	for i, p := range places {
		pick := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: at.Line, Column: at.Column}
		put(pick, "name", text(string(rune('A'+i)), at.Line, at.Column))
		put(pick, "at", placeAt(p[0], p[1], p[2], at))
		list.Content = append(list.Content, pick)
	}
	return list, how
}

// placeAt is a place in metres, at the place of a cell.
func placeAt(x, y, z float64, at *yaml.Node) *yaml.Node {
	list := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Line: at.Line, Column: at.Column}
	for _, v := range []float64{x, y, z} {
		list.Content = append(list.Content, text(inMetres(v), at.Line, at.Column))
	}
	return list
}

// MarkOf is the mark of a piece that a file of its own describes: the file's name
// without its ending.
func MarkOf(file string) string { return strings.TrimSuffix(path.Base(file), path.Ext(file)) }
