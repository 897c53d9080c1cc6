package samples

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
)

// BenchmarkSheet goes the whole way from a load file to the HTML page and the PDF.
func BenchmarkSheet(b *testing.B) {
	for _, name := range []string{"press-frame.yaml", "gearbox-stl.yaml", "conveyor-spreader.yaml"} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				load, err := takeoff.Read(os.DirFS("."), name, takeoff.Options{})
				require.NoError(b, err)
				sheet, err := lift.Sheet(load, lift.Options{Draw: true, Solids: true, Explain: true})
				require.NoError(b, err)
				var html, pdf bytes.Buffer
				require.NoError(b, report.HTML(&html, sheet, report.Options{}))
				require.NoError(b, report.PDF(&pdf, sheet, report.A4, report.Options{}))
			}
		})
	}
}
