package takeoff

import (
	"encoding/hex"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"plumbhook/units"
)

// Rates are the user's own prices. The program has none of its own.
type Rates struct {
	File, Currency, SHA256 string
	Rows                   []Rate
}

// Rate is one kind of gear, or of people, and what it costs. A price that is nil is
// not offered: it is never zero.
type Rate struct {
	Kind                   string // sling, shackle, bar, crane or rigger
	Family, Material, Size string
	Rated                  units.Mass // of one; of a crane what it lifts at the radius of the lifts
	Length                 float64    // m, the longest that it is made or set to; 0: any
	AdjustFrom             float64    // m, the shortest that it can be set to; 0: of a fixed length
	Buy, Day, Week         *float64
	Lift, Hour             *float64
	Minimum                *float64 // of a hire
	LeadDays               float64
	Row                    int
	file                   string
	columns                map[string]int
}

// Problem is a fault of what stands in a column of this row.
func (r Rate) Problem(column, text, fix string) Problem {
	at := max(r.columns[column], 1)
	return Problem{File: r.file, Line: r.Row, Column: at, Cell: cell(at, r.Row), Text: text, Fix: fix}
}

// RateKinds are the kinds of rows of a list of rates.
var RateKinds = []string{"sling", "shackle", "bar", "crane", "rigger"}

// rateColumns is the table of columns of a list of rates.
var rateColumns = []column{
	{name: "kind", also: []string{"what", "item"}, takes: "sling, shackle, bar, crane or rigger"},
	{name: "family", also: []string{"type"}, takes: "of a sling, as `plumbhook slings` names it"},
	{name: "material", also: []string{"grade", "construction"}, takes: "of a sling, as `plumbhook slings` names it; of a shackle its grade; blank: any"},
	{name: "size", also: []string{"name", "description"}, takes: "as the list is to name it"},
	{name: "rated", also: []string{"capacity", "rated load", "rating", "wll"}, measure: ofMass, takes: "of one, straight and vertical, with its unit; of a crane what it lifts at the radius of your lifts"},
	{name: "length", also: []string{"up to", "up to length", "longest"}, measure: ofLength, takes: "the longest that this price holds for; of a bar its span"},
	{name: "adjust from", also: []string{"shortest", "adjusts from"}, measure: ofLength, takes: "the shortest that it can be set to; blank: of one fixed length"},
	{name: "buy", also: []string{"price", "purchase"}, takes: aPrice},
	{name: "hire day", also: []string{"per day", "day", "day rate"}, takes: aPrice},
	{name: "hire week", also: []string{"per week", "week", "week rate"}, takes: aPrice},
	{name: "hire lift", also: []string{"per lift", "lift"}, takes: aPrice},
	{name: "hire hour", also: []string{"per hour", "hour", "hour rate"}, takes: aPrice},
	{name: "minimum", also: []string{"minimum charge", "min"}, takes: aPrice},
	{name: "lead days", also: []string{"lead time", "delivery days"}, takes: "days from order to site"},
	{name: "currency", takes: "one for the whole list, such as EUR; or above the header"},
}

const (
	aPrice     = "a price above zero as a plain number; blank: not offered"
	rateHeader = "write a row with the names of the columns: kind, family, material, size, rated (t), length (m), adjust from (m), buy, hire day, hire week, hire lift, minimum, lead days"
)

