package geom

// How the limits on a mesh file are raised from the command line.
const (
	fixSmaller = "export it with a coarser tolerance, in several files, or allow larger ones by --largest-file, such as --largest-file 8GB"
	fixCoarser = "export it with a coarser tolerance, in several files, or allow more by --most-triangles, such as --most-triangles 50000000"
)
