// Package density holds what loads are made of: materials, with their density
// and how far it may be out; sections and pipe, with their mass per length; and
// the tolerances of the forms that steel is bought in. Each figure says where it
// comes from.
//
// The materials are in materials.csv, one row a material, embedded in the
// program. An engineer can check a row without reading Go: density_kg_m3 is the
// figure used, tolerance the planner's ± part of it, low_kg_m3 and high_kg_m3 the
// range found in print (information; rounding and different bases can leave the
// figure outside), source the publication, and basis how the figure is known:
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
//
// Sections are in the tables of the folder sections, one a family, in the units
// that they are printed in; each row's area and mass are held against its
// dimensions when they are read. [FindSection] takes a designation, as HEA 200,
// W12x26 or NPS 6 sch 40, and computes hollow sections and bars of any size by
// the rules of their standards. A section weighs its PerLength, printed or by
// the formula of the standard; never its area times a density.
//
// products.csv holds how far the mass of a product form may be off by its
// standard: see [PlateTolerance] and [Section.MassTolerance]. The two sides are
// kept apart, since rolled plate runs thick.
package density
