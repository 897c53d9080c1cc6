package density

import "io/fs"

// Tables returns the tables in the program by the name of their file, as they
// stand: what a figure was looked up in can be told apart by its text.
func Tables() map[string]string {
	out := map[string]string{"density/materials.csv": materialsCSV, "density/products.csv": productsCSV}
	names, err := fs.Glob(sectionFiles, "sections/*.csv")
	if err != nil {
		panic(err) // the pattern is a constant
	}
	for _, name := range names {
		text, err := sectionFiles.ReadFile(name)
		if err != nil {
			panic(err) // it was built in
		}
		out["density/"+name] = string(text)
	}
	return out
}
