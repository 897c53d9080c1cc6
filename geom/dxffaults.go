package geom

import (
	"fmt"
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
)

// twice looks for lines that are drawn over each other.
func (c *chainer) twice() error {
	type key struct {
		from, to int
		bulge    float64
	}
	seen := map[key]int{}
	for i, p := range c.paths {
		if len(p.points) > 2 {
			continue
		}
		k := key{c.nodes[2*i], c.nodes[2*i+1], math.Round(p.bulges[0] * 1e6)}
		if k.from > k.to {
			k.from, k.to, k.bulge = k.to, k.from, -k.bulge
		}
		if before, again := seen[k]; again {
			return p.from.fault(fmt.Sprintf("is drawn over another, on line %d of the file, from %s to %s", c.paths[before].from.line, dxfPlace(p.end(0)), dxfPlace(p.end(1))),
				"take one of the two out (drawing programs have a command that removes what is drawn twice) and save again")
		}
		seen[k] = i
	}
	return nil
}

func dxfPlace(v mgl64.Vec2) string { return fmt.Sprintf("(%.6g, %.6g)", v[0], v[1]) }

// openFault names the ends that meet no other, and how far the next one is.
func (c *chainer) openFault(open []pathEnd) error {
	var places []string
	for _, e := range open[:min(len(open), mostPlaces)] {
		at := c.paths[e.path].end(e.end)
		next, far := mgl64.Vec2{}, math.Inf(1)
		for _, o := range open {
			if to := c.paths[o.path].end(o.end); o != e && to.Sub(at).Len() < far {
				next, far = to, to.Sub(at).Len()
			}
		}
		from := c.paths[e.path].from
		text := fmt.Sprintf("%s of the %s on line %d", dxfPlace(at), from.kind, from.line)
		if from.layer != "" {
			text += ", layer " + quotedText(from.layer)
		}
		if !math.IsInf(far, 1) {
			text += fmt.Sprintf(", %.4g from the open end %s", far, dxfPlace(next))
		}
		places = append(places, text)
	}
	if more := len(open) - len(places); more > 0 {
		places = append(places, fmt.Sprintf("and %d more", more))
	}
	return &FileError{Line: c.paths[open[0].path].from.line,
		Msg: fmt.Sprintf("the outline is not closed: %s no other (ends up to %.2g apart are joined): %s",
			count(len(open), "end meets", "ends meet"), c.gap, strings.Join(places, "; ")),
		Fix: "close the gaps in the drawing program, take out lines that are not part of the outline, and save again"}
}

func (c *chainer) branchFault(node pathNode) error {
	var lines []string
	for _, e := range node.ends {
		lines = append(lines, fmt.Sprint(c.paths[e.path].from.line))
	}
	return &FileError{Line: c.paths[node.ends[0].path].from.line,
		Msg: fmt.Sprintf("%d ends meet at %s, so it is not clear how the outline goes on: of the lines and arcs on lines %s of the file", len(node.ends), dxfPlace(node.place), strings.Join(lines[:min(len(lines), 10)], ", ")),
		Fix: "take out lines that are not part of the outline, or are drawn twice, and save again"}
}
