package samples_test

import (
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/lift"
	"plumbhook/report"
	"plumbhook/takeoff"
	"plumbhook/units"
)

// TestDrawingsOfSamples: each picture is as it was, no larger than a page can
// bear, and its places are those of the marks in the JSON.
func TestDrawingsOfSamples(t *testing.T) {
	const most = 150_000 // bytes: two or three of them go into one page
	for _, sample := range samples {
		t.Run(sample.file, func(t *testing.T) {
			load, err := takeoff.Read(os.DirFS("."), sample.file, takeoff.Options{})
			require.NoError(t, err)
			s, err := lift.Sheet(load, lift.Options{Draw: true, Show: units.Both})
			require.NoError(t, err)
			var b strings.Builder
			require.NoError(t, report.SVG(&b, s, report.Options{}))
			assert.Less(t, b.Len(), most)
			samePlaces(t, s, b.String())
			file := filepath.Join("testdata", strings.TrimSuffix(sample.file, ".yaml")+".golden.svg")
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			assert.True(t, string(want) == b.String(), "%s is not as before: if this is meant, go test ./samples -update, and look at the picture", file)
		})
	}
}

// samePlaces holds the circles and texts of the picture, in their order, against
// those of the drawings, to the hundredth of a millimetre that is printed.
func samePlaces(t *testing.T, s lift.LiftSheet, text string) {
	type spot struct{ x, y float64 }
	var want, got []spot
	for _, d := range append(append([]lift.Drawing{}, s.Drawings...), s.Plots...) {
		for _, m := range d.Marks {
			if m.Kind == "circle" || m.Kind == "text" {
				want = append(want, spot{m.At[0][0], d.High - m.At[0][1]})
			}
		}
	}
	for x := xml.NewDecoder(strings.NewReader(text)); ; {
		token, err := x.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		e, ok := token.(xml.StartElement)
		if !ok || e.Name.Local != "circle" && e.Name.Local != "text" {
			continue
		}
		at := map[string]string{}
		for _, a := range e.Attr {
			at[strings.TrimPrefix(a.Name.Local, "c")] = a.Value
		}
		if strings.HasPrefix(at["lass"], "sheet") {
			continue // the head of the sheet
		}
		px, err := strconv.ParseFloat(at["x"], 64)
		require.NoError(t, err)
		py, err := strconv.ParseFloat(at["y"], 64)
		require.NoError(t, err)
		got = append(got, spot{px, py})
	}
	require.Len(t, got, len(want))
	for i, w := range want {
		assert.InDelta(t, w.x, got[i].x, 0.00501)
		assert.InDelta(t, w.y, got[i].y, 0.00501)
	}
}
