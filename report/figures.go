package report

import (
	"math"
	"strconv"
	"strings"

	"plumbhook/geom"
	"plumbhook/units"
)

// How far a figure may lie beyond a printed one and still be printed as that:
// the noise of the arithmetic, far below what anybody measures.
const (
	noise      = 1e-12 // as a part of the figure
	angleNoise = 1e-7  // degrees
)

func (p *page) mass(kg float64) string { return glued(units.Mass(kg).Format(p.opt.Show)) }

// massUp is for what is needed, massDown for what may be borne.
func (p *page) massUp(kg float64) string   { return glued(units.Mass(kg).FormatUp(p.opt.Show)) }
func (p *page) massDown(kg float64) string { return glued(units.Mass(kg).FormatDown(p.opt.Show)) }

func (p *page) forceUp(kN float64) string { return glued(newtons(kN).FormatUp(p.opt.Show)) }

func newtons(kN float64) units.Force { return units.Force(kN * 1000) }

func (p *page) length(m float64) string { return glued(units.Length(m).Format(p.opt.Show)) }

// place prints a point of the load's axes.
func (p *page) place(v geom.Vec) string {
	return "x" + glue + p.length(v[0]) + ", y" + glue + p.length(v[1]) + ", z" + glue + p.length(v[2])
}

// stacked prints a figure in the units shown, one under the other.
func (p *page) stacked(format func(units.Show) string) string {
	if p.opt.Show != units.Both {
		return glued(format(p.opt.Show))
	}
	return glued(format(units.Metric)) + "\n" + glued(format(units.US))
}

func (p *page) stackedMass(kg float64) string     { return p.stacked(units.Mass(kg).Format) }
func (p *page) stackedMassUp(kg float64) string   { return p.stacked(units.Mass(kg).FormatUp) }
func (p *page) stackedMassDown(kg float64) string { return p.stacked(units.Mass(kg).FormatDown) }
func (p *page) stackedForce(kN float64) string    { return p.stacked(newtons(kN).Format) }
func (p *page) stackedForceUp(kN float64) string  { return p.stacked(newtons(kN).FormatUp) }
func (p *page) stackedLength(m float64) string    { return p.stacked(units.Length(m).Format) }

// volume prints a volume to four significant figures.
func (p *page) volume(m3 float64) string {
	switch p.opt.Show {
	case units.Metric, units.US:
		return volumeIn(m3, p.opt.Show)
	}
	return volumeIn(m3, units.Metric) + glue + "(" + volumeIn(m3, units.US) + ")"
}

func (p *page) stackedVolume(m3 float64) string {
	return p.stacked(func(s units.Show) string { return volumeIn(m3, s) })
}

// volumeIn prints a volume in one system of units.
func volumeIn(m3 float64, show units.Show) string {
	const cubicFoot = units.Foot * units.Foot * units.Foot
	if show == units.US {
		return fourFigures(m3/float64(cubicFoot)) + glue + "ft³"
	}
	return fourFigures(m3) + glue + "m³"
}

// fourFigures prints x to four significant figures, with a space between
// thousands; a very small one as a power of ten.
func fourFigures(x float64) string {
	if x == 0 {
		return "0"
	}
	short := strconv.FormatFloat(x, 'e', 3, 64)
	_, after, _ := strings.Cut(short, "e")
	power, err := strconv.Atoi(after)
	if err != nil || power < -4 || power > 15 {
		return strconv.FormatFloat(x, 'g', 4, 64)
	}
	rounded, _ := strconv.ParseFloat(short, 64)
	return grouped(strconv.FormatFloat(rounded, 'f', max(0, 3-power), 64))
}

// grouped puts a glued space between the thousands of a decimal figure.
func grouped(text string) string {
	whole, decimals, point := strings.Cut(text, ".")
	for at := len(whole) - 3; at > 0 && whole[at-1] != '-'; at -= 3 {
		whole = whole[:at] + glue + whole[at:]
	}
	if point {
		whole += "." + decimals
	}
	return whole
}

// factor prints a factor: two decimals at least, four at most.
func factor(x float64) string {
	text := strings.TrimRight(strconv.FormatFloat(x, 'f', 4, 64), "0")
	for length(text)-strings.Index(text, ".") < 3 {
		text += "0"
	}
	return text
}

// percentUp prints a fraction as whole percent, rounded up.
func percentUp(part float64) string {
	return strconv.FormatFloat(math.Ceil(part*100*(1-noise)), 'f', 0, 64) + glue + "%"
}

// percent prints a fraction as percent.
func percent(part float64) string {
	return strconv.FormatFloat(part*100, 'g', 4, 64) + glue + "%"
}

// tenthDown and tenthUp round degrees to the printed tenth, to the safe side.
func tenthDown(deg float64) float64 { return math.Floor((deg+angleNoise)*10) / 10 }
func tenthUp(deg float64) float64   { return math.Ceil((deg-angleNoise)*10) / 10 }

// turn prints an angle of rotation in degrees.
func turn(deg float64) string { return units.Turn(units.Radians(deg)).Format() }

// fromHorizontal and fromVertical print the two angles of a leg that stands so
// many degrees up from the horizontal.
func fromHorizontal(deg float64) string {
	return glued(units.FromHorizontal(units.Radians(deg)).Format())
}

func fromVertical(deg float64) string {
	return glued(units.FromHorizontal(units.Radians(deg)).FromVertical().Format())
}

// plural is "1 piece", "2 pieces".
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// plainAngle prints degrees where the column says from where they count.
func plainAngle(deg float64) string { return turn(deg) }

func plainInt(n int) string { return strconv.Itoa(n) }

// direction prints a unit vector by the axes of the load that it goes along,
// with its parts where there is more than one.
func direction(v geom.Vec) string {
	const (
		least = 0.05  // less of an axis is left out
		whole = 0.995 // all along one axis
	)
	var parts []string
	for i, axis := range []string{"x", "y", "z"} {
		part, sign := math.Abs(v[i]), "+"
		if v[i] < 0 {
			sign = "−"
		}
		switch {
		case part < least:
		case part > whole:
			parts = append(parts, sign+axis)
		default:
			parts = append(parts, sign+strconv.FormatFloat(part, 'f', 2, 64)+glue+axis)
		}
	}
	return strings.Join(parts, ", ")
}
