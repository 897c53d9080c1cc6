package sling

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sized are the factors of the table that say how much, not whether: they are
// held by the worked examples and the printed tables, not by suitability.csv.
var sized = []string{"hitch", "mode", "choke angle", "leg angle", "preferred angle", "balance", "design"}

// ofHardware are what stands in the family column of factors.csv beside the
// families of slings, and is held by the tests of the hardware.
var ofHardware = []string{"shackle", "eyebolt", "swivel hoist ring", "hook", "intermediate link"}

// never is a range that nothing lies in.
var never = interval{low: math.Inf(1), high: math.Inf(1), openLow: true}

// spoilt is a book in which one row is taken away or made harmless.
type spoilt struct {
	rules Rules
	what  string
	book  *book
}

// spoiltFactors takes each row of factors.csv that says whether a family may be
// used: away, without its limits (temperature), and with the value 1.
func spoiltFactors(b *book) (out []spoilt) {
	for key, rows := range b.factors {
		for i, r := range rows {
			if slices.Contains(sized, r.factor) || slices.Contains(ofHardware, r.family) {
				continue
			}
			change := func(how string, do func([]factorRow) []factorRow) {
				c := *b
				c.factors = maps.Clone(b.factors)
				c.factors[key] = do(slices.Clone(rows))
				out = append(out, spoilt{r.rules, strings.Join([]string{how, string(r.rules), r.family, r.material, r.factor, r.when, r.valid.String()}, ", "), &c})
			}
			if r.factor == "temperature" { // a family without such a row is refused with the tables: let it hold nowhere
				change("taken away", func(rows []factorRow) []factorRow { rows[i].valid = never; return rows })
				change("without limits", func(rows []factorRow) []factorRow { rows[i].valid = everywhere; return rows })
			} else {
				change("taken away", func(rows []factorRow) []factorRow { return slices.Delete(rows, i, i+1) })
			}
			if r.value != 1 {
				change("of value 1", func(rows []factorRow) []factorRow { rows[i].value = 1; return rows })
			}
		}
	}
	return out
}

// spoiltChemicals takes each row of chemicals.csv away, or gives it another use.
func spoiltChemicals(b *book) (out []spoilt) {
	for i, r := range b.chemicals {
		name := strings.Join([]string{string(r.rules), r.substance, r.chemical}, ", ")
		for _, use := range []string{"", "ok", Care, No} {
			if use == r.effect {
				continue
			}
			c := *b
			if c.chemicals = slices.Clone(b.chemicals); use == "" {
				c.chemicals = slices.Delete(c.chemicals, i, i+1)
			} else {
				c.chemicals[i].effect = use
			}
			out = append(out, spoilt{r.rules, name + " as '" + use + "'", &c})
		}
	}
	return out
}

// spoiltSurroundings does the same with each row of surroundings.csv.
func spoiltSurroundings(b *book) (out []spoilt) {
	for i, r := range b.surroundings {
		name := strings.Join([]string{string(r.rules), r.subject, r.condition}, ", ")
		for _, use := range []string{"", Yes, Care, No} {
			if use == r.use {
				continue
			}
			c := *b
			if c.surroundings = slices.Clone(b.surroundings); use == "" {
				c.surroundings = slices.Delete(c.surroundings, i, i+1)
			} else {
				c.surroundings[i].use = use
			}
			out = append(out, spoilt{r.rules, name + " as '" + use + "'", &c})
		}
	}
	return out
}

// TestEveryRuleIsMissed: whatever row is taken away or made harmless, at least
// one line of suitability.csv fails. So no rule may be lost unseen.
func TestEveryRuleIsMissed(t *testing.T) {
	t.Parallel()
	b := tables(t)
	lines := expectations(t)
	for _, e := range lines {
		require.Empty(t, e.fault(b), e.at)
	}
	all := slices.Concat(spoiltFactors(b), spoiltChemicals(b), spoiltSurroundings(b))
	require.Greater(t, len(all), 800, "the tables are read")
	t.Logf("%d ways to spoil a rule, %d lines", len(all), len(lines))
	for _, s := range all {
		assert.True(t, slices.ContainsFunc(lines, func(e expected) bool { return e.need.Rules == s.rules && e.fault(s.book) != "" }), "nobody misses it: %s", s.what)
	}
}

// TestEveryCautionIsMissed: the same for cautions.csv, against the facts of the
// trade that are typed in facts_test.go.
func TestEveryCautionIsMissed(t *testing.T) {
	b := tables(t)
	require.Empty(t, missingCautions(b))
	for i, r := range b.cautions {
		c := *b
		c.cautions = slices.Delete(slices.Clone(b.cautions), i, i+1)
		assert.NotEmpty(t, missingCautions(&c), "nobody misses it: %s %s: %s", r.family, r.material, r.text)
	}
}
