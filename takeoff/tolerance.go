package takeoff

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

// span is a fractional tolerance: -0.01 and 0.03 for -1 % / +3 %.
type span struct{ low, high float64 }

// String prints the tolerance as the planner would write it.
func (s span) String() string {
	if s.high == -s.low {
		return "±" + percent(s.high)
	}
	return "-" + percent(-s.low) + " / +" + percent(s.high)
}

// percent prints a fraction as a percentage of at most four digits.
func percent(f float64) string { return strconv.FormatFloat(100*f, 'g', 4, 64) + " %" }

// wider returns the span that holds both.
func (s span) wider(t span) span { return span{min(s.low, t.low), max(s.high, t.high)} }

// toleranceRow is one row of the table of tolerances by what is known of a
// weight.
type toleranceRow struct {
	status, meaning, source, basis string
	span                           span
}

//go:embed tolerances.csv
var toleranceTable string

// statuses are the words that `status` may say.
var statuses = []string{"estimated", "calculated", "catalogue", "weighed"}

const ownMaterial = "own material"

// tolerances returns the rows of the table by status.
func tolerances() (map[string]toleranceRow, error) {
	rows, err := csv.NewReader(strings.NewReader(toleranceTable)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("tolerances.csv: %w", err)
	}
	out := map[string]toleranceRow{}
	for i, row := range rows[1:] {
		at := fmt.Sprintf("tolerances.csv: row %d (%s)", i+2, row[0])
		p, err := strconv.ParseFloat(row[1], 64)
		switch {
		case err != nil || !(p > 0 && p < 100):
			return nil, fmt.Errorf("%s: percent must be a number between 0 and 100", at)
		case row[2] == "" || row[3] == "" || row[4] == "":
			return nil, fmt.Errorf("%s: meaning, source and basis must be filled in", at)
		case out[row[0]].status != "":
			return nil, fmt.Errorf("%s: listed twice", at)
		}
		out[row[0]] = toleranceRow{row[0], row[2], row[3], row[4], span{-p / 100, p / 100}}
	}
	return out, nil
}
