package takeoff

import (
	"fmt"
	"io"
	"path"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// SlingStock is the user's own list of slings: what hangs in the rack.
type SlingStock struct {
	File   string // as it was found in the folder of the load file
	Slings []StockSling
}

// StockSling is one sling of the list. Of several under one mark each is listed.
type StockSling struct {
	Mark, Family, Material, Size string     // Material: empty where the list names none
	Length                       float64    // m, of the sling alone
	Rated                        units.Mass // of one sling, straight, as its tag says
	Inspected                    Date       // zero: none is listed
	Row                          int
	file                         string
	columns                      map[string]int
}

// Problem is a fault of what stands in a column for this sling.
func (s StockSling) Problem(column, text, fix string) Problem {
	at := max(s.columns[column], 1)
	return Problem{File: s.file, Line: s.Row, Column: at, Cell: cell(at, s.Row), Text: text, Fix: fix}
}

// Place names the row of the list, for messages.
func (s StockSling) Place() string { return fmt.Sprintf("%s row %d", s.file, s.Row) }

const (
	aSlingStock   = "the name of a list of your own slings, such as rack.csv or rack.xlsx"
	aStockRating  = "a rated load with its unit, such as 2000 kg or 3.15 t"
	mostOfAMark   = 200
	mostInTheRack = 5000
)

// stockColumns is the table of columns of a list of slings.
var stockColumns = []column{
	{name: "mark", also: []string{"item", "tag", "tag no", "sling no", "serial", "serial no", "id"}, takes: "what is written on the sling itself; each sling has its own"},
	{name: "quantity", also: []string{"qty", "count", "pieces", "pcs"}, takes: "how many alike under the mark, a whole number; without this column one each"},
	{name: "family", also: []string{"type", "kind"}, takes: "wire_rope, alloy_chain and so on, as `plumbhook slings` names them; blanks or hyphens do for the underscore"},
	{name: "material", also: []string{"grade", "construction"}, takes: "as `plumbhook slings` names it after the family; blank: not known, and judged by the worst of the family"},
	{name: "size", also: []string{"diameter", "width"}, takes: "as the tables write it, such as 10 mm or 1/2 in, or as the tag does"},
	{name: "length", also: []string{"reach", "effective length", "len"}, measure: ofLength, takes: "of the sling alone, bearing to bearing"},
	{name: "rated", also: []string{"rated load", "rating", "capacity", "wll", "working load limit", "vertical rated load"}, measure: ofMass,
		takes: "of one sling, straight and vertical, as its tag says, with its unit"},
	{name: "last inspection", also: []string{"inspected", "inspection", "last inspected", "inspection date"},
		takes: "the day, as 2026-05-04; blank: none is listed, and the sling is not chosen"},
}

const stockHeader = "write a row with the names of the columns: mark, family, material, size, length (mm), rated (kg), last inspection"

// readSlingStock reads the list of slings that the load file names.
func readSlingStock(r *reader, n *yaml.Node, l *Load) {
	name, ok := r.text(n)
	if !ok {
		l.Rigging.Stock = &SlingStock{}
		return
	}
	full, f := r.source.path(name, "rack.csv")
	kind := strings.TrimPrefix(strings.ToLower(path.Ext(full)), ".")
	if f == nil && kind != "csv" && kind != "xlsx" {
		f = &fault{"its ending is not that of a list that can be read", "save it as .csv or .xlsx"}
	}
	stock := &SlingStock{File: full}
	l.Rigging.Stock = stock // there, if wrong: what needs one need not complain
	if f == nil {
		in := newReader(full, r.source, r.tolerances)
		f, _ = r.source.use(full, func(file io.Reader) error { return in.stockFile(file, kind, stock) })
		r.faults += in.faults
		r.inner = append(r.inner, in.allProblems()...)
	}
	if f != nil {
		r.bad(n, fmt.Sprintf("the list of slings %s can't be read: %s", short(name), f.text), f.fix)
	}
}

// stockFile reads a list of slings by the rules for take-off sheets.
func (r *reader) stockFile(in io.Reader, kind string, stock *SlingStock) error {
	data, f := r.source.opt.all(in, mostSheetBytes, "keep nothing in it but the list of slings")
	if f != nil {
		r.bad0(f.text, f.fix)
		return nil
	}
	var g grid
	if kind == "csv" {
		g = r.csvGrid(data, stockColumns)
	} else {
		g = r.xlsxGrid(data, "slings")
	}
	if g == nil {
		return nil
	}
	s := &sheet{reader: r, columns: stockColumns, grid: r.noFormulas(g), at: map[string]int{}, unit: map[string]string{}}
	if s.readHeader(stockHeader) && s.stockColumnsThere() {
		s.stockRows(stock)
	}
	return nil
}

// stockColumnsThere sees that slings can be told by the columns.
func (s *sheet) stockColumnsThere() bool {
	before := s.faults
	for _, name := range []string{"mark", "family", "size", "length", "rated", "last inspection"} {
		if s.at[name] == 0 {
			s.reader.at(s.grid[s.head].number, 1, "the list of slings has no column `"+name+"`", stockHeader)
		}
	}
	return s.faults == before
}

// stockRows reads the slings, one row after the other.
func (s *sheet) stockRows(stock *SlingStock) {
	lines := map[string]int{}
	for _, row := range s.grid[s.head+1:] {
		if row.blank() {
			continue
		}
		s.inColumns(row)
		before := s.faults
		one, count := s.stockRow(row)
		if first := lines[one.Mark]; first > 0 && one.Mark != "" {
			s.bad(s.node(row, "mark"), fmt.Sprintf("the mark %q is here twice, first in %s", short(one.Mark), cell(s.at["mark"], first)),
				"give each sling its own mark, or write how many there are as `quantity`")
		}
		lines[one.Mark] = row.number
		if s.faults > before {
			continue
		}
		if len(stock.Slings)+count > mostInTheRack {
			s.reader.at(row.number, 1, fmt.Sprintf("the list has more than %d slings", mostInTheRack), "list those that are at hand for this lift")
			return
		}
		for i := range count {
			of := one
			if count > 1 {
				of.Mark = fmt.Sprintf("%s (%d of %d)", one.Mark, i+1, count)
			}
			stock.Slings = append(stock.Slings, of)
		}
	}
	if len(stock.Slings) == 0 && s.faults == 0 {
		s.reader.at(s.grid[s.head].number, 1, "no slings under the header", "write a row for each sling")
	}
}

// stockRow reads one row, and how many slings it stands for.
func (s *sheet) stockRow(row gridRow) (StockSling, int) {
	one := StockSling{Row: row.number, file: s.file, columns: s.at}
	for _, name := range []string{"mark", "size", "length", "rated", "quantity"} {
		if n := s.node(row, name); n != nil {
			s.noDate(n)
		}
	}
	texts := []struct {
		name string
		into *string
	}{{"mark", &one.Mark}, {"family", &one.Family}, {"size", &one.Size}, {"material", &one.Material}}
	for _, text := range texts {
		if n := s.filled(row, text.name); n != nil {
			*text.into, _ = s.reader.text(n)
		}
	}
	before := s.faults
	s.reader.bare = s.lengthUnit("length")
	if n := s.filled(row, "length"); n != nil && !aDate.MatchString(n.Value) {
		one.Length, _ = s.positive(n)
	}
	if n := s.filled(row, "rated"); n != nil && !aDate.MatchString(n.Value) && s.faults == before {
		one.Rated = s.ratedLoad(s.withUnit(n, "rated"))
	}
	if n := s.node(row, "last inspection"); n != nil {
		one.Inspected = s.date(n)
	}
	count := 1
	if n := s.node(row, "quantity"); n != nil {
		count, _ = s.whole(n, mostOfAMark)
	} else if s.at["quantity"] != 0 {
		s.reader.at(row.number, s.at["quantity"], "the quantity is blank", "write how many there are, 1 for one")
	}
	return one, count
}

// filled returns a cell, and reports one that may not be blank.
func (s *sheet) filled(row gridRow, name string) *yaml.Node {
	n := s.node(row, name)
	if n == nil && name != "material" {
		c, _ := columnNamed(s.columns, name)
		s.reader.at(row.number, s.at[name], "the sling has no "+strings.Replace(name, "rated", "rated load", 1), "write "+c.takes)
	}
	return n
}

// ratedLoad reads what the tag says that a sling may carry.
func (s *sheet) ratedLoad(n *yaml.Node) units.Mass {
	rated, ok := quantity(s.reader, n, aStockRating, units.ParseMass)
	if ok && !(rated >= 1 && rated <= 1e6) {
		s.bad(n, fmt.Sprintf("the rated load %s is not from 1 kg to 1000 t", short(n.Value)), "write "+aStockRating+", and look at the unit in the header")
		return 0
	}
	return rated
}
