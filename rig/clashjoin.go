package rig

// Join returns the bodies as one.
func Join(bodies ...Obstacles) Obstacles {
	var all Obstacles
	for i, b := range bodies {
		if i == 0 || b.top > all.top {
			all.top = b.top
		}
		all.parts = append(all.parts, b.parts...)
	}
	return all
}
