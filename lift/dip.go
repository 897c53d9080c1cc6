package lift

import (
	"fmt"

	"plumbhook/geom"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// Dip is the dip-stick table of what is in a part: what each level comes to.
type Dip struct {
	Header
	Part string   `json:"part"`
	Rows []DipRow `json:"rows"`
}

// DipRow is one level.
type DipRow struct {
	DepthM   float64  `json:"depth_m"` // above the lowest point of the inside
	LevelM   float64  `json:"level_m"` // z in the load's axes
	Fill     float64  `json:"fill"`    // 0 to 1
	VolumeM3 float64  `json:"volume_m3"`
	MassKg   float64  `json:"mass_kg"`
	CGM      geom.Vec `json:"cg_m"`
}

// DipTable returns the dip-stick table of the contents of a part, as the load is
// drawn, in so many steps of depth.
func DipTable(l *takeoff.Load, part string, steps int, o Options) (Dip, error) {
	l, err := inState(l, o)
	if err != nil {
		return Dip{}, err
	}
	var names []string
	for _, p := range l.Parts {
		if p.Liquid == nil {
			continue
		}
		names = append(names, p.Host)
		if p.Host != part && p.Name != part {
			continue
		}
		rows, err := p.Dip(steps)
		if err != nil {
			return Dip{}, bad(l, p.Line, err.Error(), "look at its contents")
		}
		d := Dip{Header: newHeader(l), Part: p.Host, Rows: []DipRow{}}
		d.Header.Warnings = []Warning{}
		for _, r := range rows {
			d.Rows = append(d.Rows, DipRow{r.Depth, r.Level, r.Fill, r.Volume, float64(r.Mass), r.CG})
		}
		return d, nil
	}
	fix := "give a part `contents:`"
	if near := units.Nearest(part, names); len(near) > 0 {
		fix = fmt.Sprintf("did you mean %q?", near[0])
	} else if len(names) > 0 {
		fix = fmt.Sprintf("parts with contents: %q", names)
	}
	return Dip{}, bad(l, 0, fmt.Sprintf("no part %q with contents", part), fix)
}
