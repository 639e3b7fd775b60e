package edit

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Change is what a rule shall say. Nil: as it does.
type Change struct {
	When *string
	// Then is a map as YAML writes it, in braces or over several lines.
	Then    *string
	Because *string
}

// NoRuleError says that a file has no rule of that id.
type NoRuleError struct {
	File, ID string
	Near     string // an id that may have been meant, or empty
}

func (e *NoRuleError) Error() string {
	says := fmt.Sprintf("%s has no rule %s", e.File, e.ID)
	if e.Near != "" {
		says += "; did you mean " + e.Near + "?"
	}
	return says
}

// FormError says that a value cannot be written where the rule has it.
type FormError struct{ Field, Says string }

func (e *FormError) Error() string { return e.Field + ": " + e.Says }

// Rule returns the text of a rule file with one rule changed. Errors are [*NoRuleError], [*FormError], and
// [strictyaml.Problems] when the file cannot be read as it is.
func Rule(file string, src []byte, id string, change Change) ([]byte, error) {
	root, problems := strictyaml.Parse(file, src)
	if len(problems) > 0 {
		return nil, problems
	}
	rule, err := find(file, root, id)
	if err != nil {
		return nil, err
	}
	t := newText(src)
	var cuts []cut
	for _, field := range change.fields() {
		entry, ok := entryOf(rule, field.name)
		if !ok {
			return nil, &FormError{Field: field.name, Says: fmt.Sprintf("rule %s has none to change; write it into %s", id, file)}
		}
		c, err := t.rewrite(rule, entry, field)
		if err != nil {
			return nil, err
		}
		cuts = append(cuts, c...)
	}
	out := t.splice(cuts)
	if err := verify(file, root, out, id, change); err != nil {
		return nil, err
	}
	return out, nil
}

// Answers gives the then of every rule of a file, as it is written there, by the rule's id.
func Answers(file string, src []byte) (map[string]string, error) {
	root, problems := strictyaml.Parse(file, src)
	if len(problems) > 0 {
		return nil, problems
	}
	t := newText(src)
	answers := map[string]string{}
	for _, rule := range rulesOf(root) {
		id, _ := entryOf(rule, "id")
		then, ok := entryOf(rule, "then")
		if !ok {
			continue
		}
		start, end := t.span(then.Value)
		answers[id.Value.Text()] = dedent(string(t.src[start:end]), then.Value.Pos().Col-1)
	}
	return answers, nil
}

type field struct{ name, value string }

var lineEnds = regexp.MustCompile(`[ \t]*\r?\n[ \t]*`)

// fields are what the change sets. Where a condition breaks its lines means nothing; it is laid out anew.
func (c Change) fields() []field {
	var out []field
	if c.When != nil {
		out = append(out, field{"when", lineEnds.ReplaceAllString(strings.TrimSpace(*c.When), " ")})
	}
	if c.Then != nil {
		out = append(out, field{"then", strings.TrimSpace(*c.Then)})
	}
	if c.Because != nil {
		out = append(out, field{"because", strings.TrimSpace(*c.Because)})
	}
	return out
}

func rulesOf(root *strictyaml.Node) []*strictyaml.Node {
	list, _ := entryOf(root, "rules")
	return list.Value.Items()
}

func entryOf(n *strictyaml.Node, key string) (strictyaml.Entry, bool) {
	for _, e := range n.Entries() {
		if e.Key == key {
			return e, true
		}
	}
	return strictyaml.Entry{}, false
}

func find(file string, root *strictyaml.Node, id string) (*strictyaml.Node, error) {
	var ids []string
	for _, rule := range rulesOf(root) {
		own, _ := entryOf(rule, "id")
		if own.Value.Text() == id {
			return rule, nil
		}
		ids = append(ids, own.Value.Text())
	}
	return nil, &NoRuleError{File: file, ID: id, Near: strictyaml.Nearest(id, ids)}
}

// verify reads the new text once more: the rule says what it shall, and all else says what it did.
func verify(file string, before *strictyaml.Node, out []byte, id string, change Change) error {
	after, problems := strictyaml.Parse(file, out)
	changed := change.fields()
	if len(problems) > 0 || len(changed) == 0 && !same(before, after) {
		return unwritable(changed)
	}
	old, err := find(file, before, id)
	if err != nil {
		return err
	}
	now, err := find(file, after, id)
	if err != nil {
		return unwritable(changed)
	}
	for _, f := range changed {
		e, _ := entryOf(now, f.name)
		if f.name != "then" && strings.TrimSpace(e.Value.Text()) != f.value {
			return unwritable(changed)
		}
		if f.name == "then" {
			want, _ := strictyaml.Parse("then", []byte(f.value))
			if !same(want, e.Value) {
				return unwritable(changed)
			}
		}
	}
	if !sameBut(before, after, old, now, changed) {
		return unwritable(changed)
	}
	return nil
}

func unwritable(changed []field) error {
	if len(changed) == 0 {
		return &FormError{Field: "rule", Says: "nothing was to be changed, and the text would have been"}
	}
	return &FormError{Field: changed[0].name, Says: "the text around it leaves no place for this value; edit the file as a whole"}
}

// same says whether two values mean the same, however they are written.
func same(a, b *strictyaml.Node) bool { return sameBut(a, b, nil, nil, nil) }

// sameBut leaves the changed fields of one rule out.
func sameBut(a, b, ruleA, ruleB *strictyaml.Node, changed []field) bool {
	if a.Kind() != b.Kind() || a.Text() != b.Text() || len(a.Items()) != len(b.Items()) || len(a.Entries()) != len(b.Entries()) {
		return false
	}
	for i, item := range a.Items() {
		if !sameBut(item, b.Items()[i], ruleA, ruleB, changed) {
			return false
		}
	}
	for i, e := range a.Entries() {
		other := b.Entries()[i]
		if e.Key != other.Key {
			return false
		}
		mayDiffer := a == ruleA && b == ruleB && slices.ContainsFunc(changed, func(f field) bool { return f.name == e.Key })
		if !mayDiffer && !sameBut(e.Value, other.Value, ruleA, ruleB, changed) {
			return false
		}
	}
	return true
}

// dedent takes so many blanks off the lines after the first.
func dedent(text string, blanks int) string {
	lines := strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	for i := 1; i < len(lines); i++ {
		own := len(lines[i]) - len(strings.TrimLeft(lines[i], " "))
		lines[i] = lines[i][min(blanks, own):]
	}
	return strings.Join(lines, "\n")
}

// cut is a part of the text with what takes its place.
type cut struct {
	start, end int
	with       string
}

func (t *text) splice(cuts []cut) []byte {
	slices.SortFunc(cuts, func(a, b cut) int { return a.start - b.start })
	var out bytes.Buffer
	at := 0
	for _, c := range cuts {
		out.Write(t.src[at:c.start])
		out.WriteString(c.with)
		at = c.end
	}
	out.Write(t.src[at:])
	return out.Bytes()
}
