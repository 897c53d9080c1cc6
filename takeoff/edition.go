package takeoff

// Tables returns the tables in the program by the name of their file, as they
// stand: what a figure was looked up in can be told apart by its text.
func Tables() map[string]string {
	return map[string]string{"takeoff/tolerances.csv": toleranceTable}
}
