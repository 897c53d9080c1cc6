package sling

import "io/fs"

// Tables returns the tables in the program by the name of their file, as they
// stand: what a figure was looked up in can be told apart by its text.
func Tables() map[string]string {
	names, err := fs.Glob(files, "tables/*.csv")
	if err != nil {
		panic(err) // the pattern is a constant
	}
	out := map[string]string{}
	for _, name := range names {
		text, err := files.ReadFile(name)
		if err != nil {
			panic(err) // it was built in
		}
		out["sling/"+name] = string(text)
	}
	return out
}
