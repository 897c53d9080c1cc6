package takeoff

import (
	"fmt"
	"math"
)

// widenForSpacing widens the tolerance of a part from a binary STL file that
// was drawn so far from its datum that the numbers in the file are coarse.
//
// They are float32, u apart at the farthest coordinate. Rounding moves each
// coordinate by up to u/2 and a corner by up to √3/2·u, so the volume by up to
// the area times that. Derived here, to the first order in u.
func (r *reader) widenForSpacing(m readMesh, p *Part) {
	if m.info.Streamed == nil || m.health.Volume == 0 {
		return
	}
	spacing := m.info.Streamed.Spacing // 0 of text
	doubt := m.health.Area * math.Sqrt(3) / 2 * spacing / math.Abs(m.health.Volume)
	if doubt < leastBias {
		return
	}
	p.Low = (1+p.Low)*(1-min(doubt, mostDoubt)) - 1
	p.High = (1+p.High)*(1+doubt) - 1
	p.Basis += fmt.Sprintf("; widened by %.2g %% for the coarse numbers of a file drawn far from its datum", 100*doubt)
	r.warn("mesh-coarse", p.Name,
		fmt.Sprintf("its mesh lies so far from its datum that the file holds its corners only to %.2g of its unit: the volume may be %.2g %% out, the centre of gravity too", spacing, 100*doubt),
		"export the part again close to the datum of its drawing")
}

// mostDoubt keeps a low weight above zero.
const mostDoubt = 0.99
