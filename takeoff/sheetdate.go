package takeoff

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
	"go.yaml.in/yaml/v3"
)

// aDate is what a spreadsheet makes of a number or a fraction that looks like
// a date to it, as it is saved in a text: 2024-01-02, 02.01.2024, 2-Jan, Jan-24.
var (
	aDate = regexp.MustCompile(`(?i)^(\d{4}[-/.]\d{1,2}[-/.]\d{1,2}([ T].*)?` +
		`|\d{1,2}([-/.])\d{1,2}[-/.]\d{2,4}( .*)?` +
		`|\d{1,2}\.\d{1,2}\.` +
		`|\d{1,2}[-/. ]{1,2}` + monthName + `\.?([-/. ]{1,2}\d{2,4})?` +
		`|` + monthName + `\.?[-/. ]{1,2}\d{1,4})$`)
	aTime = regexp.MustCompile(`(?i)^\d{1,2}:\d{2}(:\d{2})?( ?[ap]m)?$`)
)

// monthName is a month in English or German, as spreadsheets shorten it.
const monthName = `(jan|feb|mar|mär|mrz|apr|may|mai|jun|jul|aug|sep|sept|oct|okt|nov|dec|dez)`

// hasDates reports the dates in the columns of figures and sizes of a row.
func (s *sheet) hasDates(w *sheetRow) bool {
	before := s.faults
	for _, c := range columns {
		n := w.cells[c.name]
		if n != nil && (c.measure != words || c.name == "quantity") {
			s.noDate(n)
		}
	}
	return s.faults > before
}

// noDate reports a date where none can be meant.
func (s *sheet) noDate(n *yaml.Node) {
	is := "a date"
	switch {
	case aDate.MatchString(n.Value):
	case aTime.MatchString(n.Value):
		is = "a time"
	default:
		return
	}
	s.bad(n, fmt.Sprintf("%q is %s, not a number: a spreadsheet makes dates of what looks like one, such as 1/2", short(n.Value), is),
		"format the cell as text and write what is meant, such as 1/2\" or 12.5")
}

// asShown puts what a workbook shows for the value that it stores, where the
// stored one means something else: the day for the serial number of a date, so
// that it is not read as a length, and per cent for a fraction.
func asShown(f *excelize.File, name string, g grid) error {
	props, err := f.GetWorkbookProps()
	if err != nil {
		return err
	}
	from1904 := props.Date1904 != nil && *props.Date1904
	formats := map[int]string{} // by style
	for _, row := range g {
		for i, stored := range row.cells {
			value, err := strconv.ParseFloat(stored, 64)
			if err != nil {
				continue
			}
			format, err := formatOf(f, name, cell(i+1, row.number), formats)
			if err != nil {
				return err
			}
			switch {
			case isDateFormat(format):
				row.cells[i] = dateText(value, from1904)
			case strings.Contains(unquoted(format), "%"):
				row.cells[i] = strconv.FormatFloat(100*value, 'g', 12, 64) + " %"
			}
		}
	}
	return nil
}

// formatOf returns the number format of a cell that holds a number; empty for
// a text. The formats that a workbook only numbers are put in code.
func formatOf(f *excelize.File, name, at string, known map[int]string) (string, error) {
	style, err := f.GetCellStyle(name, at)
	if err != nil || style == 0 {
		return "", err
	}
	format, ok := known[style]
	if !ok {
		s, err := f.GetStyle(style)
		if err != nil {
			return "", err
		}
		format = builtIn(s.NumFmt)
		if s.CustomNumFmt != nil {
			format = *s.CustomNumFmt
		}
		known[style] = format
	}
	if !isDateFormat(format) && !strings.Contains(format, "%") {
		return "", nil
	}
	kind, err := f.GetCellType(name, at)
	if err != nil || !slices.Contains([]excelize.CellType{excelize.CellTypeUnset, excelize.CellTypeNumber, excelize.CellTypeDate}, kind) {
		return "", err
	}
	return format, nil
}

// builtIn returns the code of a numbered format, where it is a date, a time or
// a percentage.
//
// Source: ISO/IEC 29500-1, 18.8.30 numFmt (from memory): 9 and 10 per cent, 14
// to 22 and 45 to 47 dates and times, 27 to 36 and 50 to 58 those of East Asia.
func builtIn(number int) string {
	within := func(low, high int) bool { return low <= number && number <= high }
	switch {
	case within(9, 10):
		return "0%"
	case within(14, 22), within(27, 36), within(45, 47), within(50, 58):
		return "yyyy-mm-dd"
	}
	return ""
}

var notCode = regexp.MustCompile(`"[^"]*"|\\.|_.|\*.|\[[^\]]*\]`)

// unquoted takes what only stands for itself out of the code of a format: text
// in quotes, characters after an escape, colours and languages in brackets.
func unquoted(format string) string { return notCode.ReplaceAllString(format, "") }

// isDateFormat tells whether a format shows a number as a date or a time: it
// asks for days, months, years, hours or seconds and not for digits.
func isDateFormat(format string) bool {
	first, _, _ := strings.Cut(format, ";")
	if elapsed.MatchString(first) {
		return true
	}
	code := strings.ToLower(unquoted(first))
	if code == "general" {
		return false
	}
	at := strings.IndexAny(code, "dmyhs")
	return at >= 0 && !strings.ContainsAny(code[:at], "0#?")
}

// elapsed is the code of hours, minutes or seconds that go past the day.
var elapsed = regexp.MustCompile(`(?i)\[(h+|m+|s+)\]`)

// dateText is the day or the time of a serial number.
func dateText(serial float64, from1904 bool) string {
	t, err := excelize.ExcelDateToTime(serial, from1904)
	switch {
	case err != nil || t.Year() > 9999: // shown as ####
		return "0000-00-00"
	case serial < 1:
		return t.Format("15:04")
	}
	return t.Format("2006-01-02")
}
