package lift

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawKinds draws needs that all can be covered, and kinds of gear for them.
func drawKinds(t *rapid.T, least, most int) (int, []coverKind) {
	n := rapid.IntRange(1, 9).Draw(t, "needs")
	var kinds []coverKind
	for id := range rapid.IntRange(least, most).Draw(t, "kinds") {
		k := coverKind{id: id, cost: float64(rapid.IntRange(1, 60).Draw(t, "cost"))}
		for need := range n {
			if rapid.Bool().Draw(t, "covers") {
				k.covers = append(k.covers, need)
			}
		}
		kinds = append(kinds, k)
	}
	for need := range n { // so that each need has one
		kinds = append(kinds, coverKind{id: 100 + need, cost: 70, covers: []int{need}})
	}
	return n, kinds
}

// everySet is the least cost by trying every set of kinds.
func everySet(n int, kinds []coverKind) float64 {
	least := math.Inf(1)
	for set := range 1 << len(kinds) {
		cost, has := 0.0, make([]bool, n)
		for i, k := range kinds {
			if set>>i&1 == 1 {
				cost += k.cost
				for _, c := range k.covers {
					has[c] = true
				}
			}
		}
		all := true
		for _, h := range has {
			all = all && h
		}
		if all {
			least = min(least, cost)
		}
	}
	return least
}

// covered tells whether the chosen kinds cover all, and what they cost.
func covered(n int, kinds []coverKind, chosen []int) (bool, float64) {
	has, cost := map[int]bool{}, 0.0
	for _, k := range kinds {
		for _, id := range chosen {
			if k.id == id {
				cost += k.cost
				for _, c := range k.covers {
					has[c] = true
				}
			}
		}
	}
	return len(has) == n, cost
}

func TestTheCheapestSetIsThatOfAllSets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, kinds := drawKinds(t, 0, 5)
		got := cheapestCover(n, kinds)
		all, cost := covered(n, kinds, got.chosen)
		require.True(t, all, "chosen %v of %v", got.chosen, kinds)
		assert.Equal(t, cost, got.cost)
		least := everySet(n, kinds)
		if got.exact {
			assert.Equal(t, least, got.cost)
			assert.Equal(t, got.cost, got.bound)
			return
		}
		assert.GreaterOrEqual(t, got.cost, least)
		assert.LessOrEqual(t, got.bound, least+1e-9, "a bound above the least cost is none")
	})
}

func TestTheStepByStepSetKeepsItsBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, kinds := drawKinds(t, 0, 5)
		got := greedyCover(n, undominated(kinds))
		all, cost := covered(n, kinds, got.chosen)
		require.True(t, all)
		assert.InDelta(t, cost, got.cost, 1e-9)
		least := everySet(n, kinds)
		assert.LessOrEqual(t, got.bound, least+1e-9)
		assert.GreaterOrEqual(t, got.cost, least-1e-9)
	})
}

// Twelve kinds, none of which makes another needless, are still tried in full.
func TestTwelveKindsAreExact(t *testing.T) {
	var kinds []coverKind
	for i := range 12 { // each covers itself and the next one round: six do, at least
		a, b := i, (i+1)%12
		kinds = append(kinds, coverKind{id: i, cost: 10 + float64(i%3), covers: []int{min(a, b), max(a, b)}})
	}
	got := cheapestCover(12, kinds)
	assert.True(t, got.exact)
	assert.Equal(t, everySet(12, kinds), got.cost)
}
