package takeoff

import (
	"fmt"
	"io/fs"
	"path"
	"strings"

	"go.yaml.in/yaml/v3"
)

// Input is one thing that an input says: where it stands in words, and what is
// written there.
type Input struct {
	Path  string `json:"path"`
	Value string `json:"value"`
}

// Inputs lists all that a load file says, in its order, so that two revisions can
// be held against each other. Members of a list are told by their names, so that a
// part put in between is not taken for a change of all that follow. Of a take-off
// sheet each cell is listed under its mark, of a mesh nothing.
func Inputs(fsys fs.FS, name string, opt Options) []Input {
	switch endings[strings.ToLower(path.Ext(name))] {
	case "yaml":
		data, err := readWhole(fsys, name, opt.bytes(mostBytes))
		if err != nil {
			return nil
		}
		root, err := decode(data)
		if err != nil || root == nil {
			return nil
		}
		return flatten(root, "", nil)
	case "csv", "xlsx":
		s, err := listFile(fsys, name, opt, columns, "take-off", "")
		if err != nil {
			return nil
		}
		return s.inputs()
	}
	return nil
}

func (s *sheet) inputs() (all []Input) {
	seen := map[string]int{}
	for _, row := range s.grid[s.head+1:] {
		mark := strings.TrimSpace(s.text(row, "mark") + " " + s.text(row, "description"))
		if seen[mark]++; seen[mark] > 1 {
			mark = fmt.Sprintf("%s (%d)", mark, seen[mark])
		}
		for _, c := range columns {
			if n := s.node(row, c.name); n != nil && c.name != "mark" && c.name != "description" {
				all = append(all, Input{mark + ": " + c.name, s.withUnit(n, c.name).Value})
			}
		}
	}
	return all
}

// flatten lists the values under a node.
func flatten(n *yaml.Node, at string, all []Input) []Input {
	switch n.Kind {
	case yaml.DocumentNode:
		for _, c := range n.Content {
			all = flatten(c, at, all)
		}
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			all = flatten(n.Content[i+1], pathTo(at, n.Content[i].Value), all)
		}
	case yaml.SequenceNode:
		if plain(n) {
			return append(all, Input{at, inBrackets(n)})
		}
		seen := map[string]int{}
		for i, c := range n.Content {
			name := nameIn(c)
			if name == "" {
				name = fmt.Sprint(i + 1)
			}
			if seen[name]++; seen[name] > 1 {
				name = fmt.Sprintf("%s (%d)", name, seen[name])
			}
			all = flatten(c, pathTo(at, name), all)
		}
	case yaml.ScalarNode:
		all = append(all, Input{at, oneLine(n.Value)})
	}
	return all
}

func pathTo(at, word string) string {
	if at == "" {
		return word
	}
	return at + " › " + word
}

// plain tells whether a list holds values alone, such as a place.
func plain(n *yaml.Node) bool {
	for _, c := range n.Content {
		if c.Kind != yaml.ScalarNode {
			return false
		}
	}
	return true
}

func inBrackets(n *yaml.Node) string {
	var words []string
	for _, c := range n.Content {
		words = append(words, oneLine(c.Value))
	}
	return "[" + strings.Join(words, ", ") + "]"
}

// nameIn is the name that a group of keys gives itself.
func nameIn(n *yaml.Node) string {
	if n.Kind != yaml.MappingNode {
		return ""
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == "name" {
			return oneLine(n.Content[i+1].Value)
		}
	}
	return ""
}
