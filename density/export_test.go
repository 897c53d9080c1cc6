package density

// OutlineArea is the area in m² that the dimensions give, for the tests.
func (s Section) OutlineArea() float64 { return s.outlineArea() }
