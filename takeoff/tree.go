package takeoff

import (
	"fmt"

	"go.yaml.in/yaml/v3"
)

// checkTree refuses what YAML allows and a load file has no use for: anchors
// and aliases (a few lines can stand for gigabytes), tags, keys that are not
// plain words, a key twice. It reports whether the tree can be walked.
func (r *reader) checkTree(root *yaml.Node) bool {
	count, most, ok := 0, r.source.opt.mostNodes(), true
	var visit func(n *yaml.Node, depth int)
	visit = func(n *yaml.Node, depth int) {
		count++
		switch {
		case !ok:
			return
		case depth > mostDepth:
			ok = false
			r.bad(n, "the file is nested too deeply", fmt.Sprintf("a load file needs only a few levels; more than %d are never read", mostDepth))
			return
		case count > most:
			ok = false
			r.bad(n, fmt.Sprintf("the file has more than %d values", most), "split the load into several files, "+raiseParts)
			return
		}
		r.checkNode(n)
		for _, child := range n.Content {
			visit(child, depth+1)
		}
	}
	visit(root, 0)
	return ok
}

// checkNode reports an anchor, an alias, a tag, or a wrong key at one node.
func (r *reader) checkNode(n *yaml.Node) {
	switch {
	case n.Kind == yaml.AliasNode:
		r.bad(n, fmt.Sprintf("the alias *%s is not read here", short(n.Value)), "write the value out in each place")
	case n.Anchor != "":
		r.bad(n, fmt.Sprintf("the anchor &%s is not read here", short(n.Anchor)), "take it away and write values out in each place")
	case n.Style&yaml.TaggedStyle != 0:
		r.bad(n, fmt.Sprintf("the tag %s is not read here", short(n.Tag)), "take the tag away: the key says what the value is")
	}
	if n.Kind != yaml.MappingNode {
		return
	}
	first := map[string]int{}
	for i := 0; i < len(n.Content); i += 2 {
		k := n.Content[i]
		switch line, twice := first[k.Value]; {
		case k.Kind != yaml.ScalarNode:
			r.bad(k, "a key must be a plain word", "write `key: value`")
		case k.Tag == "!!merge":
			r.bad(k, "the merge key << is not read here", "write the keys out in each place")
		case twice:
			r.bad(k, fmt.Sprintf("the key %q is here twice, first on line %d", short(k.Value), line), "keep one of the two")
		default:
			first[k.Value] = k.Line
		}
	}
}
