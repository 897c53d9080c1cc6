// Package sling answers two questions about the slings of a lift: may a family
// of slings be used in these surroundings, and which size of it is large enough.
//
// It takes what statics has found, a worst tension and a flattest angle for each
// leg, and knows no geometry. It answers under one rule set, US or EN, and never
// mixes them: every capacity and factor is a row of the CSV files under tables/,
// keyed by rule set and family, with its source and the basis on which the row
// stands (read, from memory, computed, common practice). A capacity from a table
// is for choosing; the tag on the sling governs the lift.
//
// Of a leg the required vertical rating is
//
//	worst tension × dynamic factor ÷ (hitch × temperature × bend or edge)
//
// turned into a mass at standard gravity. The tension already holds the leg's
// angle and its share of the load, so that no angle factor is applied to it; the
// 60°, 45° and 30° columns of printed US tables, and their rule to take the next
// lower column for an angle between, are therefore not used. EN adds a check of
// the whole set, see [Choose].
//
// A further family is rows in tables/ and, where it bends or bears in its own way,
// a case in contact.go; one of which no capacities are published stands on its
// tag alone. Whether a family may be used is said by rows too: temperature and
// edges in factors.csv, what its substance meets in chemicals.csv, and what else
// is to be expected of the place in surroundings.csv. Each such row is missed by
// a line of testdata/suitability.csv when it is taken away.
package sling
