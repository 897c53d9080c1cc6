package report

import "plumbhook/lift"

// marking prints what to paint on the load.
func (p *page) marking(m *lift.Marking) {
	if m == nil {
		return
	}
	p.heading("MARKING")
	p.hang("  ", "To be painted on the load:")
	p.gap()
	for _, line := range m.Lines {
		p.hang("    ", line)
	}
	p.gap()
	for _, note := range m.Notes {
		p.hang("  - ", note)
	}
}
