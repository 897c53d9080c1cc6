// Package published holds printed values that the program is held against.
package published

import _ "embed"

// Rows is the table that goes by load files, as CSV: one row a value, with the load
// file that leads to it, the figure of the JSON result, and the source. A user's
// machine runs it: plumbhook verify.
//
//go:embed published.csv
var Rows []byte

// Values is the table of what is in print and only the tests of a package can ask
// for, as CSV: one row a value, with the test that holds the program to it.
//
//go:embed values.csv
var Values []byte