// ReadRates reads a list of rates.
func ReadRates(fsys fs.FS, name string, opt Options) (*Rates, error) {
	s, err := listFile(fsys, name, opt, rateColumns, "rates", rateHeader)
	if err != nil {
		return nil, err
	}
	head := s.grid[s.head].number
	if s.at["kind"] == 0 {
		s.reader.at(head, 1, "the list of rates has no column `kind`", rateHeader)
		return nil, s.allProblems()
	}
	out := &Rates{File: name, SHA256: hex.EncodeToString(s.source.sum.Sum(nil))}
	if n := s.aboveHeader("currency"); n != nil {
		out.Currency = n.Value
	}
	for _, row := range s.grid[s.head+1:] {
		if row.blank() {
			continue
		}
		s.inColumns(row)
		s.noFormulas(grid{row})
		if n := s.node(row, "currency"); n != nil {
			if out.Currency != "" && out.Currency != n.Value {
				s.bad(n, fmt.Sprintf("the currency %s, and %s before it", short(n.Value), out.Currency), "bring all prices to one currency: none is converted here")
			}
			out.Currency = n.Value
		}
		out.Rows = append(out.Rows, s.rate(row))
	}
	if out.Currency == "" {
		s.reader.at(head, 1, "the list of rates names no currency", "write `currency` and EUR, USD and so on in two cells above the header, or a column of that name")
	}
	if len(out.Rows) == 0 {
		s.reader.at(head, 1, "no rates under the header", "write a row for each kind of gear")
	}
	if s.faults > 0 {
		return nil, s.allProblems()
	}
	return out, nil
}

// rate reads one row.
func (s *sheet) rate(row gridRow) Rate {
	before := s.faults
	r := Rate{Family: familyWord(s.text(row, "family")), Material: s.text(row, "material"), Size: s.text(row, "size"), Row: row.number, file: s.file, columns: s.at}
	r.Kind = strings.ToLower(s.text(row, "kind"))
	if !slices.Contains(RateKinds, r.Kind) {
		s.reader.at(row.number, s.at["kind"], fmt.Sprintf("%q is not a kind of rate", short(r.Kind)), "write "+strings.Join(RateKinds, ", "))
		return r
	}
	if r.Kind == "sling" && r.Family == "" {
		s.reader.at(row.number, max(s.at["family"], 1), "the sling has no family", "write one, as `plumbhook slings` names them, such as alloy chain")
	}
	if n := s.node(row, "rated"); n != nil {
		r.Rated = s.ratedLoad(s.withUnit(n, "rated"))
	} else if r.Kind != "rigger" {
		s.reader.at(row.number, max(s.at["rated"], 1), "the "+r.Kind+" has no rated load", "write "+aStockRating)
	}
	for name, to := range map[string]*float64{"length": &r.Length, "adjust from": &r.AdjustFrom} {
		if n := s.node(row, name); n != nil {
			s.reader.bare = s.lengthUnit(name)
			*to, _ = s.positive(s.withUnit(n, name))
		}
	}
	if r.AdjustFrom > 0 && r.AdjustFrom > r.Length {
		s.reader.at(row.number, s.at["adjust from"], "it adjusts from more than its length", "write the longest in `length` and the shortest in `adjust from`")
	}
	for name, to := range map[string]**float64{"buy": &r.Buy, "hire day": &r.Day, "hire week": &r.Week, "hire lift": &r.Lift, "hire hour": &r.Hour, "minimum": &r.Minimum} {
		*to = s.price(row, name)
	}
	if n := s.node(row, "lead days"); n != nil {
		days, ok := quantity(s.reader, n, "a number of days", units.ParseNumber)
		if r.LeadDays = days; ok && days < 0 {
			s.bad(n, "lead days below zero", "write how many days from order to site")
		}
	}
	if s.faults == before && r.Buy == nil && r.Day == nil && r.Week == nil && r.Lift == nil && r.Hour == nil {
		s.reader.at(row.number, 1, "the row has no price", "write what it costs to buy, or to hire per day, week or lift; take the row away where you have no price yet")
	}
	return r
}

// price reads a price; nil where there is none.
func (s *sheet) price(row gridRow, name string) *float64 {
	n := s.node(row, name)
	if n == nil {
		return nil
	}
	p, ok := quantity(s.reader, n, aPrice, units.ParseNumber)
	if ok && !(p > 0 && p < 1e12) {
		s.bad(n, fmt.Sprintf("the price %s is not above zero", short(n.Value)), "write a price, or leave the cell blank where it is not offered")
		return nil
	}
	if !ok {
		return nil
	}
	return &p
}

// familyWord puts the name of a family as the tables have it.
func familyWord(text string) string {
	return strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(text))
}
