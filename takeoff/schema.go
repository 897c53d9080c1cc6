package takeoff

import (
	"encoding/json"
	"slices"
	"strings"
)

// The JSON Schema for editors and the reference page are made from the tables
// that the walker reads by: what they say is what is read.

// group is a group of keys, as the schema and the reference page tell it.
type group struct {
	name string // as in the walker's messages, without back quotes
	keys []entry
}

// entry is one key of a group.
type entry struct {
	name, takes string
	also        []string
	must        bool
	inner       string // the group that may stand after it, by name; empty: none
	list        bool   // a list of such groups
	plain       bool   // a value without keys may stand after it as well
	named       bool   // such groups by names of their own
}

// inners are the keys after which a group stands, by group and key.
var inners = map[string]entry{
	"a load file parts":        {inner: "a part", list: true},
	"a load file materials":    {inner: "a material", list: true},
	"a load file material":     {inner: "a material", plain: true},
	"a load file allowances":   {inner: "an allowance", list: true},
	"an allowance material":    {inner: "a material", plain: true},
	"a load file picks":        {inner: "a pick", list: true},
	"a load file hitch":        {inner: "hitch", plain: true},
	"a pick hitch":             {inner: "hitch", plain: true},
	"a load file candidates":   {inner: "candidates"},
	"candidates lugs":          {inner: "a pick", list: true},
	"a pick fitting":           {inner: "a fitting"},
	"a load file weighings":    {inner: "a weighing", list: true},
	"a pick lug":               {inner: "a lug"},
	"a weighing cells":         {inner: "a cell", list: true},
	"a weighing tilt":          {inner: "tilt"},
	"a load file hook":         {inner: "a hook"},
	"a load file legs":         {inner: "legs"},
	"a load file surroundings": {inner: "surroundings"},
	"a load file factors":      {inner: "factors"},
	"a load file limits":       {inner: "limits"},
	"a load file sharing":      {inner: "sharing"},
	"a load file wind":         {inner: "wind"},
	"a load file tag line":     {inner: "tag line"},
	"a load file lift-off":     {inner: "lift-off"},
	"a load file states":       {inner: "a state", named: true},
	"a state contents":         {inner: "contents", named: true},
	"a part contents":          {inner: "contents"},
	"contents fluid":           {inner: "a material", plain: true},
	"contents inside":          {inner: "a cut"},
	"a part material":          {inner: "a material", plain: true},
	"a part cuts":              {inner: "a cut", list: true},
	"a part around":            {inner: "around"},
	"a cut around":             {inner: "around"},
	"a cut mirror":             {inner: "mirror"},
	"a part mirror":            {inner: "mirror"},
	"surroundings edges":       {inner: "edges", plain: true},
	"limits crane":             {inner: "crane"},
	"limits obstacle":          {inner: "obstacle"},
	"crane table":              {inner: "a crane row", list: true, plain: true},
	"crane hoist rope":         {inner: "hoist rope"},
	"crane deductions":         {inner: "a deduction", list: true},
	"legs shortener":           {inner: "shortener"},
	"legs stretch":             {inner: "stretch"},
	"legs attitude":            {inner: "attitude"},
	"a load file rig":          {inner: "rig"},
	"rig two hooks":            {inner: "two hooks"},
	"two hooks turn":           {inner: "a turn on two hooks"},
	"two hooks cranes":         {inner: "cranes"},
	"cranes head":              {inner: "a crane of two"},
	"cranes tail":              {inner: "a crane of two"},
	"rig bar":                  {inner: "a rigging bar"},
	"an end of a bar bar":      {inner: "a rigging bar"},
}

