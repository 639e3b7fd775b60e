package rules

import (
	"fmt"
	"slices"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Case is one worked case: facts, and what the table must answer.
type Case struct {
	Table string
	Name  string
	File  string
	Line  int // of the name, from 1
	Col   int
	Given *Input // do not change it

	Rule   string   // the winning rule, or empty
	Rules  []string // under collect: all rules that hold, in file order; nil when not said
	None   bool     // no rule holds
	Then   Result   // fields that the answer must have; the zero Result when not said
	Thens  []Result // under collect: several such, each of one rule that holds; nil when Then says it
	Misses []string // rules that the case just misses
}

// caseFile reads one file of worked cases. Tables were read before.
func (l *loader) caseFile(file string, src []byte) {
	root, ps := strictyaml.Parse(file, src)
	l.problems.add(ps...)
	if root == nil {
		return
	}
	r := &reader{file: file, problems: &l.problems}
	top := r.keys(root, "a case file", []string{"table", "cases"})
	table, ok := r.text(top["table"], "table")
	if !ok {
		return
	}
	d := l.drafts[table]
	if d == nil {
		var names []string
		for _, t := range l.schema.results {
			names = append(names, t.Table)
		}
		if !slices.Contains(names, table) {
			r.complain(top["table"].Pos(), "there is no table "+table, Meant(table, names, "the tables are "))
		}
		return
	}
	if top["cases"] == nil || !r.is(top["cases"], strictyaml.List, "cases") {
		return
	}
	seen := map[string]bool{}
	for _, item := range top["cases"].Items() {
		c := r.oneCase(item, d, l.schema)
		if seen[c.Name] && c.Name != "" {
			r.complain(strictyaml.Pos{Line: c.Line, Col: c.Col}, fmt.Sprintf("there are two cases %q", c.Name), "")
		}
		seen[c.Name] = true
		l.set.cases = append(l.set.cases, c)
	}
}

func (r *reader) oneCase(n *strictyaml.Node, d *draft, schema *Schema) Case {
	c := Case{Table: d.table.name, File: r.file, Line: n.Pos().Line, Col: n.Pos().Col, Given: schema.NewInput()}
	keys := r.keys(n, "a case", []string{"name", "given", "expect"}, "misses")
	if name, ok := r.text(keys["name"], "name"); ok {
		c.Name, c.Line, c.Col = name, keys["name"].Pos().Line, keys["name"].Pos().Col
	}
	if given := keys["given"]; given != nil && r.is(given, strictyaml.Map, "given") {
		for _, e := range given.Entries() {
			r.given(e, c.Given)
		}
	}
	if expect := keys["expect"]; expect != nil {
		r.expect(expect, d, &c)
	}
	if misses := keys["misses"]; misses != nil {
		c.Misses = r.ruleIDs(misses, d, c.Name, "misses")
	}
	return c
}

// given reads one fact of a case.
func (r *reader) given(e strictyaml.Entry, in *Input) {
	id, ok := in.schema.FactID(e.Key)
	if !ok {
		r.complain(e.KeyPos, e.Key+" is not a fact", Meant(e.Key, in.schema.factNames(), ""))
		return
	}
	if !r.is(e.Value, strictyaml.Scalar, e.Key) {
		return
	}
	var err error
	switch in.schema.facts[id].Kind {
	case Number:
		var v float64
		if v, err = e.Value.Number(); err == nil {
			err = in.SetNumber(id, v)
		}
	case Flag:
		var v bool
		if v, err = e.Value.Bool(); err == nil {
			err = in.SetFlag(id, v)
		}
	default:
		err = in.SetWord(id, e.Value.Text())
	}
	if err != nil {
		r.complain(e.Value.Pos(), err.Error(), "")
	}
}

func (r *reader) expect(n *strictyaml.Node, d *draft, c *Case) {
	keys := r.keys(n, "expect", nil, "rule", "rules", "none", "then")
	if n.Kind() != strictyaml.Map {
		return
	}
	if len(n.Entries()) == 0 {
		r.complain(n.Pos(), "expect is empty", "say rule, rules, none or then")
	}
	if keys["rule"] != nil {
		if ids := r.ruleIDs(keys["rule"], d, c.Name, "rule"); len(ids) == 1 {
			c.Rule = ids[0]
		}
		if d.table.hit == Collect {
			r.complain(keys["rule"].Pos(), "table "+d.table.name+" collects", "write rules: [ids]")
		}
	}
	if keys["rules"] != nil && r.is(keys["rules"], strictyaml.List, "rules") {
		c.Rules = r.ruleIDs(keys["rules"], d, c.Name, "rules")
		if d.table.hit != Collect {
			r.complain(keys["rules"].Pos(), "table "+d.table.name+" answers with one rule", "write rule: id")
		}
	}
	if keys["none"] != nil {
		none, err := keys["none"].Bool()
		if err != nil || !none {
			r.complain(keys["none"].Pos(), "none can only be true", "leave it out otherwise")
		}
		c.None = true
	}
	if (keys["rule"] != nil || keys["rules"] != nil || keys["then"] != nil) && keys["none"] != nil {
		r.complain(n.Pos(), "a case expects none, or something", "")
	}
	if then := keys["then"]; then != nil {
		r.then(then, d, c)
	}
}

// then reads what the answer must have: a map, or under collect a list of maps.
func (r *reader) then(n *strictyaml.Node, d *draft, c *Case) {
	if n.Kind() != strictyaml.List || d.table.hit != Collect {
		c.Then = r.part(n, d.table.typ)
		return
	}
	for _, item := range n.Items() {
		c.Thens = append(c.Thens, r.part(item, d.table.typ))
	}
}

// part reads some fields of a result; none is required.
func (r *reader) part(n *strictyaml.Node, typ *ResultType) Result {
	loose := *typ
	loose.Fields = slices.Clone(typ.Fields)
	for i := range loose.Fields {
		loose.Fields[i].Required = false
	}
	out := r.result(n, &loose)
	out.typ = typ
	return out
}

// ruleIDs reads one id or a list of ids of the table's rules. A case that names a rule which is gone is the example of what
// nothing answers now, so the complaint names it.
func (r *reader) ruleIDs(n *strictyaml.Node, d *draft, name, what string) []string {
	items := []*strictyaml.Node{n}
	if n.Kind() == strictyaml.List {
		items = n.Items()
	}
	out := []string{}
	var known []string
	for i := range d.table.rules {
		known = append(known, d.table.rules[i].ID)
	}
	for _, item := range items {
		id, ok := r.text(item, what)
		if !ok {
			continue
		}
		if !slices.Contains(known, id) {
			r.complain(item.Pos(), fmt.Sprintf("table %s has no rule %s, which the case %q is for", d.table.name, id, name), Meant(id, known, ""))
			continue
		}
		out = append(out, id)
	}
	return out
}
