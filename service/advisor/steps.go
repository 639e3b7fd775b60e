package advisor

import (
	"slices"
	"strings"
)

// steps in rising strength, as the contract orders them.
var stepsByStrength = [...]string{noStep, finishing, "polish", cutStep}

// strength orders steps; an unknown word is -1.
func strength(step string) int { return slices.Index(stepsByStrength[:], step) }

func milderOf(a, b string) string {
	if strength(a) < strength(b) {
		return a
	}
	return b
}

func strongerOf(a, b string) string {
	if strength(a) > strength(b) {
		return a
	}
	return b
}

// stronger is the next stronger step; false above the cut.
func stronger(step string) (string, bool) {
	if k := strength(step) + 1; k > 0 && k < len(stepsByStrength) {
		return stepsByStrength[k], true
	}
	return "", false
}

// milder is the next milder step; false below the finish.
func milder(step string) (string, bool) {
	if k := strength(step) - 1; k > 0 {
		return stepsByStrength[k], true
	}
	return "", false
}

// stepsOf splits a ladder's word into its steps, strongest first: "polish-finish" is polish, finish.
func stepsOf(ladder string) []string {
	if ladder == "" || ladder == noStep {
		return nil
	}
	return strings.Split(ladder, "-")
}

// ladderOf is the word for some steps in any order.
func ladderOf(steps []string) string {
	if len(steps) == 0 {
		return noStep
	}
	sorted := slices.Clone(steps)
	slices.SortFunc(sorted, func(a, b string) int { return strength(b) - strength(a) })
	return strings.Join(slices.Compact(sorted), "-")
}
