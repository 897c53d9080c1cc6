package report

import (
	"strconv"

	"plumbhook/lift"
)

// verified prints the published values beside the program's.
func (p *page) verified(v lift.Verified) {
	p.line("THE PROGRAM AGAINST PUBLISHED VALUES")
	p.gap()
	p.hang("  ", "Each value is reached as a user would: a load file is read, a question asked of it, and one figure of the answer held against the printed one. "+
		"Read: the source was read for this; from memory: it is recalled, hold it against the source before you rely on it; derived here: worked out by hand, no publication prints it.")
	p.gap()
	cols := []column{{"", 5, false}, {"What", 0, false}, {"Printed", 10, true}, {"Here", 10, true}, {"May be off", 9, true}}
	p.titles(cols)
	for _, c := range v.Checks {
		mark, got := "holds", significant(c.Got)
		switch {
		case c.Fault != "":
			mark, got = "FAILS", "none"
		case !c.Holds:
			mark = "FAILS"
		}
		p.row(cols, mark, c.Name, significant(c.Value), got, significant(c.Tolerance))
		p.hang("         ", c.Source+" ("+c.Basis+"). "+c.Question+", "+c.Figure)
		if c.Fault != "" {
			p.hang("         ", c.Fault)
		}
	}
	p.gap()
	if v.Failed > 0 {
		p.hang("  ", plural(v.Failed, "value does", "values do")+" NOT hold, of "+strconv.Itoa(len(v.Checks))+". Do not rely on this program on this machine: please report it, with this page.")
		return
	}
	p.hang("  ", "All "+plural(len(v.Checks), "value holds", "values hold")+".")
}

// significant prints a figure with as many digits as a printed value has, six at most.
func significant(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }
