// Package published holds printed values that the program is held against: one
// row each, with the load file that leads to it, the figure of the JSON result, and
// the source.
package published

import _ "embed"

// Rows is the table, as CSV.
//
//go:embed published.csv
var Rows []byte
