package rules

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// FactsFile is the file in which a folder declares facts of its own, where its
// schema lets it. No folder needs one.
const FactsFile = "facts.yaml"

// notAFact ends what is said of a name that no fact has.
const notAFact = " is not a fact"

// mostOwnFacts is how many facts a folder may declare; each one more makes every
// proof about the set a little longer.
const mostOwnFacts = 64

// LetOwn is the schema that lets a rule folder declare facts of its own in one
// group: with "shop" they are named shop.fleet. The group must be free.
func (s *Schema) LetOwn(group string) (*Schema, error) {
	if !fieldShape.MatchString(group) || slices.Contains(reserved, group) {
		return nil, fmt.Errorf("group %q needs a lower-case name that conditions do not keep for themselves", group)
	}
	for i := range s.facts {
		if first, _, _ := strings.Cut(s.facts[i].Name, "."); first == group {
			return nil, fmt.Errorf("group %s has the fact %s already", group, s.facts[i].Name)
		}
	}
	out := *s
	out.own = group
	return &out, nil
}

// OwnGroup is the group in which a folder may declare facts; empty for none.
func (s *Schema) OwnGroup() string { return s.own }

// Own are the facts that the folder declared; none for a schema that no set was
// loaded for. Do not change them.
func (s *Schema) Own() []Fact { return s.facts[len(s.facts)-s.owned:] }

// with is the schema with facts of a folder's own after the others, so that the
// others keep their places.
func (s *Schema) with(own []Fact) (*Schema, error) {
	if len(own) == 0 {
		return s, nil
	}
	out, err := NewSchema(slices.Concat(s.facts[:len(s.facts)-s.owned], own), s.results)
	if err != nil {
		return nil, err
	}
	out.own, out.owned = s.own, len(own)
	return out, nil
}

// ownFacts reads the folder's own facts and goes on with a schema that has them.
func (l *loader) ownFacts() {
	src, ok := l.read(FactsFile)
	if !ok {
		return
	}
	root, ps := strictyaml.Parse(FactsFile, src)
	l.problems.add(ps...)
	if root == nil {
		return
	}
	r := &reader{file: FactsFile, problems: &l.problems}
	own := r.factsOf(root, l.schema)
	schema, err := l.schema.with(own)
	if err != nil {
		l.fail(FactsFile, err.Error(), "") // each fact was looked at, so this is a fault that only all of them have
		return
	}
	l.schema, l.set.schema = schema, schema
}

// own leaves out complaints about facts that the folder means to declare: as long as
// its declarations are at fault, nobody is to blame for naming them.
func (l *loader) own(found Problems) Problems {
	if l.schema.own == "" || !slices.ContainsFunc(found, func(p Problem) bool { return p.File == FactsFile }) {
		return found
	}
	return slices.DeleteFunc(found, func(p Problem) bool {
		return strings.HasPrefix(p.Message, l.schema.own+".") && strings.HasSuffix(p.Message, notAFact)
	})
}

func (r *reader) factsOf(root *strictyaml.Node, s *Schema) []Fact {
	list := r.keys(root, "a file of facts", []string{"facts"})["facts"]
	if list == nil || !r.is(list, strictyaml.List, "facts") {
		return nil
	}
	if n := len(list.Items()); n > mostOwnFacts {
		r.complain(list.Pos(), fmt.Sprintf("these are %d facts, at most %d are allowed", n, mostOwnFacts), "")
		return nil
	}
	var out []Fact
	lines := map[string]int{}
	for _, item := range list.Items() {
		f, ok := r.ownFact(item, s.own)
		if line, twice := lines[f.Name]; twice && f.Name != "" {
			r.complain(item.Pos(), fmt.Sprintf("fact %s stands in line %d already", f.Name, line), "a fact is declared once")
			continue
		}
		lines[f.Name] = item.Pos().Line
		if ok {
			out = append(out, f)
		}
	}
	return out
}

// ownKinds are the words for the kinds that a folder may declare, ownClasses those for what can be done about a fact.
var (
	ownKinds   = []string{"number", "word", "flag"}
	ownClasses = []string{"given", "measured", "chosen"}
)

