package promise

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// blind reads what tables do not look at.
func (r *reader) blind(n *strictyaml.Node, p *Promise) {
	before := len(r.problems)
	keys := r.keys(n, "blind", "tables", "to")
	p.To = r.text(keys["to"], "to")
	list := keys["tables"]
	switch {
	case list == nil || p.To == "":
		if len(r.problems) == before {
			r.bad(n, "blind needs tables and to", "write it like {tables: [limit], to: history}")
		}
		return
	case list.Kind() != strictyaml.List:
		r.bad(list, "tables are a list", "write it like [limit, removal]")
		return
	}
	for _, item := range list.Items() {
		p.Tables = append(p.Tables, r.text(item, "a table"))
	}
}

// blind settles a blind promise. It goes by what the rules name, lets written out: a rule that names a fact to no effect breaks it
// too, since nobody could tell at a glance.
func (v *verifier) blind(out *Verdict) {
	group := v.promise.To + "."
	if !slices.ContainsFunc(v.set.Schema().Facts(), func(f rules.Fact) bool { return strings.HasPrefix(f.Name, group) }) {
		v.complain("there is no group of facts "+v.promise.To, "a group is what stands before the dot: film of film.usable_um")
		return
	}
	out.Outcome = Kept
	for _, name := range v.promise.Tables {
		table, ok := v.set.Table(name)
		if !ok {
			v.complain("there is no table "+name, "")
			return
		}
		for _, rule := range table.Rules() {
			for _, id := range rule.Reads {
				if fact := v.set.Schema().Fact(id).Name; strings.HasPrefix(fact, group) && out.Outcome == Kept {
					out.Outcome, out.Example = Broken, fmt.Sprintf("%s of %s (%s:%d) asks for %s", rule.ID, name, rule.File, rule.Line, fact)
				}
			}
		}
	}
}
