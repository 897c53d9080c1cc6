package lift

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"plumbhook/geom"
)

// Letters, as the size of a font, mm: the capitals are about 2 mm high.
const (
	letters = 2.8
	heading = 3.6
)

// board puts marks on one drawing, and keeps labels off one another and off
// thick lines.
type board struct {
	paper
	scene
	view   geom.View
	name   string
	hung   bool
	across []tape // sizes from the left edge, and
	upward []tape // from the lower one
	notes  []string
	out    []Mark
	field  field
	thick  [][2]mgl64.Vec2 // legs, and the lines back from labels: no such line is to cross them
}

// area is a rectangle on paper, mm.
type area struct{ left, foot, right, top float64 }

// near is the place of the area that is nearest to p.
func (a area) near(p mgl64.Vec2) mgl64.Vec2 {
	return mgl64.Vec2{min(max(p[0], a.left), a.right), min(max(p[1], a.foot), a.top)}
}

func (a area) grown(by float64) area { return area{a.left - by, a.foot - by, a.right + by, a.top + by} }

// How much it matters that a label lies on what is there, by the square
// millimetre.
const (
	onEdge = 2.5
	onSize = 30
	onLeg  = 200
	onMark = 100
	onText = 5000
)

// weightOf is what a label on a mark costs.
func weightOf(m Mark) float64 {
	switch m.Of {
	case ofPart, ofHole:
		return onEdge
	case ofLeg, ofBar, ofCurve, ofSecond, ofLimit:
		return onLeg
	case ofPick, ofHook, ofCG, ofPoint:
		return onMark
	}
	return onSize
}

// add puts a mark on the drawing and remembers where it is.
func (b *board) add(m Mark) {
	b.out = append(b.out, m)
	weight := weightOf(m)
	switch m.Kind {
	case "text":
		b.field.cover(textArea(m), onText)
	case "circle":
		c, r := m.At[0], m.Radius
		b.field.cover(area{c[0] - r, c[1] - r, c[0] + r, c[1] + r}, weight)
	default:
		for i := 1; i < len(m.At); i++ {
			b.field.line(m.At[i-1], m.At[i], weight)
		}
	}
}

func (b *board) line(of string, at ...mgl64.Vec2) { b.add(Mark{Kind: "line", Of: of, At: at}) }

// write puts a text where it is said to stand.
func (b *board) write(at mgl64.Vec2, text, of, align string) {
	b.add(Mark{Kind: "text", Of: of, At: []mgl64.Vec2{at}, Text: text, Size: letters, Align: align})
}

// textWidth is the width of a text in mm, or a little more: letters are counted as
// in the wider of the usual faces without serifs. Common practice, no source.
func textWidth(text string, size float64) float64 {
	sum := 0.0
	for _, r := range text {
		switch {
		case strings.ContainsRune("iljtfI.,:;'|!()[]/-  ", r):
			sum += 0.38
		case strings.ContainsRune("mwMW@%—", r):
			sum += 0.98
		case r >= 'A' && r <= 'Z':
			sum += 0.71
		case strings.ContainsRune("°\"", r):
			sum += 0.48
		case strings.ContainsRune("+−×≤", r):
			sum += 0.84
		default:
			sum += 0.6
		}
	}
	return sum * size
}

// textArea is the room that a text takes. A turned one is turned a quarter to
// the left.
func textArea(m Mark) area {
	wide, at := textWidth(m.Text, m.Size), m.At[0]
	before := map[string]float64{"left": 0, "middle": 0.5, "right": 1}[m.Align] * wide
	if m.Turn != 0 {
		return area{at[0] - 0.8*m.Size, at[1] - before, at[0] + 0.25*m.Size, at[1] - before + wide}
	}
	return area{at[0] - before, at[1] - 0.25*m.Size, at[0] - before + wide, at[1] + 0.8*m.Size}
}

