package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"plumbhook/units"
)

// key is one key that a group of the load file may have. The tables of keys
// are the only description of the file: the walker, the help on a wrong key
// and a schema for editors are all made from their rows. The order of a table
// is the order of reading, whatever the order in the file.
type key[T any] struct {
	name   string
	also   []string // other spellings of the name
	takes  string   // what its value is, in words
	must   bool     // may not be left out
	refuse string   // known and not taken: what to write instead
	read   func(r *reader, n *yaml.Node, into *T)
}

// is tells whether a word in the file is this key.
func (k key[T]) is(word string) bool { return k.name == word || slices.Contains(k.also, word) }

// walk reads a group of keys into a value and reports whether n is such a
// group at all. What the group is called ("a part") is used in the messages.
func walk[T any](r *reader, n *yaml.Node, what string, keys []key[T], into *T) bool {
	if !r.isGroup(n, what, namesOf(keys)) {
		return false
	}
	type use struct{ word, value *yaml.Node } // value nil: there, but reported
	used := map[string]use{}                  // by the key's first name
	var meant []string                        // by misspelt keys
	for i := 0; i+1 < len(n.Content); i += 2 {
		word, value := n.Content[i], n.Content[i+1]
		if word.Kind != yaml.ScalarNode || word.Tag == "!!merge" {
			continue // reported with the tree
		}
		at := slices.IndexFunc(keys, func(k key[T]) bool { return k.is(word.Value) })
		if at < 0 {
			meant = append(meant, r.unknownKey(word, what, namesOf(keys)))
			continue
		}
		k := keys[at]
		switch first, twice := used[k.name]; {
		case twice && first.word.Value != word.Value:
			r.twoSpellings(word, first.word.Value)
		case twice: // reported with the tree
		case r.taken(word, value, k.takes, k.refuse):
			used[k.name] = use{word, value}
		default:
			used[k.name] = use{word, nil}
		}
	}
	for _, k := range keys {
		switch u, here := used[k.name]; {
		case !here && k.must && !slices.Contains(meant, k.name):
			r.bad(n, fmt.Sprintf("%s has no `%s`", what, k.name), fmt.Sprintf("write `%s:` with %s", k.name, k.takes))
		case u.value != nil && k.read != nil:
			k.read(r, u.value, into)
		}
	}
	return true
}

// namesOf lists what a group may say, for the help on a wrong key.
func namesOf[T any](keys []key[T]) []string {
	var names []string
	for _, k := range keys {
		if k.refuse == "" {
			names = append(names, k.name)
		}
	}
	return names
}

// isGroup reports whether n is a group of keys, and says so if it is not.
func (r *reader) isGroup(n *yaml.Node, what string, names []string) bool {
	if n.Kind == yaml.MappingNode && len(n.Content) > 0 {
		return true
	}
	if n.Kind != yaml.AliasNode {
		r.bad(n, fmt.Sprintf("%s must be a group of keys; this is %s", what, kindOf(n)),
			fmt.Sprintf("write `key: value` lines, with a space after each colon; %s takes: %s", what, strings.Join(names, ", ")))
	}
	return false
}

// unknownKey says that a key is not known, and returns the known one that was
// most likely meant.
func (r *reader) unknownKey(word *yaml.Node, what string, names []string) (meant string) {
	fix := fmt.Sprintf("%s takes: %s", what, strings.Join(names, ", "))
	if before, _, colon := strings.Cut(word.Value, ":"); colon && slices.Contains(names, before) {
		fix, meant = fmt.Sprintf("write a space after the colon: `%s: ...`", before), before
	} else if near := units.Nearest(word.Value, names); len(near) > 0 {
		fix, meant = fmt.Sprintf("did you mean `%s`? %s", near[0], fix), near[0]
	}
	r.bad(word, fmt.Sprintf("unknown key %q in %s", short(word.Value), what), fix)
	return meant
}

// twoSpellings says that a key was written twice under different names.
func (r *reader) twoSpellings(word *yaml.Node, first string) {
	r.bad(word, fmt.Sprintf("`%s` means the same as `%s`, and both are here", word.Value, first), "keep one of the two")
}

// taken reports whether a known key has a value that is to be read.
func (r *reader) taken(word, value *yaml.Node, takes, refuse string) bool {
	switch {
	case refuse != "":
		r.bad(word, fmt.Sprintf("the key %q is not taken", word.Value), refuse)
	case isEmpty(value):
		r.bad(word, fmt.Sprintf("`%s` has no value", word.Value), fmt.Sprintf("write %s, or take the key away", takes))
	default:
		return true
	}
	return false
}

// isEmpty reports whether nothing stands after a key: nothing, a null, or
// empty quotes.
func isEmpty(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && (n.Tag == "!!null" || strings.TrimSpace(n.Value) == "")
}

// kindOf names what a node is, for a message.
func kindOf(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.MappingNode && len(n.Content) == 0:
		return "an empty group"
	case n.Kind == yaml.MappingNode:
		return "a group of keys"
	case n.Kind == yaml.SequenceNode && len(n.Content) == 0:
		return "an empty list"
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case isEmpty(n):
		return "nothing"
	}
	return fmt.Sprintf("%q", short(n.Value))
}

// oneLine puts a value that was written over several lines into one.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// short cuts a long value for a message.
func short(s string) string {
	r := []rune(oneLine(s))
	if len(r) > 60 {
		return string(r[:60]) + "…"
	}
	return string(r)
}
