package report

import (
	"strconv"

	"plumbhook/lift"
)

// verified prints the published values beside the program's, under their sources.
func (p *page) verified(v lift.Verified) {
	p.line("THE PROGRAM AGAINST PUBLISHED VALUES")
	p.gap()
	p.verdictOf(v)
	p.gap()
	p.hang("  ", "Each value is reached as a user would: a load file is read, a question asked of it, and one figure of the answer held against the printed one; load file and figure are in the JSON (-o verified.json). "+
		"Read: the source was read for this; from memory: it is recalled, hold it against the source before you rely on it; derived here: worked out by hand, no publication prints it.")
	p.gap()
	cols := []column{{"", 5, false}, {"What", 0, false}, {"Printed", 9, true}, {"Here", 9, true}, {"Off by at most", 9, true}}
	p.titles(cols)
	under := ""
	for _, c := range v.Checks {
		if source := c.Source + " (" + c.Basis + ")"; source != under {
			p.hang("  ", source)
			under = source
		}
		mark, got := "holds", significant(c.Got)
		switch {
		case c.Fault != "":
			mark, got = "FAILS", "none"
		case !c.Holds:
			mark = "FAILS"
		}
		p.row(cols, mark, c.Name, significant(c.Value), got, strconv.FormatFloat(c.Tolerance, 'g', 3, 64))
		if c.Fault != "" {
			p.hang("         ", c.Fault)
		}
	}
	p.gap()
	p.verdictOf(v)
}

// verdictOf says whether all hold, and names those that do not.
func (p *page) verdictOf(v lift.Verified) {
	if v.Failed == 0 {
		p.hang("  ", "All "+plural(len(v.Checks), "value holds", "values hold")+".")
		return
	}
	p.hang("  ", plural(v.Failed, "value does", "values do")+" NOT hold, of "+strconv.Itoa(len(v.Checks))+". Do not rely on this program on this machine: please report it, with this page.")
	for _, c := range v.Checks {
		if !c.Holds {
			p.hang("  FAILS  ", c.Name)
		}
	}
}

// significant prints a figure with as many digits as a printed value has, six at most.
func significant(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }
