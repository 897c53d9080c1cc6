package takeoff

import (
	"archive/zip"
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// What is seen to of an .xlsx file before it is read: it is read into memory whole,
// and a few kilobytes of it can say that they are millions of cells.

const (
	xlsxFix = "open it in a spreadsheet and save it again as .xlsx, without a password; or save it as CSV"

	mostPacked  = 1000     // files in the workbook: a plain one has a dozen
	deepestXLSX = 64       // tags in tags
	cellsToARow = 75       // of the rows that a sheet may have: 64 columns, and some that are blank
	tagsToARow  = 25       // besides rows, cells and their values: texts, styles
	longestTag  = 16 << 10 // bytes
)

// xlsxBudget is what a workbook may still hold.
type xlsxBudget struct{ bytes, cells, tags int64 }

// unpackable says why an .xlsx file is not to be read; nil where it may be.
func (o Options) unpackable(data []byte) *fault {
	if bytes.HasPrefix(data, []byte{0xd0, 0xcf, 0x11, 0xe0}) {
		return &fault{"it has a password, or is of the old kind .xls", xlsxFix}
	}
	if bytes.Count(data, []byte("PK\x01\x02")) > mostPacked { // before a list of them is made
		return &fault{fmt.Sprintf("it is packed of more than %d files", mostPacked), xlsxFix}
	}
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return &fault{err.Error(), xlsxFix}
	}
	rows := int64(o.mostParts())
	left := xlsxBudget{o.unpacked(), cellsToARow * rows, tagsToARow * rows}
	for _, file := range archive.File {
		if file.UncompressedSize64 > uint64(left.bytes) {
			return &fault{fmt.Sprintf("it holds more than the limit of %d bytes once it is unpacked", o.unpacked()), "keep nothing in it but the sheet, " + raiseFile}
		}
		left.bytes -= int64(file.UncompressedSize64)
		if f := left.takes(file); f != nil {
			return &fault{fmt.Sprintf("%s in it %s", short(file.Name), f.text), f.fix}
		}
	}
	return nil
}

// takes looks at one file of a workbook, a piece at a time. What can be no XML,
// such as a picture, is passed over.
func (b *xlsxBudget) takes(file *zip.File) *fault {
	packed, err := file.Open()
	if err != nil {
		return &fault{err.Error(), xlsxFix}
	}
	defer packed.Close()
	in := bufio.NewReader(io.LimitReader(packed, int64(file.UncompressedSize64)))
	start, _ := in.Peek(1000) // less where there is less
	if start, _, _ = bytes.Cut(start, []byte("<")); !isPlain(start) {
		return nil
	}
	look := xlsxTags{in: in, budget: b}
	return look.all()
}

// isPlain tells whether XML may begin so, before its first tag: a reader refuses
// what is not text.
func isPlain(start []byte) bool {
	return utf8.Valid(start) && !bytes.ContainsFunc(start, func(c rune) bool { return c < ' ' && !unicode.IsSpace(c) })
}

// xlsxTags goes through the tags of an XML file without keeping them.
type xlsxTags struct {
	in          *bufio.Reader
	budget      *xlsxBudget
	depth       int
	row, column int // the farthest so far
}

// all goes to the end of the file. One that is cut off, or no XML, is for the
// reader to refuse.
func (x *xlsxTags) all() *fault {
	for {
		if !x.skipTo('<') {
			return nil
		}
		tag, closed, ok := x.tag()
		if !ok {
			return nil
		}
		switch {
		case strings.HasPrefix(tag, "/"):
			x.depth--
			continue
		case strings.HasPrefix(tag, "?"), strings.HasPrefix(tag, "!"):
			continue
		case !closed:
			x.depth++
		}
		x.count(tag)
		switch {
		case len(tag) > longestTag:
			return &fault{fmt.Sprintf("has a tag of more than %d bytes", longestTag), xlsxFix}
		case x.depth > deepestXLSX:
			return &fault{fmt.Sprintf("has tags more than %d deep", deepestXLSX), xlsxFix}
		case x.budget.cells < 0:
			return &fault{"spreads over more cells than are read", "delete the blank rows and columns that are only formatted, save the sheet as CSV, " + raiseParts}
		case x.budget.tags < 0:
			return &fault{"holds more texts and formats than are read", "keep nothing in it but the sheet, save that as CSV, " + raiseParts}
		}
	}
}

// skipTo reads up to a byte and past it; false: there is none.
func (x *xlsxTags) skipTo(end byte) bool {
	for {
		_, err := x.in.ReadSlice(end)
		if !errors.Is(err, bufio.ErrBufferFull) {
			return err == nil
		}
	}
}

// tag reads a tag to its end, and tells whether it ends itself. Of one that is too
// long, such as a remark, it returns the beginning.
func (x *xlsxTags) tag() (text string, closed, ok bool) {
	var kept []byte
	var quote, before byte
	for {
		c, err := x.in.ReadByte()
		if err != nil {
			return "", false, false
		}
		switch {
		case quote == 0 && c == '>':
			return string(kept), before == '/', true
		case quote == 0 && (c == '"' || c == '\'') && len(kept) > 0 && kept[0] != '!':
			quote = c
		case c == quote:
			quote = 0
		}
		if len(kept) <= longestTag {
			kept = append(kept, c)
		}
		before = c
	}
}

// count takes a tag from the budget: a cell with those that it leaves blank before
// it, since the reader makes them all.
func (x *xlsxTags) count(tag string) {
	name, rest := strings.TrimSuffix(tag, "/"), ""
	if at := strings.IndexAny(name, " \t\r\n"); at >= 0 {
		name, rest = name[:at], name[at:]
	}
	if _, local, prefixed := strings.Cut(name, ":"); prefixed {
		name = local
	}
	var column string
	var row int
	if at := ownPlace.FindStringSubmatch(rest); at != nil {
		column = at[1]
		row, _ = strconv.Atoi(at[2]) // of few digits
	}
	switch name {
	case "row":
		at := max(row, x.row+1)
		x.budget.cells -= int64(max(at-x.row, 1))
		x.row, x.column = at, 0
	case "c":
		at := x.column + 1
		if c, err := excelize.ColumnNameToNumber(column); err == nil {
			at = c
		}
		x.budget.cells -= int64(max(at-x.column, 1))
		x.column = max(at, x.column)
	case "v":
	default:
		x.budget.tags--
	}
}

// ownPlace is where a row or a cell says that it is, such as r="7" or r="B7".
var ownPlace = regexp.MustCompile(`\sr\s*=\s*["']([A-Za-z]{0,3})([0-9]{1,9})`)
