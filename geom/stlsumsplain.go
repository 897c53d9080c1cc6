//go:build !(amd64 && goexperiment.simd)

package geom

// raw adds triangles as they stand in a binary file.
func (s *stlSums) raw(part []byte, origin Vec) { s.rawPlainly(part, origin) }
