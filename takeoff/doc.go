// Package takeoff reads what a planner wrote from a drawing (a load file) or
// took from a model (a mesh) and says what the load weighs, where its centre
// of gravity is, and how sure both are.
//
// A load file is YAML, or JSON as its subset. It is read into a tree of nodes
// and walked against tables of keys (see key and kind): an unknown key, an
// empty value, a doubtful number or a missing unit is a Problem with its line,
// its column and the way to mend it, and all problems are reported at once.
// Nothing is guessed.
//
// A part may be repeated (see Part.Places): in a row, around an axis, mirrored
// into a handed pair. A part may also be another load file, a sub-assembly:
// its parts become parts of the load, and what is wrong in it is told under
// its own name.
//
// Lengths are metres, masses kilograms, and all places are in the load's own
// axes, z up, measured from the datum that the file names.
//
// The package opens no file by itself: it reads through the fs.FS or the
// io.Reader that it is given. It knows nothing of slings; the rigging that a
// file describes is read and checked here, and worked out elsewhere.
package takeoff
