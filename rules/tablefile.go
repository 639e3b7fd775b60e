package rules

import (
	"fmt"
	"regexp"
	"slices"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

var (
	ruleShape = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	letShape  = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)
)

// draft is a table that is being read.
type draft struct {
	table      *Table
	clauses    *cond.Clauses
	conditions []cond.Condition // along table.rules
}

// tableFile reads one table.
func (l *loader) tableFile(file string, root *strictyaml.Node) {
	r := &reader{file: file, problems: &l.problems}
	top := r.keys(root, "a table file", []string{"table", "hit", "rules"}, "let")
	name, ok := r.text(top["table"], "table")
	if !ok {
		l.unnamed = true
		return
	}
	i := slices.IndexFunc(l.schema.results, func(t ResultType) bool { return t.Table == name })
	if i < 0 {
		var names []string
		for _, t := range l.schema.results {
			names = append(names, t.Table)
		}
		r.complain(top["table"].Pos(), "there is no table "+name, Meant(name, names, "the tables are "))
		l.unnamed = true
		return
	}
	if other := l.drafts[name]; other != nil {
		r.complain(top["table"].Pos(), fmt.Sprintf("table %s stands in %s already", name, other.table.file), "a table has one file")
		return
	}
	typ := &l.schema.results[i]
	d := &draft{table: &Table{schema: l.schema, typ: typ, name: name, file: file}}
	l.drafts[name] = d
	d.table.hit = r.hit(top["hit"], typ)
	compiler := cond.NewCompiler(l.schema.space)
	d.clauses = compiler.Clauses()
	r.lets(top["let"], d, compiler)
	r.rules(top["rules"], d, compiler)
}

func (r *reader) hit(n *strictyaml.Node, typ *ResultType) Hit {
	text, ok := r.text(n, "hit")
	if !ok {
		return ""
	}
	allowed := typ.policies()
	if slices.Contains(allowed, Hit(text)) {
		return Hit(text)
	}
	hint := "table " + typ.Table + " allows " + hitNames(allowed)
	if !slices.Contains(hits, Hit(text)) {
		var names []string
		for _, h := range allowed {
			names = append(names, string(h))
		}
		hint = Meant(text, names, "the policies are ")
	}
	r.complain(n.Pos(), "hit cannot be "+text, hint)
	return ""
}

func (r *reader) lets(n *strictyaml.Node, d *draft, compiler *cond.Compiler) {
	if n == nil || !r.is(n, strictyaml.Map, "let") {
		return
	}
	for _, e := range n.Entries() {
		if !letShape.MatchString(e.Key) {
			r.complain(e.KeyPos, "let "+e.Key+" needs a name in lower case", "write it like usable_share")
		}
		text, ok := r.text(e.Value, "let "+e.Key)
		if !ok {
			text = "false" // complained about; its uses are not to blame
		}
		ms := compiler.Let(e.Key, untrimmed(e.Value, text))
		if !ok {
			continue
		}
		for _, m := range ms {
			r.complain(e.Value.PosOf(m.At), m.Message, m.Hint)
		}
		d.table.lets = append(d.table.lets, Let{Name: e.Key, Formula: text})
	}
}

// untrimmed is the scalar's own text, so that places in it stay right.
func untrimmed(n *strictyaml.Node, text string) string {
	if n.Kind() != strictyaml.Scalar || text == "false" {
		return text
	}
	return n.Text()
}

func (r *reader) rules(n *strictyaml.Node, d *draft, compiler *cond.Compiler) {
	if n == nil || !r.is(n, strictyaml.List, "rules") {
		return
	}
	if len(n.Items()) == 0 {
		r.complain(n.Pos(), "the table has no rules", "")
	}
	lines := map[string]int{}
	for _, item := range n.Items() {
		rule, condition := r.oneRule(item, d, compiler)
		if at, twice := lines[rule.ID]; twice && rule.ID != "" {
			r.problems.at(r.file, strictyaml.Pos{Line: rule.Line, Col: rule.Col}, rule.ID,
				fmt.Sprintf("rule %s stands in line %d already", rule.ID, at), "an id is used once in its table")
		} else {
			lines[rule.ID] = rule.Line
		}
		rule.Index = len(d.table.rules)
		d.table.rules = append(d.table.rules, rule)
		d.conditions = append(d.conditions, condition)
	}
}

func (r *reader) oneRule(n *strictyaml.Node, d *draft, compiler *cond.Compiler) (Rule, cond.Condition) {
	rule := Rule{File: r.file, Line: n.Pos().Line, Col: n.Pos().Col}
	if n.Kind() == strictyaml.Map {
		for _, e := range n.Entries() {
			if e.Key == "id" {
				r.rule = e.Value.Text()
			}
		}
	}
	defer func() { r.rule = "" }()
	keys := r.keys(n, "a rule", []string{"id", "when", "then", "because"})
	if id, ok := r.text(keys["id"], "id"); ok {
		rule.ID, rule.Line, rule.Col = id, keys["id"].Pos().Line, keys["id"].Pos().Col
		if !ruleShape.MatchString(id) {
			r.complain(keys["id"].Pos(), "id "+id+" must be lower-case words joined by dashes", "")
		}
	}
	rule.Because, _ = r.text(keys["because"], "because")
	rule.Result = r.result(keys["then"], d.table.typ)
	when, ok := r.text(keys["when"], "when")
	if !ok {
		return rule, cond.Condition{}
	}
	rule.When = when
	condition, ms := compiler.Compile(keys["when"].Text())
	for _, m := range ms {
		r.complain(keys["when"].PosOf(m.At), m.Message, m.Hint)
	}
	return rule, condition
}
