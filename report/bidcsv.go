package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"plumbhook/lift"
)

// BidCSV writes the pieces of a bid, one a row, in SI with the unit in each title.
// What comes from the user's files is text in it: a spreadsheet that opens the file
// runs none of it as a formula.
func BidCSV(w io.Writer, b lift.BidResult) error {
	out := csv.NewWriter(w)
	rows := [][]string{{"mark", "quantity", "file", "name", "acceptable", "reasons or fault", "warnings", "rough", "weight best (kg)", "weight low (kg)", "weight high (kg)",
		"governing leg", "required rating (kg)", "family", "material", "size", "rated (kg)", "use", "legs", "bars", "lengths (m)", "gross load (kg)", "of crane class", "of own crane",
		"enough up to weight (kg)", "chance that the size below is too small", "gear bought alone"}}
	for _, r := range b.Pieces {
		rows = append(rows, csvRow(r))
	}
	if err := out.WriteAll(rows); err != nil {
		return fmt.Errorf("report: %w", err)
	}
	return nil
}

func csvRow(r lift.BidRow) []string {
	why := strings.Join(r.Reasons, "; ")
	if r.Error != "" {
		why = r.Error
	}
	row := []string{harmless(r.Mark), strconv.Itoa(r.Quantity), harmless(r.File), harmless(r.Name), strconv.FormatBool(r.Acceptable), harmless(why), strconv.Itoa(r.Warnings), strconv.FormatBool(r.Rough)}
	if r.Error != "" {
		return append(row, make([]string, 19)...)
	}
	row = append(row, exact(r.Weight.BestKg), exact(r.Weight.LowKg), exact(r.Weight.HighKg), harmless(r.Leg), exact(r.RequiredKg))
	if s := r.Sling; s != nil {
		row = append(row, harmless(s.Family), harmless(s.Material), harmless(s.Size), exact(s.RatedKg), harmless(s.Use))
	} else {
		row = append(row, "", "", "", "", "")
	}
	var lengths []string
	for _, l := range r.LengthsM {
		lengths = append(lengths, strconv.FormatFloat(l, 'f', 3, 64))
	}
	row = append(row, strconv.Itoa(r.Legs), strconv.Itoa(r.Bars), strings.Join(lengths, "; "), exact(r.GrossKg), orBlank(r.OfClass), orBlank(r.OfCrane))
	if k := r.Risk; k != nil {
		row = append(row, exact(k.HoldsKg), exact(k.Chance))
	} else {
		row = append(row, "", "")
	}
	return append(row, orBlank(r.PriceAlone))
}

func exact(x float64) string { return strconv.FormatFloat(x, 'g', 10, 64) }

func orBlank(x *float64) string {
	if x == nil {
		return ""
	}
	return exact(*x)
}

// harmless makes words such that no spreadsheet takes them for a formula: one that
// begins with =, +, -, @, also in full width, or a control character gets an
// apostrophe before it, the sign for text.
func harmless(words string) string {
	words = clean(words)
	if first := strings.TrimSpace(words); first != "" && strings.ContainsRune("=+-@＝＋－＠", []rune(first)[0]) {
		return "'" + words
	}
	return words
}
