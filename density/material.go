package density

import (
	"slices"

	"plumbhook/units"
)

// Material is one row of the table.
type Material struct {
	Name      string           // as printed
	Synonyms  []string         // other names that Find knows
	Density   units.Density    // kg/m³
	Tolerance float64          // ± part of Density, as a fraction
	Published [2]units.Density // lowest and highest in print, kg/m³; may not hold Density
	Source    string           // publication, with edition and table
	Basis     string           // read, from memory, computed or common practice
	Note      string           // what to mind; may be empty
}

// All returns the materials in the order of the table. The slices are copies.
// It is empty only where the table in the program is faulty, which [Find] then
// says.
func All() []Material {
	t, err := embedded()
	if err != nil {
		return nil
	}
	all := slices.Clone(t.materials)
	for i := range all {
		all[i].Synonyms = slices.Clone(all[i].Synonyms)
	}
	return all
}

// Find returns the material of that name or synonym, blind to case, spaces,
// hyphens and other marks, and to the spellings aluminum, gray and sulfuric. A
// name that is not in the table, or fits several materials, gives an
// *[UnknownError].
func Find(name string) (Material, error) {
	t, err := embedded()
	if err != nil {
		return Material{}, err
	}
	return t.find(name)
}
