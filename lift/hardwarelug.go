package lift

import (
	"fmt"
	"strings"

	"plumbhook/sling"
	"plumbhook/units"
)

// LugCheck is the outline of a lug, to be verified by an engineer: of its plate
// round the hole alone, pulled in its plane. It never makes a lift acceptable.
type LugCheck struct {
	Pick     string     `json:"pick"`
	HoleM    float64    `json:"hole_m"`
	PinM     float64    `json:"pin_m"`            // the thinnest of the shackles; 0: not known
	PullKN   float64    `json:"pull_kn"`          // worst tension × dynamic
	OutDeg   *float64   `json:"out_of_plane_deg"` // at worst; null: not known. It is not in the outline
	Missing  []string   `json:"not_stated"`       // what the outline would need
	Category string     `json:"category"`         // of ASME BTH-1
	Nd       float64    `json:"design_factor"`    // 0: no outline
	Limits   []LugLimit `json:"limits"`           // least first in none: in the order of the standard
	Governs  string     `json:"governs"`          // the least of them
	Within   *bool      `json:"within"`           // the pull is no more than the least of them; null: no outline
	Source   string     `json:"source"`           // of the formulas
	Basis    string     `json:"basis"`            //
	Covers   string     `json:"covers"`           // what the outline covers, and what not
}

// LugLimit is one way in which a lug may fail.
type LugLimit struct {
	Name        string  `json:"name"`
	AllowedKN   float64 `json:"allowed_kn"`
	Utilisation float64 `json:"utilisation"`
}

const lugCovers = "outline, to be verified by an engineer: the plate round its hole, pulled in its own plane; a pull out of the plate, the weld and what the lug stands on are not covered"

// lug works out the outline of the lug at a pick, where enough of it is stated.
func (hw *Hardware) lug(p legPull, pin float64, h *Header) {
	plate := p.given.Plate
	if plate == nil {
		return
	}
	c := LugCheck{Pick: p.leg.Pick, HoleM: plate.Hole, PinM: pin, PullKN: float64(p.Tension) * max(1, p.Dynamic) / 1000, OutDeg: p.off, Missing: []string{},
		Category: plate.Category, Limits: []LugLimit{}, Source: sling.LugSource, Basis: "to be verified by an engineer", Covers: lugCovers}
	for _, one := range []struct {
		name   string
		stated bool
	}{{"thickness", plate.Thickness > 0}, {"width", plate.Width > 0}, {"edge", plate.Edge > 0}, {"yield", plate.Yield > 0}, {"tensile", plate.Tensile > 0},
		{"category", plate.Category != ""}, {"a shackle whose pin goes through", pin > 0}} {
		if !one.stated {
			c.Missing = append(c.Missing, one.name)
		}
	}
	if len(c.Missing) == 0 {
		o, err := sling.LugPlate{Hole: units.Length(plate.Hole), Pin: units.Length(pin), Thickness: units.Length(plate.Thickness), Width: units.Length(plate.Width),
			Edge: units.Length(plate.Edge), Yield: plate.Yield, Tensile: plate.Tensile, Category: plate.Category}.Outline()
		if err != nil {
			c.Missing = append(c.Missing, "sizes that go together ("+strings.TrimPrefix(err.Error(), "sling: ")+")")
		} else {
			c.fill(o, h)
		}
	}
	hw.Lugs = append(hw.Lugs, c)
}

// fill takes over the outline, and warns where the pull is more than it allows.
func (c *LugCheck) fill(o sling.LugOutline, h *Header) {
	c.Nd = o.Nd
	for _, one := range o.Limits {
		allowed := float64(one.Allowed) / 1000
		c.Limits = append(c.Limits, LugLimit{one.Name, allowed, c.PullKN / allowed})
	}
	least := o.Least()
	within := c.PullKN*1000 <= float64(least.Allowed)*(1+1e-9)
	c.Governs, c.Within = least.Name, &within
	if !within {
		h.warn("lug-outline", fmt.Sprintf("lug %s: the leg pulls %s with the dynamic factor, and in outline its plate may carry %s (%s; category %s)",
			c.Pick, units.Force(c.PullKN*1000).FormatUp(units.Both), least.Allowed.FormatDown(units.Both), least.Name, c.Category),
			"have the lug looked at by an engineer before it is used")
	}
}
