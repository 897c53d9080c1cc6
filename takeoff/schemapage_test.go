package takeoff

import (
	"fmt"
	"slices"
	"strings"
)

// reference returns the reference page of load files and sheets.
func reference() string {
	var b strings.Builder
	b.WriteString(pageTop)
	for _, g := range groups() {
		heading := strings.ToUpper(g.name[:1]) + g.name[1:]
		fmt.Fprintf(&b, "\n## %s\n\n", heading)
		if !strings.HasPrefix(g.name, "a ") && !strings.HasPrefix(g.name, "an ") {
			fmt.Fprintf(&b, "What stands after `%s`.\n\n", g.name)
		}
		if about := abouts[strings.TrimPrefix(g.name, "a ")] + groupAbouts[g.name]; about != "" {
			b.WriteString(about + "\n\n")
		}
		if g.name == "hitch" {
			b.WriteString(pageHitch)
		}
		b.WriteString(pageHardware[g.name])
		b.WriteString("| key | takes | |\n| --- | --- | --- |\n")
		for _, e := range g.keys {
			fmt.Fprintf(&b, "| %s | %s | %s |\n", named(e), inCell(e.takes), must1(e.must))
		}
	}
	b.WriteString("\n## What each part is\n\n")
	for _, name := range partKinds() {
		fmt.Fprintf(&b, "- `%s`: %s\n", name, abouts[name])
	}
	b.WriteString(pageSheets)
	columnTable(&b, columns)
	b.WriteString("\nSizes:\n\n")
	for _, f := range sizeForms {
		line := "- " + f.means
		if words := slices.DeleteFunc(slices.Clone(f.words), func(w string) bool { return w == "" }); len(words) > 1 {
			line += " (also " + strings.Join(words[1:], ", ") + ")"
		}
		b.WriteString(line + "\n")
	}
	for _, d := range designations {
		b.WriteString("- " + d + "\n")
	}
	b.WriteString(pageStock)
	columnTable(&b, stockColumns)
	return b.String()
}

// groupAbouts say what a group is that is no kind of part.
var groupAbouts = map[string]string{
	"a rigging bar": "Under the hook, or under an end of another bar. A spreader is held at its ends, a lifting beam at one or two points between them, a frame at its four corners. `holds` goes end by end, round the corners of a frame, the first two along its length. What gives no length is cut for all to hang level under a hook plumb over load and bars: the drops plumb where the bar is as long as the picks are apart, else meeting plumb over the CG. The topmost bar has a `hook` or lengths `top`; each bar has a `height` or, down to picks, lengths `drops`. Bars under a bar hang by legs to its end. `picks` stand beside `rig: {bar: ...}`; `hook`, `legs` and `sharing` do not.",
}

// columnTable lists the columns of a kind of sheet.
func columnTable(b *strings.Builder, columns []column) {
	b.WriteString("| column | other names | takes | unit of |\n| --- | --- | --- | --- |\n")
	for _, c := range columns {
		also := strings.Join(c.also, ", ")
		unit := map[measure]string{ofLength: "length", ofMass: "mass", ofPart: "%"}[c.measure]
		fmt.Fprintf(b, "| `%s` | %s | %s | %s |\n", c.name, also, inCell(c.takes), unit)
	}
}

// partKinds lists what a part can be.
func partKinds() []string {
	var names []string
	for _, k := range solidKinds {
		names = append(names, k.name)
	}
	return append(names, "mesh", "surface", "weight", "load")
}

func named(e entry) string {
	names := []string{"`" + e.name + "`"}
	for _, other := range e.also {
		names = append(names, "`"+other+"`")
	}
	return strings.Join(names, ", ")
}

func must1(must bool) string {
	if must {
		return "required"
	}
	return ""
}

// inCell keeps a text from ending its cell of a table.
func inCell(text string) string { return strings.ReplaceAll(text, "|", "\\|") }

