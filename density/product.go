package density

import (
	"fmt"
	"slices"
	"strings"
)

// Product is a form in which steel is bought, with how far its mass may be off.
type Product struct {
	Name     string
	Synonyms []string
	Of       string // what the standard limits: mass, thickness or wall
	By       string // the size that its bands go by: thickness or depth; empty for one band
	Bands    []Band // by rising size
}

// Band is one row of the table: the limits as printed.
type Band struct {
	From, To  float64 // sizes that it covers, m; To 0 is without end
	Low, High float64 // in the unit, as printed; not always the same either way
	Unit      string  // % of what is limited, or mm of thickness
	Source    string
	Basis     string // read, from memory or computed
	Note      string
}

// Tolerance is how far the mass may be off, as parts of it: -0.05 and +0.12 is
// from 5 % below to 12 % above. Rolled plate runs thick, so the two sides differ.
type Tolerance struct {
	Low, High float64
	Source    string
	Basis     string
	Note      string
}

// Products returns the product forms in the order of the table, as copies.
func Products() []Product {
	t, err := products()
	if err != nil {
		return nil
	}
	all := slices.Clone(t.products)
	for i := range all {
		all[i] = all[i].copied()
	}
	return all
}

// FindProduct returns the product form of that name or synonym, blind to case,
// spaces and hyphens. Another name gives an *[UnknownError].
func FindProduct(name string) (Product, error) {
	t, err := products()
	if err != nil {
		return Product{}, err
	}
	return t.find(name)
}

func (p Product) copied() Product {
	p.Synonyms, p.Bands = slices.Clone(p.Synonyms), slices.Clone(p.Bands)
	return p
}

// Tolerance returns the limits for a size in metres: the thickness or the depth,
// as p.By says; any size where it is empty. On the edge of two bands the wider
// side of each counts. A size that no band covers is an error that says so.
//
// A limit on the thickness or the wall is taken as one on the mass.
func (p Product) Tolerance(size float64) (Tolerance, error) {
	const edge = 1e-9 // m, so that an edge in inches is met
	var found Tolerance
	for _, b := range p.Bands {
		inside := size >= b.From-edge && (b.To == 0 || size <= b.To+edge)
		if p.By != "" && !inside {
			continue
		}
		t := b.tolerance(size)
		if found.Source != "" {
			t.Low, t.High = min(t.Low, found.Low), max(t.High, found.High)
		}
		found = t
	}
	if found.Source == "" || p.By != "" && !(size > 0) {
		return Tolerance{}, &SizeError{p.Name, fmt.Sprintf("no tolerance for a %s of %s mm", p.By, millimetres(size)),
			fmt.Sprintf("the table goes from %s to %s mm: give a tolerance of your own", millimetres(p.Bands[0].From),
				millimetres(p.Bands[len(p.Bands)-1].To))}
	}
	return found, nil
}

// tolerance turns the printed limits into parts of the mass at a size in m.
func (b Band) tolerance(size float64) Tolerance {
	per := 0.01
	if b.Unit == "mm" {
		per = 0.001 / size
	}
	return Tolerance{Low: b.Low * per, High: b.High * per, Source: b.Source, Basis: b.Basis, Note: b.Note}
}

// PlateTolerance returns how far the mass of rolled plate may be off at a
// thickness in metres. Class is A, B or C of EN 10029:1991, "A 2010" for class A
// of the edition of 2010, or A6 for ASTM A6; empty is A, whose limits were read
// and are the widest upwards of the two editions. The limits are those of
// thickness: a plate of 10 mm in class A is from 5 % below to 12 % above.
func PlateTolerance(thickness float64, class string) (Tolerance, error) {
	names := map[string]string{"": "EN 10029:1991 class A plate", "a": "EN 10029:1991 class A plate",
		"b": "EN 10029:1991 class B plate", "c": "EN 10029:1991 class C plate",
		"a2010": "EN 10029:2010 class A plate", "a6": "ASTM A6 plate", "us": "ASTM A6 plate"}
	name, ok := names[strings.TrimPrefix(key(class), "class")]
	if !ok {
		return Tolerance{}, &UnknownError{Name: "plate of class " + class, Kind: aProduct,
			Near: []string{"class A", "B", "C", "A 2010", "A6"}, Several: true}
	}
	p, err := FindProduct(name)
	if err != nil {
		return Tolerance{}, err
	}
	return p.Tolerance(thickness)
}

// MassTolerance returns how far the mass of the section may be off, by its
// standard. It is false where the table has no tolerance, as for bars and tees.
func (s Section) MassTolerance() (Tolerance, bool) {
	name, size := "", s.Web
	switch {
	case s.Standard == "EN 10365" && s.Shape == IShape:
		name = "I and H sections"
	case s.Standard == "EN 10365":
		name, size = "channels", s.Depth
	case s.Standard == "EN 10056-1":
		name = "angles"
	case s.Standard == coldFormed:
		name = "cold formed hollow sections"
	case s.Standard == hotFinished || s.Standard == "EN 10220":
		name = "hot finished hollow sections, seamless" // the widest of the three
	case s.Standard == "ASTM A6" && s.Shape <= Angle:
		name = "ASTM A6 shapes"
	case s.Standard == "ASTM A500":
		name = "ASTM A500 hollow sections"
	case s.Standard == "ASME B36.10M":
		name = "ASTM A53 pipe"
	case s.Standard == "ASME B36.19M":
		name = "pressure pipe"
	}
	p, err := FindProduct(name)
	if err != nil {
		return Tolerance{}, false
	}
	t, err := p.Tolerance(size)
	return t, err == nil
}
