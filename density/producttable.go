package density

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"plumbhook/units"
)

//go:embed products.csv
var productsCSV string

// products reads the table in the program, once.
var products = sync.OnceValues(func() (*productTable, error) { return readProducts(strings.NewReader(productsCSV)) })

var productHeader = strings.Split("product,synonyms,of,by,from_mm,to_mm,low,high,unit,source,basis,note", ",")

// productTable holds the product forms and the names that lead to them.
type productTable struct {
	products []Product
	byKey    map[string]int
}

// readProducts reads a table of bands, those of one product in a row below each
// other, and refuses a row that an engineer could not check.
func readProducts(r io.Reader) (*productTable, error) {
	rows, err := csv.NewReader(r).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("products.csv: %w", err)
	}
	if len(rows) < 2 || !slices.Equal(rows[0], productHeader) {
		return nil, fmt.Errorf("products.csv: want a first line %q and rows below it", strings.Join(productHeader, ","))
	}
	t := &productTable{byKey: map[string]int{}}
	for i, row := range rows[1:] {
		if err := t.add(row); err != nil {
			return nil, fmt.Errorf("products.csv: row %d (%s): %w", i+2, row[0], err)
		}
	}
	return t, nil
}

// add puts the band of one row to the last product, or begins a new one.
func (t *productTable) add(row []string) error {
	b, err := band(row)
	if err != nil {
		return err
	}
	if last := len(t.products) - 1; last >= 0 && t.products[last].Name == row[0] {
		p := &t.products[last]
		before := p.Bands[len(p.Bands)-1]
		if p.By == "" || p.By != row[3] || p.Of != row[2] || before.To != b.From || before.Unit != b.Unit {
			return fmt.Errorf("the band does not go on from the one above it")
		}
		p.Bands = append(p.Bands, b)
		return nil
	}
	p := Product{Name: row[0], Of: row[2], By: row[3], Bands: []Band{b}}
	if row[1] != "" {
		p.Synonyms = strings.Split(row[1], ";")
	}
	switch {
	case !slices.Contains([]string{"mass", "thickness", "wall"}, p.Of):
		return fmt.Errorf("of %q, want mass, thickness or wall", p.Of)
	case !slices.Contains([]string{"", "thickness", "depth"}, p.By):
		return fmt.Errorf("by %q, want thickness, depth or nothing", p.By)
	case b.Unit == "mm" && p.By != "thickness":
		return fmt.Errorf("limits in mm need bands by thickness")
	}
	for _, text := range append([]string{p.Name}, p.Synonyms...) {
		k := key(text)
		if k == "" {
			return fmt.Errorf("an empty name or synonym")
		}
		if _, ok := t.byKey[k]; ok {
			return fmt.Errorf("%q is already a name", text)
		}
		t.byKey[k] = len(t.products)
	}
	t.products = append(t.products, p)
	return nil
}

// band reads the limits of one row.
func band(row []string) (Band, error) {
	var x [4]float64
	for i, text := range row[4:8] {
		if text == "" && i < 2 {
			continue
		}
		var err error
		if x[i], err = units.ParseNumber(text); err != nil {
			return Band{}, fmt.Errorf("%s: %w", productHeader[i+4], err)
		}
	}
	b := Band{From: x[0] / 1000, To: x[1] / 1000, Low: x[2], High: x[3], Unit: row[8], Source: row[9], Basis: row[10], Note: row[11]}
	switch {
	case b.From < 0 || b.To < 0 || b.To != 0 && b.To <= b.From:
		return Band{}, fmt.Errorf("want sizes of 0 or more, from below to")
	case b.Low > 0 || b.High < 0 || b.Low == b.High:
		return Band{}, fmt.Errorf("limits %g to %g, want low at or below 0 and high at or above", b.Low, b.High)
	case b.Unit != "%" && b.Unit != "mm":
		return Band{}, fmt.Errorf("unit %q, want %% or mm", b.Unit)
	case b.Unit == "%" && (b.Low <= -100 || b.High >= 100), b.Unit == "mm" && -b.Low >= x[0]:
		return Band{}, fmt.Errorf("limits %g to %g %s, too wide to be meant", b.Low, b.High, b.Unit)
	case strings.TrimSpace(b.Source) == "":
		return Band{}, fmt.Errorf("no source")
	case !slices.Contains(bases, b.Basis):
		return Band{}, fmt.Errorf("basis %q, want one of %s", b.Basis, strings.Join(bases, ", "))
	}
	return b, nil
}

func (t *productTable) find(name string) (Product, error) {
	if i, ok := t.byKey[key(name)]; ok {
		return t.products[i].copied(), nil
	}
	var known []string
	for _, p := range t.products {
		known = append(append(known, p.Name), p.Synonyms...)
	}
	return Product{}, &UnknownError{Name: name, Near: units.Nearest(name, known), Kind: aProduct}
}