const pageTop = `# The load file, and the take-off sheet

This page is made from the tables that the program reads by; a test holds it to
them (` + "`go test ./takeoff -update`" + ` writes it anew). To begin with:
` + "`plumbhook new -o my-lift.yaml`" + `, or ` + "`plumbhook new --sheet -o take-off.xlsx`" + `. For an editor
that completes keys: ` + "`plumbhook new --schema -o plumbhook.schema.json`" + `.

A load file is YAML, or JSON as its subset. A key that is not listed, a value
that is missing or in doubt, a length without a unit: each is an error that says
where it stands and how to mend it.

Lengths: a bare number takes ` + "`units`" + `; a number may carry its own unit: ` + "`3.2 m`" + `,
` + "`150 mm`" + `, ` + "`12' 6-1/2\"`" + `. No decimal comma, no thousands separator. ` + "`ton`" + ` alone is
refused: ` + "`t`" + `, ` + "`short ton`" + ` and ` + "`long ton`" + ` are not. Angles are in degrees.

Every solid stands on the centre of its base, its axis along +z, until ` + "`along`" + ` or
` + "`turn`" + ` turns it, and is placed in exactly one way. What is laid along a line
with ` + "`up`" + ` has its own x to the left, seen along the line with ` + "`up`" + ` up: the outline of
a polygon runs to the left there, and ` + "`check`" + ` shows where each part came to stand.

` + "`weight`" + `, the ` + "`length`" + ` of a weld and ` + "`status`" + ` are those of one piece; ` + "`count`" + ` is how many
there are, the first included. Cuts are placed in the load's axes for the first
piece and go with every other; a cut may itself be repeated by ` + "`count`" + ` and ` + "`step`" + `,
` + "`around`" + ` or ` + "`mirror`" + `.

` + "`candidates`" + ` says where picks may be proposed: by ` + "`picks`" + ` always, beside those of the
file, and by the other commands where the file has no ` + "`picks`" + `. Without it they are
proposed on the load's top. Of ` + "`lugs`" + ` every two, three and four are tried.
`

const pageSheets = `
## A take-off sheet

CSV (comma, semicolon or tab) or XLSX. One row is one part; it is checked as a
part of a load file is, and what is wrong is named by its cell. The header is
found among the first rows by the names of its columns, in any order, blind to
case. A figure takes its unit from its own cell (` + "`" + `3.2 m` + "`" + `), else from the header
(` + "`" + `length (mm)` + "`" + `, ` + "`" + `weight kg` + "`" + `) or a row of units below it; a length else from
` + "`" + `units` + "`" + ` above the header, or from ` + "`" + `--units` + "`" + `.

Above the header a row may hold ` + "`" + `load` + "`" + `, ` + "`" + `drawing` + "`" + `, ` + "`" + `datum` + "`" + `, ` + "`" + `units` + "`" + `, ` + "`" + `material` + "`" + `,
` + "`" + `hitch` + "`" + `, ` + "`" + `rules` + "`" + `, ` + "`" + `dynamic` + "`" + ` or ` + "`" + `planning` + "`" + ` (factors, such as 1.1) in one cell and the value in the next. A column whose name
begins with ` + "`" + `note` + "`" + `, ` + "`" + `remark` + "`" + ` or ` + "`" + `comment` + "`" + ` is not read; any other that is not listed
is an error. Rows with a mark or a description alone, and totals, are no parts: a
warning lists them. Each part needs x, y and z.

Where a row has a size and a weight, the weight is used where its status is
` + "`" + `weighed` + "`" + ` or ` + "`" + `catalogue` + "`" + `, else what size and material come to. Where the two differ
by more than 3 % there is a warning and the range reaches both; by more than a
factor of 2 it is an error. Dates in columns of figures are errors. In XLSX the value that a formula had when the file was saved is read;
of several sheets the one called ` + "`" + `take-off` + "`" + ` is. A cell of a CSV that begins with =
is an error.

`

const pageStock = `
## A list of your own slings

` + "`" + `sling stock: rack.csv` + "`" + ` names a list beside the load file, CSV or XLSX (of several sheets the
one that is called ` + "`" + `slings` + "`" + `). It is read as a take-off sheet is: the header is found by the
names of its columns, a figure takes its unit from its cell or the header, and a
rated load without a unit is refused. ` + "`" + `slings` + "`" + ` picks matched sets from it before it
looks at the tables: slings of one size and rating, each of the length that its
leg takes within ` + "`" + `length tolerance` + "`" + ` (1 mm where none is stated), less the ` + "`" + `hardware` + "`" + ` of
` + "`" + `legs` + "`" + `. With ` + "`" + `--date 2026-05-04` + "`" + ` a sling last inspected more than 12 months before
is not chosen. Take slings that are out of service off the list: a note is not read.
To have the lengths of the legs from the same rack, write them as well: ` + "`" + `legs: {lengths: {stock: [2500, 3000]}}` + "`" + `.
They are chosen for how the load hangs, and not for which of them are rated for it: if the list then lacks
a set of those lengths, ` + "`" + `slings` + "`" + ` says what is missing, and you leave that length out of ` + "`" + `stock` + "`" + `.

`
