package density

import (
	"fmt"
	"slices"
)

// Kilograms per metre in one pound per foot (see units.Inch and the pound).
const poundPerFoot = 0.45359237 / 0.3048

// The densities in kg/m³ that the masses of the tables stand on: 7850 in the
// European ones; 490 lb/ft³ in the US ones.
//
// Source: EN 10365, EN 10219-2, EN 10220; AISC Steel Construction Manual Part 1
// (from memory).
const (
	metricSteel = 7850.0
	usSteel     = 490 * 0.45359237 / (0.3048 * 0.3048 * 0.3048)
)

// Section is a rolled, hollow or bar section, or a pipe. Lengths are in metres.
// A dimension that the shape does not have, or its table does not print, is 0.
//
// The weight is PerLength, never Area times a density: the area of a US hollow
// section is that of the design wall and 5 to 7 % low. For another material
// scale PerLength by its density over 7850 kg/m³.
type Section struct {
	Name     string   // HEA 200, W12x26, L 100x100x10, NPS 6 sch 40
	Synonyms []string // other names that FindSection knows
	Standard string   // EN 10365, ASTM A6, ASME B36.10M
	Shape    Shape

	Depth  float64 // overall: along the web, the longer leg, or the outside diameter
	Width  float64 // overall, across the depth; of a round one the diameter again
	Web    float64 // thickness of the web, or of the leg along the depth
	Flange float64 // mean thickness of a flange, or of the other leg
	Root   float64 // radius between web and flange
	Toe    float64 // radius at the edge of a flange or leg

	Wall        float64 // nominal wall of a hollow section
	OuterRadius float64 // of the corners of a rectangular one
	InnerRadius float64
	Slope       float64 // of the inside of a tapered flange, as a fraction

	Area      float64 // m², printed, or computed where the basis says so
	PerLength float64 // kg/m, printed or by the formula of the standard

	// From the back of the web or the heel to the centroid: CentroidX along the
	// width, CentroidY along the depth (for a tee from the top of its flange). 0
	// where the section is symmetric.
	CentroidX, CentroidY float64

	Source string // publication, with edition or table
	Basis  string // read, from memory or computed
	Note   string // what to mind; may be empty
}

// FindSection returns the section of that designation, blind to case, spaces,
// hyphens, and x or ×: HEA 200, HE 200 A, W12x26, W 12 X 26, L 100x100x10,
// SHS 100x100x5, RHS 200x100x8, CHS 168.3x5.6, HSS4x4x1/4, HSS6.625x0.280,
// NPS 6 sch 40, 6" XS, DN 150 sch 40, round 20, square 25 mm, flat 4 x 1/2 in.
//
// Hollow sections and bars of any size are computed. A square or rectangular
// hollow section without a standard behind it is taken as cold formed to EN
// 10219-2, and its note says by how much a hot finished one (SHS 100x100x5 EN
// 10210) is heavier. Bare sizes of bars are millimetres.
//
// A designation that the tables do not have, or that fits several, gives an
// *[UnknownError]; one whose size cannot be, a *[SizeError].
func FindSection(name string) (Section, error) {
	t, err := sections()
	if err != nil {
		return Section{}, err
	}
	return t.find(name)
}

// Sections returns the sections in the tables whose designation begins with the
// query (HEA, W12, NPS 6); where none does, those that have all its words in
// their names, standard or shape (channel, EN 10056-1). An empty query returns
// all. Sizes of hollow sections and pipes beyond those listed, and bars, are
// computed by [FindSection].
func Sections(query string) []Section {
	t, err := sections()
	if err != nil {
		return nil
	}
	return t.search(query)
}

// copied returns a section that the caller may change.
func (s Section) copied() Section {
	s.Synonyms = slices.Clone(s.Synonyms)
	return s
}

// SizeError is a designation that is understood but cannot be a section, or a
// size that a product form has no tolerance for.
type SizeError struct {
	Name string // as asked for
	Msg  string // what is wrong with it
	mend string
}

// Error says what is wrong; Fix says how to mend it.
func (e *SizeError) Error() string { return fmt.Sprintf("%q: %s", e.Name, e.Msg) }

// Fix returns what to write instead, in one line.
func (e *SizeError) Fix() string { return e.mend }
