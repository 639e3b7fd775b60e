package strictyaml

import "strings"

// Nearest returns the word of among that was probably meant by word: the one with the fewest slips of a finger (a letter
// more, fewer, other, or two neighbours swapped; the optimal string alignment form of the Damerau–Levenshtein distance),
// letter case aside. It returns "" when none is near: one slip is near up to 4 runes, two up to 8, three beyond. Of equally
// near words the first wins.
func Nearest(word string, among []string) string {
	folded := []rune(strings.ToLower(word))
	best, fewest := "", 1+slipsAllowed(len(folded))
	for _, candidate := range among {
		if d := slips(folded, []rune(strings.ToLower(candidate)), fewest); d < fewest {
			best, fewest = candidate, d
		}
	}
	return best
}

func slipsAllowed(runes int) int {
	switch {
	case runes <= 1:
		return 0
	case runes <= 4:
		return 1
	case runes <= 8:
		return 2
	}
	return 3
}

// slips is the distance between a and b, or enough if it is not smaller than enough.
func slips(a, b []rune, enough int) int {
	if len(a)-len(b) >= enough || len(b)-len(a) >= enough {
		return enough
	}
	before, row, next := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		next[0] = i
		for j := 1; j <= len(b); j++ {
			other := row[j-1]
			if a[i-1] != b[j-1] {
				other++
			}
			next[j] = min(other, row[j]+1, next[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				next[j] = min(next[j], before[j-2]+1)
			}
		}
		before, row, next = row, next, before
	}
	return min(row[len(b)], enough)
}
