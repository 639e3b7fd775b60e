package hindsight

import (
	"github.com/glossladder/glossladder/service/history"
)

// The steps in rising strength, as the contract orders them.
var steps = [...]string{"none", "finish", "polish", "cut"}

// strength orders steps; a word that is none of them counts as no step.
func strength(step string) int {
	switch step {
	case steps[1]:
		return 1
	case steps[2]:
		return 2
	case steps[3]:
		return 3
	}
	return 0
}

func stronger(a, b string) string {
	if strength(a) > strength(b) {
		return a
	}
	return b
}

func milder(a, b string) string {
	if strength(a) < strength(b) {
		return a
	}
	return b
}

// firstOf is where a ladder starts: "none" where there is none.
func firstOf(ladder string) string {
	if all := history.Steps(ladder); len(all) > 0 {
		return all[0]
	}
	return steps[0]
}
