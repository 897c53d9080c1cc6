package takeoff

import (
	"bytes"
	"encoding/csv"
	"fmt"

	"github.com/xuri/excelize/v2"
)

// NewSheet returns an empty take-off sheet, "csv" or "xlsx": what may stand
// above the header, the header, the row of units, and one row as an example.
// It can be read as it is.
func NewSheet(kind string) ([]byte, error) {
	switch kind {
	case "csv":
		return newCSV()
	case "xlsx":
		return newXLSX()
	}
	return nil, fmt.Errorf("no sheet can be made as %q, only as csv or xlsx", kind)
}

// emptySheet is the cells of an empty sheet.
func emptySheet() [][]string {
	example := map[string]string{
		"mark": "P1", "quantity": "1", "description": "base plate (an example: put your own part here)", "size": "2400 x 1200 x 20",
		"material": "structural steel", "x": "1200", "y": "600", "z": "10",
	}
	above := [][]string{{"load", "what is lifted"}, {"drawing", "sheet and revision"}, {"datum", "where x, y, z are measured from; z up"}, nil}
	var header, unit, row []string
	for _, c := range columns {
		if !c.fresh {
			continue
		}
		header, row = append(header, c.name), append(row, example[c.name])
		unit = append(unit, map[measure]string{ofLength: "mm", ofMass: "kg", ofPart: "%"}[c.measure])
	}
	return append(above, header, unit, row)
}

func newCSV() ([]byte, error) {
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	err := out.WriteAll(emptySheet())
	return b.Bytes(), err
}

func newXLSX() ([]byte, error) {
	const name = "take-off"
	f := excelize.NewFile()
	defer f.Close()
	if err := f.SetSheetName(f.GetSheetName(0), name); err != nil {
		return nil, err
	}
	for i, row := range emptySheet() {
		for j, value := range row {
			if err := f.SetCellStr(name, cell(j+1, i+1), value); err != nil {
				return nil, err
			}
		}
	}
	b, err := f.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
