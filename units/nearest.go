package units

import (
	"cmp"
	"slices"
	"strings"
)

// Nearest returns up to three of the known words that wrong may have been meant
// for, nearest first: words within an edit distance of a third of their length,
// blind to case. None near enough gives an empty slice.
func Nearest(wrong string, known []string) []string {
	type candidate struct {
		word string
		away int
	}
	var near []candidate
	wrong = strings.ToLower(strings.TrimSpace(wrong))
	for _, word := range known {
		length := len([]rune(word))
		limit := length / 3 // none for mm and the like: any other unit is near them
		if diff := len([]rune(wrong)) - length; diff > limit || -diff > limit {
			continue
		}
		if away := EditDistance(wrong, strings.ToLower(word)); away <= limit {
			near = append(near, candidate{word, away})
		}
	}
	slices.SortStableFunc(near, func(a, b candidate) int { return cmp.Compare(a.away, b.away) })
	var words []string
	for _, c := range near[:min(3, len(near))] {
		words = append(words, c.word)
	}
	return words
}

// EditDistance returns how many letters must be put in, taken out or replaced,
// or neighbours swapped, to make b of a.
//
// Source: the optimal string alignment distance; Damerau, "A technique for
// computer detection and correction of spelling errors", Comm. ACM 7(3), 1964
// (from memory).
func EditDistance(a, b string) int {
	s, t := []rune(a), []rune(b)
	before, last, row := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(s); i++ {
		row[0] = i
		for j := 1; j <= len(t); j++ {
			replace := last[j-1]
			if s[i-1] != t[j-1] {
				replace++
			}
			row[j] = min(last[j]+1, row[j-1]+1, replace)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(t)]
}
