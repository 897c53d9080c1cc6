package takeoff

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"plumbhook/units"
)

// kg prints a mass in kilograms, to four figures.
func kg(m units.Mass) string { return m.Format(units.Metric) }

// weighedNames are the names that `without` may say: parts, allowances, and
// sub-assemblies as a whole.
func weighedNames(l *Load) map[string]bool {
	known := map[string]bool{}
	for _, p := range l.Parts {
		known[p.Name] = true
		for at := range len(p.Name) {
			if strings.HasPrefix(p.Name[at:], " / ") {
				known[p.Name[:at]] = true
			}
		}
	}
	for _, a := range l.Allowances {
		known[a.Name] = true
	}
	return known
}

// nearNames says what may be written instead of a name that is not known.
func nearNames(name string, known map[string]bool) string {
	const most = 12
	names := slices.Sorted(maps.Keys(known))
	if near := units.Nearest(name, names); len(near) > 0 {
		return fmt.Sprintf("did you mean `%s`?", near[0])
	}
	if more := len(names) - most; more > 0 {
		names = append(names[:most], fmt.Sprintf("and %d more", more))
	}
	return "there are: " + strings.Join(names, ", ")
}

// text tells in words what the weighings say of the take-off.
func (f *fold) text(out WeighingResult) string {
	var b strings.Builder
	for _, a := range out.Apart {
		by := kg(units.Mass(math.Abs(a.By)))
		if a.What != weightItself {
			by = units.Length(math.Abs(a.By)).Format(units.Metric)
		}
		more := "more"
		if a.By < 0 {
			more = "less"
		}
		fmt.Fprintf(&b, "%s: %s %s %s than the take-off, %.1f sigmas. ", a.Weighing, a.What, by, more, math.Abs(a.Sigmas))
	}
	fmt.Fprintf(&b, "All readings together: %.1f sigmas. ", max(out.Together, 0))
	if exact := f.exact(); exact != "" {
		b.WriteString(exact + " ")
	}
	b.WriteString(f.notSeen())
	if !out.Conflict {
		b.WriteString("Take-off and cells agree within 3 sigmas.")
		return b.String()
	}
	fmt.Fprintf(&b, "CONFLICT, %.1f sigmas: the take-off, within its ranges, is not what stood on the cells. ", out.Sigmas)
	if suspects := f.suspects(out.Cells); suspects != "" {
		b.WriteString("One fault alone that would explain it: " + suspects + ". ")
	}
	b.WriteString("Look for what is missing from the take-off, wrong in a reading, in a cell's place or in the sign of a tilt; weigh again, or widen tolerances that claim too much.")
	return b.String()
}

// exact says what was taken as exact.
func (f *fold) exact() string {
	var places, tilts []string
	for _, w := range f.weighings {
		if w.Places == 0 {
			places = append(places, w.Name)
		}
		if w.About.Len() > 0 && w.TiltAccuracy == 0 {
			tilts = append(tilts, w.Name)
		}
	}
	var said []string
	if len(places) > 0 {
		said = append(said, "the places of the cells ("+strings.Join(places, "; ")+")")
	}
	if len(tilts) > 0 {
		said = append(said, "the tilt ("+strings.Join(tilts, "; ")+")")
	}
	if said == nil {
		return ""
	}
	return "Taken as exact: " + strings.Join(said, " and ") + "."
}

// suspects names the cells, and the part, that alone would explain a conflict:
// those whose sigmas come within a tenth of the greatest, three at most.
func (f *fold) suspects(cells []CellCheck) string {
	type suspect struct {
		sigmas float64
		text   string
	}
	var all []suspect
	for _, c := range cells {
		all = append(all, suspect{math.Abs(c.Sigmas), fmt.Sprintf("cell %s (%s) reads %s", c.Cell, c.Weighing, moreOrLess(c.Off, "too much", "too little"))})
	}
	for j, one := range f.items {
		sigmas, off := f.alone(f.columnOf(j))
		all = append(all, suspect{math.Abs(sigmas), fmt.Sprintf("%s weighs %s than taken off", one.name, moreOrLess(units.Mass(off), "more", "less"))})
	}
	slices.SortStableFunc(all, func(a, b suspect) int { return cmp.Compare(b.sigmas, a.sigmas) })
	var said []string
	for _, s := range all {
		if len(said) < 3 && s.sigmas > 0 && s.sigmas >= 0.9*all[0].sigmas {
			said = append(said, s.text)
		}
	}
	return strings.Join(said, ", or ")
}

// moreOrLess prints how much more or less.
func moreOrLess(m units.Mass, more, less string) string {
	if m < 0 {
		return kg(-m) + " " + less
	}
	return kg(m) + " " + more
}

// weighedLines returns the load file's lines of the weighed load: one part with the
// weight and CG of take-off and cells together. Its tolerance is three sigmas,
// rounded up to a tenth of a percent: a coverage of 99.7 % where the errors
// are many and small (normal distribution). Where that is no tolerance that a
// load file takes, there are no lines.
func weighedLines(out WeighingResult) []string {
	part := math.Ceil(3000*float64(out.WeightSigma)/float64(out.Weight)) / 10 // %
	if out.Conflict || !(part <= 95) {
		return nil
	}
	var place []string
	far := 0.0
	for i := range 3 {
		place = append(place, strconv.FormatFloat(1000*out.CG[i], 'f', 1, 64)+" mm")
		far = max(far, 3*out.CGSigma[i])
	}
	return []string{
		"- name: whole load as weighed",
		"  weight: " + strconv.FormatFloat(float64(out.Weight), 'f', weightDigits(float64(out.Weight)), 64) + " kg",
		"  center: [" + strings.Join(place, ", ") + "]",
		"  position: " + strconv.FormatFloat(math.Ceil(max(far*1000, 0.1)), 'f', 0, 64) + " mm",
		"  tolerance: " + strconv.FormatFloat(part, 'f', 1, 64) + " %",
		"  status: weighed",
	}
}

// weightDigits is how many decimals show five figures of a weight.
func weightDigits(kg float64) int {
	return max(0, min(9, 4-int(math.Floor(math.Log10(kg)))))
}
