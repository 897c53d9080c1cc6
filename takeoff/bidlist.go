package takeoff

import (
	"crypto/sha256"
	"io/fs"
	"path"
	"strings"

	"go.yaml.in/yaml/v3"
)

// listFile opens a list, CSV or XLSX, that stands by itself: a list of pieces or
// of rates. The columns and the tab are those of the list.
func listFile(fsys fs.FS, name string, opt Options, columns []column, tab, header string) (*sheet, error) {
	kind := endings[strings.ToLower(path.Ext(name))]
	if kind != "csv" && kind != "xlsx" {
		return nil, whole(name, "its ending is not that of a list that can be read", "save it as .csv or .xlsx")
	}
	rows, err := tolerances()
	if err != nil {
		return nil, whole(name, err.Error(), "this is a fault of the program: please report it")
	}
	f, err := fsys.Open(name)
	if err != nil {
		f := cantOpen(err, "look at its name and folder")
		return nil, whole(name, f.text, f.fix)
	}
	defer f.Close()
	data, wrong := opt.all(f, mostSheetBytes, "keep nothing in it but the list")
	if wrong != nil {
		return nil, whole(name, wrong.text, wrong.fix)
	}
	r := newReader(name, &source{folder: fsys, dir: path.Dir(name), opt: opt, chain: []string{name}}, rows)
	r.source.sum = sha256.New()
	r.source.sum.Write(data)
	var g grid
	if kind == "csv" {
		g = r.csvGrid(data, columns)
	} else {
		g = r.xlsxGrid(data, tab)
	}
	s := &sheet{reader: r, columns: columns, grid: g, at: map[string]int{}, unit: map[string]string{}, bare: opt.MeshUnits}
	if g == nil || !s.readHeader(header) {
		return s, r.allProblems()
	}
	return s, nil
}

// aboveHeader returns what stands after a word above the header; nil: nothing.
func (s *sheet) aboveHeader(word string) *yaml.Node {
	for _, row := range s.grid[:s.head] {
		for i, c := range row.cells {
			if plainHeader(c) != word {
				continue
			}
			for j, value := range row.cells[i+1:] {
				if value != "" {
					return text(value, row.number, i+j+2)
				}
			}
		}
	}
	return nil
}

// ListKind tells what a CSV or XLSX file is by its header: pieces, rates, slings
// or take-off; empty where it can't be read.
func ListKind(fsys fs.FS, name string, opt Options) string {
	for _, kind := range []struct {
		name, tab string
		columns   []column
		needs     [][]string // one of each
	}{
		{"rates", "rates", rateColumns, [][]string{{"kind"}, {"buy", "hire day", "hire week", "hire lift", "hire hour"}}},
		{"slings", "slings", stockColumns, [][]string{{"rated"}, {"last inspection"}}},
		{"take-off", "take-off", columns, [][]string{{"x"}, {"size", "weight", "total weight"}}},
		{"pieces", "pieces", pieceColumns, [][]string{{"envelope", "load file"}}},
	} {
		s, _ := listFile(fsys, name, opt, kind.columns, kind.tab, "")
		if s == nil {
			return ""
		}
		all := true
		for _, some := range kind.needs {
			has := false
			for _, column := range some {
				has = has || s.at[column] > 0
			}
			all = all && has
		}
		if all {
			return kind.name
		}
	}
	return ""
}
