package density_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"plumbhook/density"
	"plumbhook/testdata/published/inprint"
)

// The published list goes by the older factor 10.68 of 0.2833 lb/in³; B36.10M states
// 10.69, 0.1 % more. The rest is rounding to 0.01 lb/ft.
func TestPublishedPipes(t *testing.T) {
	page := inprint.Of(t, "density")
	for _, v := range page.Rows() {
		s := section(t, v.Item)
		if v.Unit == "kg/m" {
			page.Is(v.Item, v.Quantity, s.PerLength)
		} else {
			page.Is(v.Item, v.Quantity, s.PerLength/poundPerFoot)
		}
	}
}

// The metric name of a pipe is weighed from millimetres by the metric formula.
func TestPublishedPipeByDN(t *testing.T) {
	page, s := inprint.Of(t, "density"), section(t, "DN 150 sch 40")
	page.Is("DN 150 sch 40", "outside", 1000*s.Depth)
	page.Is("DN 150 sch 40", "wall", 1000*s.Wall)
	page.Is("DN 150 sch 40", "mass", s.PerLength)
	stainless, err := density.FindSection("NPS 6 sch 10S")
	require.NoError(t, err)
	assert.Equal(t, "ASME B36.19M", stainless.Standard)
	assert.Contains(t, stainless.Note, "2 % heavier")
}

func TestPipeNames(t *testing.T) {
	for name, want := range map[string]string{
		"NPS 6 schedule 40": "NPS 6 sch 40", `6" sch 40`: "NPS 6 sch 40", "6 in. sch 40": "", "6 inch sch 40 pipe": "NPS 6 sch 40",
		"pipe NPS 6 STD": "NPS 6 sch 40", `6" XS`: "NPS 6 sch 80", "NPS 1-1/2 sch 80": "NPS 1-1/2 sch 80",
		"nps 1 1/2 sch80": "NPS 1-1/2 sch 80", "NPS 1.5 XS": "NPS 1-1/2 sch 80", "DN40 XS": "DN 40 sch 80",
		"NPS 0.5 sch 40": "NPS 1/2 sch 40", "NPS 12 sch STD": "NPS 12 sch STD",
	} {
		s, err := density.FindSection(name)
		if want == "" {
			assert.Error(t, err, name)
			continue
		}
		if assert.NoError(t, err, name) {
			assert.Equal(t, want, s.Name, name)
		}
	}
	// A size without a schedule is not a pipe yet.
	_, err := density.FindSection("NPS 6")
	var unknown *density.UnknownError
	require.ErrorAs(t, err, &unknown)
	assert.True(t, unknown.Several)
	assert.Contains(t, unknown.Near, "NPS 6 sch 40")
}

func TestPublishedRoundTube(t *testing.T) {
	page := inprint.Of(t, "density")
	for _, name := range page.Items() {
		s := section(t, name)
		page.Is(name, "mass", s.PerLength)
		assert.InEpsilon(t, s.PerLength, s.OutlineArea()*7850, 1e-5, name)
	}
}

func TestPublishedBars(t *testing.T) {
	page := inprint.Of(t, "density")
	for _, v := range page.Rows() {
		unit := map[string]float64{"kg/m": 1, "lb/ft": poundPerFoot}[v.Unit]
		page.Is(v.Item, v.Quantity, section(t, v.Item).PerLength/unit)
	}
}
