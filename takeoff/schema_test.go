package takeoff

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"
)

var update = flag.Bool("update", false, "write the reference page anew; look at the difference")

// TestSchemaTakesSamples holds every key of the samples, and of the file of
// this package that uses them all, against the schema.
func TestSchemaTakesSamples(t *testing.T) {
	var doc map[string]any
	require.NoError(t, json.Unmarshal(Schema(), &doc))
	assert.Equal(t, "http://json-schema.org/draft-07/schema#", doc["$schema"])
	names, err := filepath.Glob("../samples/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, name := range append(names, "testdata/housing.yaml") {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		var root yaml.Node
		require.NoError(t, yaml.Unmarshal(text, &root))
		for _, fault := range against(doc, doc, root.Content[0]) {
			t.Errorf("%s: %s", name, fault)
		}
	}
	var wrong yaml.Node
	require.NoError(t, yaml.Unmarshal([]byte("load: a\nparts: [{box: 1 x 1 x 1, at: 3, colour: red}, {tube: {wal: 3}}]\nhook: {above: picks, hight: 3}"), &wrong))
	assert.Len(t, against(doc, doc, wrong.Content[0]), 5, "at, colour, wal, no wall, hight")
}

// against holds a value against a schema: the keywords that ours uses.
func against(doc, s map[string]any, n *yaml.Node) []string {
	if ref, ok := s["$ref"].(string); ok {
		id := strings.TrimPrefix(ref, "#/definitions/")
		next, ok := doc["definitions"].(map[string]any)[id].(map[string]any)
		if !ok {
			return []string{"no definition of " + id}
		}
		return against(doc, next, n)
	}
	if choices, ok := s["anyOf"].([]any); ok {
		var faults []string
		for _, one := range choices {
			faults = against(doc, one.(map[string]any), n)
			if len(faults) == 0 {
				return nil
			}
		}
		return faults // of the last, which is the group
	}
	var faults []string
	if want := s["type"]; want != nil && !slices.ContainsFunc(typesOf(n), func(is string) bool { return strings.Contains(fmt.Sprint(want), is) }) {
		return []string{fmt.Sprintf("line %d: want %v", n.Line, want)}
	}
	if items, ok := s["items"].(map[string]any); ok {
		for _, one := range n.Content {
			faults = append(faults, against(doc, items, one)...)
		}
	}
	properties, ok := s["properties"].(map[string]any)
	if !ok || n.Kind != yaml.MappingNode {
		return faults
	}
	here := map[string]bool{}
	for i := 0; i < len(n.Content); i += 2 {
		word := n.Content[i].Value
		here[word] = true
		if p, ok := properties[word].(map[string]any); ok {
			faults = append(faults, against(doc, p, n.Content[i+1])...)
		} else {
			faults = append(faults, fmt.Sprintf("line %d: unknown key %s", n.Content[i].Line, word))
		}
	}
	required, _ := s["required"].([]any)
	for _, word := range required {
		if !here[word.(string)] {
			faults = append(faults, fmt.Sprintf("line %d: no %s", n.Line, word))
		}
	}
	return faults
}

// typesOf are the types of JSON that a value is.
func typesOf(n *yaml.Node) []string {
	switch {
	case n.Kind == yaml.MappingNode:
		return []string{"object"}
	case n.Kind == yaml.SequenceNode:
		return []string{"array"}
	case n.Tag == "!!int":
		return []string{"integer", "number"}
	case n.Tag == "!!float":
		return []string{"number"}
	case n.Tag == "!!bool":
		return []string{"boolean"}
	}
	return []string{"string"}
}

// TestSchemaHasEveryGroup finds each group that the walker reads, and each
// group that a key leads to.
func TestSchemaHasEveryGroup(t *testing.T) {
	var names []string
	keys := map[string]bool{}
	for _, g := range groups() {
		names = append(names, g.name)
		for _, e := range g.keys {
			keys[g.name+" "+e.name] = true
		}
	}
	for at, e := range inners {
		assert.True(t, keys[at], "%q is no key", at)
		assert.Contains(t, names, e.inner)
	}
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	walks := regexp.MustCompile(`walk\(r, \w+, "([^"]+)", `)
	found := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, m := range walks.FindAllStringSubmatch(string(text), -1) {
			if name := strings.Trim(m[1], "`"); name != "a take-off sheet" {
				assert.Contains(t, names, name, "%s reads a group that the schema has not", file)
				found++
			}
		}
	}
	assert.Greater(t, found, 10)
}

// TestReferenceIsUpToDate holds the page against the tables.
func TestReferenceIsUpToDate(t *testing.T) {
	const name = "../docs/load-file.md"
	want := reference()
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o777))
		require.NoError(t, os.WriteFile(name, []byte(want), 0o666))
	}
	got, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.True(t, want == string(got), "the tables have changed: go test ./takeoff -run TestReferenceIsUpToDate -update")
}