// wrapped breaks a text into lines no wider than a width in mm.
func wrapped(text string, wide, size float64) []string {
	var out []string
	line := ""
	for word := range strings.FieldsSeq(text) {
		if line != "" && textWidth(line+" "+word, size) > wide {
			out, line = append(out, line), ""
		}
		line = strings.TrimSpace(line + " " + word)
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// label is a text of some lines that belongs to a place, or to any of several.
type label struct {
	to    []mgl64.Vec2
	lines []string
	of    string
	part  string
}

// perMM is what it costs a label to stand a millimetre farther off.
const perMM = 0.4

const lineApart = 1.25 * letters

// orders is in how many orders labels are tried: what is placed first has the
// choice.
const orders = 12

// placeAll places labels in the best of several orders: as they are given, and
// shuffled. The shuffles are the same in every run.
func (b *board) placeAll(labels []label) {
	var best board
	least := math.Inf(1)
	dice := rand.New(rand.NewPCG(1, 2))
	order := slices.Clone(labels)
	for range orders {
		try := *b
		try.out, try.thick = slices.Clone(b.out), slices.Clone(b.thick)
		try.field.on = slices.Clone(b.field.on)
		cost := 0.0
		for _, l := range order {
			if cost += try.place(l); cost > least {
				break
			}
		}
		if cost < least {
			best, least = try, cost
		}
		dice.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
	}
	*b = best
}

// place puts a label beside its place, where it is nearest and covers least, with
// a line back to it if it stands off, and says how ill it stands.
func (b *board) place(l label) float64 {
	half := mgl64.Vec2{0, lineApart * float64(len(l.lines)) / 2}
	for _, text := range l.lines {
		half[0] = max(half[0], textWidth(text, letters)/2)
	}
	b.field.tabulate()
	best, from, least := area{}, mgl64.Vec2{}, math.Inf(1)
	for _, to := range l.to {
		for _, off := range []float64{1.6, 2.6, 4, 6, 8, 11, 14, 18, 23, 29, 36, 45, 56, 70, 85, 100} {
			if perMM*off > least {
				break
			}
			for k := range 24 {
				sin, cos := math.Sincos(math.Pi / 12 * (float64(k) + 0.5))
				mid := to.Add(mgl64.Vec2{cos*off + clamp(1.6*cos)*half[0], sin*off + clamp(1.6*sin)*half[1]})
				box := area{mid[0] - half[0], mid[1] - half[1], mid[0] + half[0], mid[1] + half[1]}
				if cost := b.cost(box, to, least-perMM*off) + perMM*off; cost < least {
					best, from, least = box, to, cost
				}
			}
		}
	}
	end := best.near(from)
	align, x := "left", best.left
	if end.Sub(from).Len() > 3 {
		b.line(ofLabel, from, end)
		b.thick = append(b.thick, [2]mgl64.Vec2{from, end})
		b.add(Mark{Kind: "circle", Of: ofLabel, At: []mgl64.Vec2{from}, Radius: 0.4})
	}
	if from[0] > best.right-1 {
		align, x = "right", best.right
	}
	for i, text := range l.lines {
		y := best.top - lineApart*float64(i) - 0.9*letters
		b.add(Mark{Kind: "text", Of: l.of, At: []mgl64.Vec2{{x, y}}, Text: text, Size: letters, Align: align, Part: l.part})
	}
	return least
}

func clamp(x float64) float64 { return min(1, max(-1, x)) }

// cost of a label there: what it would cover, what its line back would cross, and
// what is off the paper. It is not reckoned to the end once it is more than most.
func (b *board) cost(box area, to mgl64.Vec2, most float64) float64 {
	cost := b.field.sum(box.grown(0.5))
	if end := box.near(to); cost < most && end.Sub(to).Len() > 3 {
		cost += 2 + 0.015*b.field.along(to, end) + 120*b.crossed(to, end)
	}
	if box.left < 1.5 || box.foot < 1.5 || box.right > b.wide-1.5 || box.top > b.high-1.5 {
		cost += 1e6
	}
	return cost
}

// crossed is how many legs and other lines back a line from a label crosses: what
// it is of would be read wrong.
func (b *board) crossed(p, q mgl64.Vec2) float64 {
	side := func(a, b, c mgl64.Vec2) bool { return (b[0]-a[0])*(c[1]-a[1]) > (c[0]-a[0])*(b[1]-a[1]) }
	count := 0.0
	p = p.Add(q.Sub(p).Normalize().Mul(0.7)) // it begins on a leg
	for _, l := range b.thick {
		if side(p, q, l[0]) != side(p, q, l[1]) && side(l[0], l[1], p) != side(l[0], l[1], q) {
			count++
		}
	}
	return count
}

// field remembers what is where on the paper, in small cells.
type field struct {
	wide, high int
	on         []float64
	sums       []float64 // of all cells left of and below a corner; see tabulate
}

const cellMM = 0.5

func newField(wide, high float64) field {
	f := field{wide: int(wide/cellMM) + 1, high: int(high/cellMM) + 1}
	f.on = make([]float64, f.wide*f.high)
	return f
}

// mark lets a cell weigh no less than weight.
func (f field) mark(x, y float64, weight float64) {
	if i, j := int(math.Floor(x/cellMM)), int(math.Floor(y/cellMM)); i >= 0 && j >= 0 && i < f.wide && j < f.high {
		f.on[j*f.wide+i] = max(f.on[j*f.wide+i], weight)
	}
}

func (f field) line(a, b mgl64.Vec2, weight float64) {
	steps := math.Ceil(b.Sub(a).Len()/(cellMM/2)) + 1
	for i := 0.0; i <= steps; i++ {
		p := a.Add(b.Sub(a).Mul(i / steps))
		f.mark(p[0], p[1], weight)
	}
}

// cover lets the cells of an area weigh no less than weight.
func (f field) cover(a area, weight float64) {
	for j := max(0, int(a.foot/cellMM)); j <= min(f.high-1, int(a.top/cellMM)); j++ {
		for i := max(0, int(a.left/cellMM)); i <= min(f.wide-1, int(a.right/cellMM)); i++ {
			f.on[j*f.wide+i] = max(f.on[j*f.wide+i], weight)
		}
	}
}

// tabulate readies sum for what lies on the paper now. Method: the summed-area
// table of F. Crow, 1984 (from memory).
func (f *field) tabulate() {
	row := f.wide + 1
	f.sums = make([]float64, row*(f.high+1))
	for j := range f.high {
		line := 0.0
		for i := range f.wide {
			line += f.on[j*f.wide+i]
			f.sums[(j+1)*row+i+1] = f.sums[j*row+i+1] + line
		}
	}
}

// sum is what lies in an area, by the square millimetre.
func (f field) sum(a area) float64 {
	row := f.wide + 1
	left, right := max(0, min(f.wide, int(a.left/cellMM))), max(0, min(f.wide, int(a.right/cellMM)+1))
	low, high := max(0, min(f.high, int(a.foot/cellMM))), max(0, min(f.high, int(a.top/cellMM)+1))
	return (f.sums[high*row+right] - f.sums[high*row+left] - f.sums[low*row+right] + f.sums[low*row+left]) * cellMM * cellMM
}

// along is what a line from a place would cross; what is at the place itself
// does not count.
func (f field) along(from, to mgl64.Vec2) float64 {
	long, sum := to.Sub(from).Len(), 0.0
	for at := 1.5; at < long; at += cellMM {
		p := from.Add(to.Sub(from).Mul(at / long))
		if i, j := int(p[0]/cellMM), int(p[1]/cellMM); i >= 0 && j >= 0 && i < f.wide && j < f.high {
			sum += min(f.on[j*f.wide+i], 3000)
		}
	}
	return sum * cellMM
}
