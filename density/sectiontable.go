package density

import (
	"embed"
	"encoding/csv"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

//go:embed sections/*.csv
var sectionFiles embed.FS

// sections reads the tables in the program, once.
var sections = sync.OnceValues(func() (*sectionTable, error) { return readSections(sectionFiles) })

// sectionTable holds the sections and the names that lead to them.
type sectionTable struct {
	sections []Section
	keys     [][]string     // of each section: its name, then its synonyms
	byKey    map[string]int // key of a name or synonym to the place in sections
	allKeys  []string       // the keys of byKey, sorted
}

// readSections reads the folder sections: the families of rolled sections, then
// the sizes of hollow sections, then pipe.
func readSections(fsys fs.FS) (*sectionTable, error) {
	t := &sectionTable{byKey: map[string]int{}}
	for _, f := range families {
		if err := t.read(fsys, f.file, f.header(), func(row []string) ([]Section, error) {
			s, err := f.section(row)
			return []Section{s}, err
		}); err != nil {
			return nil, err
		}
	}
	if err := t.read(fsys, "sizes.csv", sizesHeader, listedHollow); err != nil {
		return nil, err
	}
	if err := t.read(fsys, "pipe.csv", pipeHeader, pipes); err != nil {
		return nil, err
	}
	t.allKeys = slices.Sorted(maps.Keys(t.byKey))
	return t, nil
}

// read reads one table and puts what each row makes into t. A row that an
// engineer could not check is refused, with its place.
func (t *sectionTable) read(fsys fs.FS, name string, header []string, build func([]string) ([]Section, error)) error {
	file, err := fsys.Open("sections/" + name)
	if err != nil {
		return err
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if len(rows) < 2 || !slices.Equal(rows[0], header) {
		return fmt.Errorf("%s: want a first line %q and rows below it", name, strings.Join(header, ","))
	}
	for i, row := range rows[1:] {
		made, err := build(row)
		for _, s := range made {
			if err == nil {
				err = t.add(s)
			}
		}
		if err != nil {
			return fmt.Errorf("%s: row %d (%s): %w", name, i+2, row[0], err)
		}
	}
	return nil
}

// add puts a section under its name and synonyms; a name that leads nowhere or
// to two places is refused.
func (t *sectionTable) add(s Section) error {
	var keys []string
	for _, text := range append([]string{s.Name}, s.Synonyms...) {
		k := sectionKey(text)
		if k == "" {
			return fmt.Errorf("an empty name or synonym")
		}
		if other, ok := t.byKey[k]; ok {
			name := s.Name
			if other < len(t.sections) {
				name = t.sections[other].Name
			}
			return fmt.Errorf("%q is already a name of %s", text, name)
		}
		t.byKey[k] = len(t.sections)
		keys = append(keys, k)
	}
	t.sections = append(t.sections, s)
	t.keys = append(t.keys, keys)
	return nil
}

func (t *sectionTable) find(name string) (Section, error) {
	if i, ok := t.byKey[sectionKey(name)]; ok {
		return t.sections[i].copied(), nil
	}
	key, isPipe := pipeKey(name)
	if i, ok := t.byKey[key]; ok && isPipe {
		return t.sections[i].copied(), nil
	}
	if s, ok, err := computedSection(name); ok || err != nil {
		return s, err
	}
	if several := t.starting(key); len(several) > 0 {
		return Section{}, &UnknownError{Name: name, Near: several, Several: len(several) > 1, Kind: aSection}
	}
	return Section{}, &UnknownError{Name: name, Near: t.near(key), Kind: aSection}
}

// starting returns the first designations that begin with the key, where it
// ends between a number and a letter: W12 begins W12x26, but not W120.
func (t *sectionTable) starting(key string) []string {
	if key == "" {
		return nil
	}
	last := rune(key[len(key)-1])
	var names []string
	for i, s := range t.sections {
		if slices.ContainsFunc(t.keys[i], func(k string) bool {
			rest, ok := strings.CutPrefix(k, key)
			return ok && rest != "" && rest[0] != '/' && isNumeral(last) != isNumeral(rune(rest[0]))
		}) && len(names) < most {
			names = append(names, s.Name)
		}
	}
	return names
}

// begins says whether a key begins with another, and does not go on with a
// letter where that ends with one: S begins S24x80, but not SHS.
func begins(key, with string) bool {
	rest, ok := strings.CutPrefix(key, with)
	if !ok || rest == "" || with == "" {
		return ok
	}
	last, _ := utf8.DecodeLastRuneInString(with)
	next, _ := utf8.DecodeRuneInString(rest)
	return !unicode.IsLetter(last) || !unicode.IsLetter(next)
}

// search returns the sections that begin with the query, else those that have
// all its words.
func (t *sectionTable) search(query string) []Section {
	key := sectionKey(query)
	var words []string
	for _, word := range strings.Fields(query) {
		words = append(words, sectionKey(word))
	}
	var first, rest []Section
	for i, s := range t.sections {
		if slices.ContainsFunc(t.keys[i], func(k string) bool { return begins(k, key) }) {
			first = append(first, s.copied())
			continue
		}
		text := strings.Join(t.keys[i], " ") + " " + sectionKey(s.Standard) + " " + sectionKey(s.Shape.String())
		if !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(text, w) }) {
			rest = append(rest, s.copied())
		}
	}
	if len(first) > 0 {
		return first
	}
	return rest
}
