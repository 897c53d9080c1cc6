package samples_test

import (
	"os"
	"regexp"
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

// TestPrintedWorkingAddsUp goes over the working as a person would: what stands on
// the left of each = of every sample, worked out from the printed figures, is what
// stands on its right, but for the rounding.
func TestPrintedWorkingAddsUp(t *testing.T) {
	for _, sample := range samples {
		load, err := takeoff.Read(os.DirFS("."), sample.file, takeoff.Options{})
		require.NoError(t, err)
		if load.Rigging.Bar != nil || load.Rigging.TwoHooks != nil {
			continue // the working is of legs straight to one hook
		}
		slings, err := lift.Slings(load, lift.Options{Explain: true})
		require.NoError(t, err)
		legs, err := lift.Legs(load, lift.Options{Explain: true})
		require.NoError(t, err)
		for _, show := range []units.Show{units.Metric, units.US} {
			for result, least := range map[any]int{&slings: 7, &legs: 3} {
				var b strings.Builder
				if s, ok := result.(*lift.Slung); ok {
					require.NoError(t, report.Text(&b, *s, report.Options{Show: show, Width: 5000}))
				} else {
					require.NoError(t, report.Text(&b, legs, report.Options{Show: show, Width: 5000}))
				}
				_, text, found := strings.Cut(b.String(), "WORKING BY HAND")
				require.True(t, found)
				text, _, _ = strings.Cut(text, "ASSUMED")
				sums := 0
				for line := range strings.SplitSeq(text, "\n") {
					sums += addsUp(t, sample.file, line)
				}
				assert.GreaterOrEqual(t, sums, least, sample.file)
			}
		}
	}
}

// addsUp holds both sides of each = in a line against each other, where there are
// figures on both, and counts them.
func addsUp(t *testing.T, file, line string) int {
	t.Helper()
	sides, count := strings.Split(line, " = "), 0
	for i := 1; i < len(sides); i++ {
		left, lok := worked(sides[i-1])
		right, rok := worked(strings.Split(sides[i], ",")[0])
		if !lok || !rok {
			continue
		}
		count++
		assert.InEpsilon(t, right, left, 1.2e-3, "%s: %q", file, line)
	}
	return count
}

var signs = regexp.MustCompile(`\d[\d ]*(\.\d+)?|[×÷+()]`)

// worked works out figures with × ÷ + and brackets, whatever words and units stand
// between them: those after the last of : ; , and before the next.
func worked(text string) (float64, bool) {
	for _, stop := range []string{"; ", ": "} {
		if before, after, found := strings.Cut(text, stop); found {
			if text = before; !strings.ContainsAny(text, "0123456789") {
				text = after
			}
		}
	}
	if at := strings.LastIndex(text, "upright parts "); at >= 0 {
		text = text[at:]
	}
	e := expression{signs.FindAllString(text, -1)}
	if len(e.rest) == 0 || strings.ContainsAny(e.rest[0], "×÷+)") {
		return 0, false
	}
	x := e.sum()
	return x, x != 0 && len(e.rest) == 0
}

type expression struct{ rest []string }

func (e *expression) next(any string) string {
	if len(e.rest) > 0 && strings.Contains(any, e.rest[0]) {
		sign := e.rest[0]
		e.rest = e.rest[1:]
		return sign
	}
	return ""
}

func (e *expression) sum() float64 {
	x := e.product()
	for e.next("+") != "" {
		x += e.product()
	}
	return x
}

func (e *expression) product() float64 {
	x := e.figure()
	for {
		switch e.next("×÷") {
		case "×":
			x *= e.figure()
		case "÷":
			x /= e.figure()
		default:
			return x
		}
	}
}

func (e *expression) figure() float64 {
	if e.next("(") != "" {
		x := e.sum()
		e.next(")")
		return x
	}
	if len(e.rest) == 0 {
		return 0
	}
	x, err := strconv.ParseFloat(strings.ReplaceAll(e.rest[0], " ", ""), 64)
	if err != nil {
		return 0
	}
	e.rest = e.rest[1:]
	return x
}
