package mutate

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
)

// source is a table as text that can be changed part by part. It is spelt anew, so
// comments and layout are not in it; what it decides is the same.
type source struct {
	head  string
	lets  []string
	rules []string
}

func sourceOf(t *rules.Table) source {
	s := source{head: fmt.Sprintf("table: %s\nhit: %s\n", t.Name(), t.Hit())}
	for _, l := range t.Lets() {
		s.lets = append(s.lets, letText(l.Name, l.Formula))
	}
	for i := range t.Rules() {
		r := &t.Rules()[i]
		s.rules = append(s.rules, ruleText(r, r.When, resultText(r.Result)))
	}
	return s
}

func letText(name, formula string) string {
	return fmt.Sprintf("  %s: %s\n", name, cases.Scalar(formula))
}

func ruleText(r *rules.Rule, when, then string) string {
	return fmt.Sprintf("  - id: %s\n    when: %s\n    then: %s\n    because: %s\n", r.ID, cases.Scalar(when), then, cases.Scalar(r.Because))
}

func resultText(r rules.Result) string {
	var parts []string
	for _, f := range r.Fields() {
		text := cases.Scalar(f.Value)
		switch {
		case f.Field.List:
			var items []string
			for _, w := range r.Words(f.Field.Name) {
				items = append(items, cases.Scalar(w))
			}
			text = "[" + strings.Join(items, ", ") + "]"
		case f.Field.Kind == rules.Number || f.Field.Kind == rules.Flag:
			text = f.Value
		}
		parts = append(parts, f.Field.Name+": "+text)
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// text is the whole table.
func (s source) text() []byte {
	var b bytes.Buffer
	b.WriteString(s.head)
	if len(s.lets) > 0 {
		b.WriteString("let:\n" + strings.Join(s.lets, ""))
	}
	b.WriteString("rules:\n" + strings.Join(s.rules, ""))
	return b.Bytes()
}

func (s source) withLet(at int, text string) []byte {
	s.lets = slices.Clone(s.lets)
	s.lets[at] = text
	return s.text()
}

func (s source) withRule(at int, text string) []byte {
	s.rules = slices.Clone(s.rules)
	s.rules[at] = text
	return s.text()
}

// swapped is the table with a rule and the one after it in each other's place.
func (s source) swapped(at int) []byte {
	s.rules = slices.Clone(s.rules)
	s.rules[at], s.rules[at+1] = s.rules[at+1], s.rules[at]
	return s.text()
}