// groups lists all groups of keys, in the order of the page.
func groups() []group {
	all := []group{
		told("a load file", topKeys()), told("a part", partKeys()), told("a cut", cutKeys()),
		told("around", aroundKeys), told("mirror", mirrorKeys), told("contents", contentsKeys), told("a material", ownKeys),
		told("an allowance", allowanceKeys()),
	}
	for _, k := range solidKinds {
		if len(k.fields) > 0 {
			all = append(all, told("a "+k.name, k.fields))
		}
	}
	return append(all, told("an arc", arcKeys), told("a state", stateKeys), told("a pick", pickKeys), told("a hook", hookKeys), told("legs", legKeys), told("shortener", shortenerKeys), told("stretch", stretchKeys), told("attitude", attitudeKeys),
		told("hitch", hitchKeys), told("a lug", lugKeys), told("candidates", candidateKeys), told("a fitting", fittingKeys),
		told("surroundings", surroundingKeys), told("edges", edgeKeys), told("factors", factorKeys),
		told("limits", limitKeys), told("obstacle", obstacleKeys), told("crane", craneKeys),
		told("a crane row", craneRowKeys), told("hoist rope", ropeKeys), told("a deduction", deductionKeys), told("sharing", sharingKeys),
		told("wind", windKeys), told("tag line", tagLineKeys), told("lift-off", liftOffKeys),
		told("rig", rigKeys), told("a rigging bar", barKeys()), told("an end of a bar", heldKeys(1)), told("two hooks", twoHooksKeys), told("a turn on two hooks", turnKeys), told("cranes", cranesKeys), told("a crane of two", hookCraneKeys),
		told("a weighing", weighingKeys), told("a cell", cellKeys), told("tilt", tiltKeys))
}

// told takes from a table of keys what is to be told of it: keys that are
// refused are left out.
func told[T any](name string, keys []key[T]) group {
	g := group{name: name}
	for _, k := range keys {
		if k.refuse != "" {
			continue
		}
		e := inners[name+" "+k.name]
		e.name, e.also, e.takes, e.must = k.name, k.also, k.takes, k.must
		if (name == "a part" || name == "a cut") && e.inner == "" {
			if at := slices.IndexFunc(solidKinds, func(s kind) bool { return s.name == k.name && len(s.fields) > 0 }); at >= 0 {
				e.inner, e.plain = "a "+k.name, solidKinds[at].sizes > 0
			}
		}
		g.keys = append(g.keys, e)
	}
	return g
}

// Schema returns a JSON Schema (draft-07) of the load file, for editors: which
// keys there are, which have to be there, and what each takes. It is wider
// than the walker, which has the last word.
func Schema() []byte {
	definitions := map[string]any{}
	all := groups()
	for _, g := range all {
		definitions[idOf(g.name)] = g.schema()
	}
	doc := map[string]any{
		"$schema":     "http://json-schema.org/draft-07/schema#",
		"title":       "plumbhook load file",
		"$ref":        "#/definitions/" + idOf(all[0].name),
		"definitions": definitions,
	}
	text, err := json.MarshalIndent(doc, "", "  ")
	if err != nil { // maps of texts always can be written
		return nil
	}
	return append(text, '\n')
}

// idOf is the name of a group in the schema.
func idOf(name string) string {
	return strings.ReplaceAll(strings.TrimPrefix(strings.TrimPrefix(name, "a "), "an "), " ", "-")
}

// schema describes a group.
func (g group) schema() map[string]any {
	properties := map[string]any{}
	var required []string
	for _, e := range g.keys {
		properties[e.name] = e.schema()
		for _, other := range e.also {
			properties[other] = e.schema()
		}
		if e.must && len(e.also) == 0 {
			required = append(required, e.name)
		}
	}
	s := map[string]any{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		s["required"] = required
	}
	return s
}

// schema describes what stands after a key.
func (e entry) schema() map[string]any {
	s := map[string]any{"description": e.takes}
	ref := map[string]any{"$ref": "#/definitions/" + idOf(e.inner)}
	switch {
	case e.inner == "":
		if t := jsonTypes[e.takes]; t != nil {
			s["type"] = t
		}
	case e.list && e.plain:
		s["anyOf"] = []any{map[string]any{"type": "string"}, map[string]any{"type": "array", "items": ref}}
	case e.list:
		s["type"], s["items"] = "array", ref
	case e.named:
		s["type"], s["additionalProperties"] = "object", ref
	case e.plain:
		s["anyOf"] = []any{map[string]any{"type": "string"}, ref}
	default:
		s["anyOf"] = []any{ref} // beside a bare $ref a description is not read
	}
	return s
}

// jsonTypes are the types of values in an editor, by what a key takes. What is
// not here may be of any.
var jsonTypes = map[string]any{
	aText: []string{"string", "number"}, aUnit: "string", aMass: "string", aPercent: "string",
	aLength: []string{"number", "string"}, aSize: "string", aPlace: "array",
	aFactor: "number", aNumber: "number", anAngle: []string{"number", "string"}, aWhole: "integer",
	aSection: "string", aPipe: "string",
}
