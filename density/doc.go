// Package density holds the materials that loads are made of: density, how far
// it may be out, and where the figure comes from.
//
// The table is materials.csv, one row a material, embedded in the program. An
// engineer can check a row without reading Go: density_kg_m3 is the figure used,
// tolerance the planner's ± part of it, low_kg_m3 and high_kg_m3 the range found
// in print (information; rounding and different bases can leave the figure
// outside), source the publication, and basis how the figure is known:
//
//   - read: the figure was read in a copy or a public quotation of the source;
//   - from memory: source and figure are recalled, and not checked again;
//   - computed: worked out from other figures, as the source says;
//   - common practice: a habit of the trade.
//
// The tolerance is of the density alone; dimensions have their own.
//
// [Find] takes a name as a planner writes it. A word that could mean several
// materials, as "stainless", is an error that names them, never a silent pick.
package density
