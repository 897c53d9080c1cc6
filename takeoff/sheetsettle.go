package takeoff

import (
	"fmt"
	"slices"
	"strings"
)

// settle finishes the parts with what only a sheet says, and points out what
// was read in one of several ways.
func (s *sheet) settle(l *Load) {
	var upright, together []string
	for i := range l.Parts {
		p := &l.Parts[i]
		w := s.rows[p.Line]
		if w == nil {
			continue
		}
		p.Written = s.written(p, w)
		if w.together {
			p.Places, p.Count = slices.Repeat(p.Places, w.quantity), w.quantity
			p.Together = true
			together = append(together, w.name)
		}
		if w.upright {
			upright = append(upright, w.name)
		}
		s.reconcile(p, w)
	}
	s.joinWarnings()
	if len(together) > 0 {
		s.warn("pieces-together", "", "x, y, z was read as the common centre of all pieces of the row: "+few(together)+"; the range of the CG and the outline leave out how far the pieces are spread",
			"give the way from piece to piece in dx, dy, dz, or each piece its own row")
	}
	if len(upright) > 0 {
		s.warn("along-default", "", "long parts that do not say along which axis they run were taken as upright, along z: "+few(upright)+"; their weight and CG are the same either way, the outline is not",
			"write x, y or z in the column `along`")
	}
	if len(s.heads) > 0 {
		s.warn("rows-skipped", "", "rows with words alone, or a total, were read as no part: "+few(s.heads), "give a row that is a part a size or a weight, and x, y, z")
	}
}

// written is what the row says of a part, in the words of its cells.
func (s *sheet) written(p *Part, w *sheetRow) string {
	var said []string
	if p.weight() {
		name, of := "weight", ""
		if w.cells[name] == nil {
			name, of = "total weight", " in all"
		}
		said = append(said, s.said(w, name)+of)
	}
	if n := w.cells["size"]; n != nil {
		said = append(said, strings.TrimPrefix(n.Value, p.Kind+" "))
		if long := w.cells["length"]; long != nil {
			said = append(said, "length "+long.Value)
		}
	}
	return strings.Join(said, ", ")
}

// few lists names, not too many of them.
func few(names []string) string {
	const most = 20
	if more := len(names) - most; more > 0 {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", more)
	}
	return strings.Join(names, ", ")
}

// joinWarnings makes one warning of those that each row with a bare weight
// would get.
func (s *sheet) joinWarnings() {
	var kept []Warning
	var names []string
	for _, w := range s.warnings {
		if w.Code == "status-default" {
			names = append(names, w.Part)
		} else {
			kept = append(kept, w)
		}
	}
	if s.warnings = kept; len(names) > 0 {
		s.warn("status-default", "", fmt.Sprintf("nothing is said of how some weights are known: taken as estimated, %s: %s", s.tolerances["estimated"].span, few(names)),
			"write weighed, catalogue, calculated or estimated in the column `status`, or a tolerance in `tolerance`")
	}
}