// ownFact reads one declaration; ok is false when something about it is wrong.
func (r *reader) ownFact(n *strictyaml.Node, group string) (f Fact, ok bool) {
	before := len(*r.problems)
	keys := r.keys(n, "a fact", []string{"name", "meaning", "kind"}, "label", "unit", "min", "max", "step", "words", "ordered", "class", "learn")
	f.Name, _ = r.text(keys["name"], "name")
	f.Meaning, _ = r.text(keys["meaning"], "meaning")
	if _, own, _ := strings.Cut(f.Name, "."); keys["label"] == nil {
		f.Label = strings.ReplaceAll(own, "_", " ")
	} else {
		f.Label, _ = r.text(keys["label"], "label")
	}
	if f.Name != "" {
		r.ownName(keys["name"], f.Name, group)
	}
	f.Kind = Kind(1 + r.oneOf(keys["kind"], "kind", ownKinds))
	if class := keys["class"]; class != nil {
		f.Class = Class(max(0, r.oneOf(class, "class", ownClasses)))
	}
	if learn := keys["learn"]; learn != nil {
		f.Learn, _ = r.text(learn, "learn")
	}
	r.ownValues(n, keys, &f)
	return f, len(*r.problems) == before
}

// ownName holds a name to the group that is the folder's.
func (r *reader) ownName(n *strictyaml.Node, name, group string) {
	first, rest, _ := strings.Cut(name, ".")
	if first != group || !fieldShape.MatchString(rest) {
		r.complain(n.Pos(), fmt.Sprintf("%s is no name for a fact of your own", name),
			"write "+group+". and a lower-case name, such as "+group+".fleet or "+group+".washed_days")
	}
}

// oneOf is the place of a word in a list, -1 when it is not there.
func (r *reader) oneOf(n *strictyaml.Node, what string, words []string) int {
	text, ok := r.text(n, what)
	if !ok {
		return -1
	}
	at := slices.Index(words, text)
	if at < 0 {
		r.complain(n.Pos(), what+" cannot be "+text, Meant(text, words, "it is one of "))
	}
	return at
}

// kindKeys are the keys that only facts of one kind have.
var kindKeys = map[Kind][]string{Number: {"unit", "min", "max", "step"}, Word: {"words", "ordered"}}

// ownValues reads what values a fact may have.
func (r *reader) ownValues(n *strictyaml.Node, keys map[string]*strictyaml.Node, f *Fact) {
	if f.Kind == 0 {
		return // which keys belong here cannot be told
	}
	for kind, names := range kindKeys {
		for _, name := range names {
			if keys[name] != nil && kind != f.Kind {
				r.complain(keys[name].Pos(), fmt.Sprintf("a %s has no %s", f.Kind, name), fmt.Sprintf("only a %s has one", kind))
			}
		}
	}
	switch f.Kind {
	case Number:
		r.ownRange(n, keys, f)
	case Word:
		r.ownWords(n, keys, f)
	}
}

func (r *reader) ownRange(n *strictyaml.Node, keys map[string]*strictyaml.Node, f *Fact) {
	if unit := keys["unit"]; unit != nil {
		f.Unit, _ = r.text(unit, "unit")
	}
	good := true
	for _, at := range []struct {
		name string
		into *float64
	}{{"min", &f.Min}, {"max", &f.Max}, {"step", &f.Step}} {
		node := keys[at.name]
		if node == nil {
			r.complain(n.Pos(), "a number needs "+at.name, "")
			good = false
			continue
		}
		x, err := node.Number()
		if err != nil {
			r.complain(node.Pos(), at.name+" is a number: "+err.Error(), "")
			good = false
		}
		*at.into = x
	}
	if !good {
		return
	}
	if _, complaints := f.axis(); len(complaints) > 0 {
		r.complain(keys["step"].Pos(), fmt.Sprintf("from %s to %s in steps of %s %s", showNumber(f.Min), showNumber(f.Max), showNumber(f.Step), strings.Join(complaints, ", ")),
			"max lies a whole number of steps above min")
	}
}

func (r *reader) ownWords(n *strictyaml.Node, keys map[string]*strictyaml.Node, f *Fact) {
	list := keys["words"]
	if list == nil {
		r.complain(n.Pos(), "a word needs words", "list what it may be, the least first where they rise")
		return
	}
	if !r.is(list, strictyaml.List, "words") {
		return
	}
	for _, item := range list.Items() {
		w, ok := r.text(item, "a word")
		if ok && !ruleShape.MatchString(w) {
			r.complain(item.Pos(), fmt.Sprintf("the word %q needs lower-case letters, digits and single hyphens", w), "")
		}
		f.Words = append(f.Words, w)
	}
	if complaints := wordComplaints(f.Words); len(complaints) > 0 && !slices.Contains(f.Words, "") {
		r.complain(list.Pos(), f.Name+" "+strings.Join(complaints, ", "), "")
	}
	if ordered := keys["ordered"]; ordered != nil {
		var err error
		if f.Ordered, err = ordered.Bool(); err != nil {
			r.complain(ordered.Pos(), "ordered is true or false: "+err.Error(), "")
		}
	}
}
