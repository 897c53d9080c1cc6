package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"plumbhook/geom"
	"plumbhook/lift"
	"plumbhook/takeoff"
)

// gathering collects the pieces of a bid, each file once.
type gathering struct {
	f      *bidFlags
	cmd    *cobra.Command
	pieces []lift.BidPiece
	files  map[string]bool
	marks  map[string]int
}

// pieces are those of files, folders and sheets of pieces. What of a folder is no
// piece is said on standard error.
func (f *bidFlags) pieces(cmd *cobra.Command, args []string) ([]lift.BidPiece, error) {
	g := gathering{f: f, cmd: cmd, files: map[string]bool{}, marks: map[string]int{}}
	for _, name := range args {
		info, err := os.Stat(name)
		switch {
		case err != nil:
			return nil, takeoff.Problems{{File: name, Text: "there is no such file or folder", Fix: "look at its name and folder"}}
		case info.IsDir():
			err = g.folder(name)
		case f.kind(name) == "csv" || f.kind(name) == "xlsx":
			from, base := f.folderOf(name)
			err = g.sheet(name, from, base)
		default:
			from, base := f.folderOf(name)
			g.file(name, from, base)
		}
		if err != nil {
			return nil, err
		}
	}
	if len(g.pieces) == 0 {
		return nil, takeoff.Problems{{File: strings.Join(args, ", "), Text: "no pieces are in it", Fix: "give load files, a folder of them, or a sheet of pieces"}}
	}
	return g.pieces, nil
}

// folder takes the load files and sheets of a folder, sheets of pieces first: a
// take-off that a row of one names is that row.
func (g *gathering) folder(name string) error {
	entries, err := os.ReadDir(name)
	if err != nil {
		return takeoff.Problems{{File: name, Text: "the folder can't be read", Fix: "see that it may be read"}}
	}
	var loads []string
	for _, e := range entries {
		full := filepath.Join(name, e.Name())
		kind := strings.TrimPrefix(strings.ToLower(filepath.Ext(full)), ".")
		mesh := slices.Contains(geom.MeshEndings(), "."+kind)
		switch {
		case e.IsDir() || strings.HasPrefix(e.Name(), "."):
		case kind == "csv" || kind == "xlsx":
			from, base := g.f.foundIn(full)
			switch takeoff.ListKind(from, base, g.f.takeoff) {
			case "pieces":
				if err := g.sheet(full, from, base); err != nil {
					return err
				}
			case "rates", "slings":
				g.skip(full, "it is a list, and no piece")
			default:
				loads = append(loads, full)
			}
		case kind == "json" && g.isResult(full):
			g.skip(full, "it is a result of this program")
		case kind == "yaml" || kind == "yml" || kind == "json", mesh && g.f.takeoff.Material != "":
			loads = append(loads, full)
		case mesh:
			g.skip(full, "a mesh by itself needs --material")
		}
	}
	for _, full := range loads {
		from, base := g.f.foundIn(full)
		g.file(full, from, base)
	}
	return nil
}

func (g *gathering) skip(name, why string) {
	if !g.f.quiet {
		fmt.Fprintf(g.cmd.ErrOrStderr(), "left out: %s: %s\n", name, why)
	}
}

// isResult tells whether a JSON file is something that this program wrote.
func (g *gathering) isResult(name string) bool {
	from, base := g.f.foundIn(name)
	file, err := from.Open(base)
	if err != nil {
		return false
	}
	defer file.Close()
	head, err := io.ReadAll(io.LimitReader(file, 200))
	return err == nil && bytes.Contains(head, []byte(`"schema": "`+lift.Schema))
}

// sheet takes the rows of a sheet of pieces, or a take-off sheet as one piece.
func (g *gathering) sheet(name string, from folder, base string) error {
	if takeoff.ListKind(from, base, g.f.takeoff) != "pieces" {
		g.file(name, from, base)
		return nil
	}
	rows, err := takeoff.ReadPieces(from, base, g.f.takeoff)
	if err != nil {
		return asTyped(err, from.dir, base, name)
	}
	for _, row := range rows {
		p := lift.BidPiece{Mark: g.mark(row.Mark, fmt.Sprintf("%s row %d", name, row.Row)), Quantity: row.Quantity, File: name, Rough: row.LoadFile == "", Assumed: row.Assumed, Inputs: row.Inputs}
		if row.LoadFile != "" && row.Err == nil {
			p.File = from.typedAs(row.LoadFile)
			g.files[p.File] = true
			for i := range p.Inputs {
				p.Inputs[i].Path = "row › " + p.Inputs[i].Path
			}
			p.Inputs = append(p.Inputs, takeoff.Inputs(from, row.LoadFile, g.f.takeoff)...)
			p.Open = g.f.opens(from, row.LoadFile, p.File)
		} else {
			p.Open = func() (*takeoff.Load, error) { return row.Load, asTyped(row.Err, from.dir, base, name) }
		}
		g.pieces = append(g.pieces, p)
	}
	return nil
}

// file takes a load file, a take-off sheet or a mesh as one piece.
func (g *gathering) file(name string, from folder, base string) {
	clean := filepath.Clean(name)
	if g.files[clean] {
		return
	}
	g.files[clean] = true
	g.pieces = append(g.pieces, lift.BidPiece{Mark: g.mark(takeoff.MarkOf(filepath.ToSlash(name)), name), Quantity: 1, File: name,
		Inputs: takeoff.Inputs(from, base, g.f.takeoff), Open: g.f.opens(from, base, name)})
}

// mark makes sure that two pieces are not called the same.
func (g *gathering) mark(mark, from string) string {
	if g.marks[mark]++; g.marks[mark] > 1 {
		return mark + " (" + from + ")"
	}
	return mark
}

// opens reads a load when it is wanted: one after the other they would all be in
// memory at once.
func (f *bidFlags) opens(from folder, base, name string) func() (*takeoff.Load, error) {
	return func() (*takeoff.Load, error) { return f.openIn(from, base, name) }
}
