package takeoff

import (
	"fmt"
	"io"
)

// Limits on one input, where the command line sets no others. They stand far above
// what a planner writes and keep a hostile or broken file from eating the machine.
const (
	mostBytes      = 2 << 20 // of a load file
	mostSheetBytes = 8 << 20 // of a take-off sheet or a list; an .xlsx file is packed
	mostCraneBytes = 1 << 20
	mostParts      = 20_000 // pieces of a load, copies counted; rows of a sheet
)

// How a limit is raised; each fault of one says so.
const (
	raiseFile  = "or allow larger ones by --largest-file, such as --largest-file 100MB"
	raiseParts = "or allow more by --most-parts, such as --most-parts 100000"
)

// bytes is the largest file that is read of a kind whose usual limit is given.
func (o Options) bytes(usual int64) int64 {
	if o.Limits.Bytes > 0 {
		return o.Limits.Bytes
	}
	return usual
}

// mostParts is how many pieces a load may have, and rows a sheet.
func (o Options) mostParts() int {
	if o.MostParts > 0 {
		return o.MostParts
	}
	return mostParts
}

// mostCopies is how many of them may be copies of one part.
func (o Options) mostCopies() int { return max(1, o.mostParts()/20) }

// mostNodes is how many values a load file may have: some ten to a part.
func (o Options) mostNodes() int { return 10*o.mostParts() + 1000 }

// unpacked is how much an .xlsx file may hold once it is unpacked, all of it in
// memory.
func (o Options) unpacked() int64 { return 8 * o.bytes(mostSheetBytes) }

// all reads an input to its end, or says what is wrong with it as a whole. What is
// the thing that a smaller file would hold.
func (o Options) all(in io.Reader, usual int64, what string) ([]byte, *fault) {
	most := o.bytes(usual)
	data, err := io.ReadAll(io.LimitReader(in, most+1))
	switch {
	case err != nil:
		return nil, &fault{"it can't be read: " + err.Error(), mayBeRead}
	case int64(len(data)) > most:
		return nil, &fault{fmt.Sprintf("the file has more than %d bytes, the limit on a file of its kind", most), what + ", " + raiseFile}
	}
	return data, nil
}
