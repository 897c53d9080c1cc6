package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/pflag"
)

// addLimits adds the flags that raise the limits on what is read. A load file that
// came from elsewhere can't raise them itself.
func (f *loadFlags) addLimits(flags *pflag.FlagSet) {
	flags.Var(&choice[int64]{&f.takeoff.Limits.Bytes, parseFileSize, "SIZE", ""}, "largest-file",
		"read files up to this size, such as 8GB (load file 2 MB, sheet or list 8 MB, mesh or drawing 2 GB)")
	flags.Var(&choice[int]{&f.takeoff.Limits.Triangles, parseAmount, "NUMBER", ""}, "most-triangles",
		"read meshes of up to so many triangles (20000000)")
	flags.Var(&choice[int]{&f.takeoff.MostParts, parseAmount, "NUMBER", ""}, "most-parts",
		"read loads of up to so many parts, copies counted, and sheets of so many rows (20000)")
}

// fileUnits are units of a file's size, as file managers write them.
var fileUnits = map[string]float64{"b": 1, "kb": 1e3, "mb": 1e6, "gb": 1e9, "tb": 1e12, "kib": 1 << 10, "mib": 1 << 20, "gib": 1 << 30, "tib": 1 << 40}

// parseFileSize reads a size such as 8GB, 500 MB or 2 GiB in bytes.
func parseFileSize(text string) (int64, error) {
	plain := strings.ToLower(strings.TrimSpace(text))
	number := strings.TrimRight(plain, "abcdefghijklmnopqrstuvwxyz ")
	unit, known := fileUnits[strings.TrimSpace(plain[len(number):])]
	value, err := strconv.ParseFloat(number, 64)
	bytes := value * unit
	if err != nil || !known || !(bytes >= 1 && bytes <= 1<<50) {
		return 0, fmt.Errorf("%q is no size of a file; want a number and its unit, such as 500MB or 8GB", text)
	}
	return int64(math.Round(bytes)), nil
}

// parseAmount reads a number of things.
func parseAmount(text string) (int, error) {
	const most = 1 << 30
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > most {
		return 0, fmt.Errorf("want a whole number from 1 to %d, in digits alone", most)
	}
	return n, nil
}
