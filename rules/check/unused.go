package check

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// unusedWords looks for words of the answer that no rule gives which can ever answer.
// A field that no rule gives at all is not in use, and its words are not told.
func (c *checker) unusedWords() {
	result := c.t.Result()
	for _, f := range result.Fields {
		if f.Kind != rules.Word {
			continue
		}
		given := c.wordsGiven(f)
		if len(given) == 0 {
			continue
		}
		level := Advice
		if f.Name == result.Priority {
			level = Warning
		}
		for _, w := range f.Words {
			if slices.Contains(given, w) {
				continue
			}
			c.add(Finding{
				Code: UnusedWord, Level: level, Subject: f.Name + " " + w,
				Message: "no rule of " + c.t.Name() + " gives " + f.Name + " " + w,
				Effect:  c.t.Name() + " never answers " + f.Name + " " + w,
				Mend:    "add a rule that gives it, or accept that none does",
			})
		}
	}
}

// wordsGiven are the words of a field that rules give which can answer.
func (c *checker) wordsGiven(f rules.Field) []string {
	var out []string
	for r, rule := range c.t.Rules() {
		if c.dead[int32(r)] {
			continue
		}
		if f.List {
			out = append(out, rule.Result.Words(f.Name)...)
		} else if word, ok := rule.Result.Word(f.Name); ok {
			out = append(out, word)
		}
	}
	return out
}
