package page

import (
	"fmt"
	"io"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Facts sets the vocabulary of rules: every fact, and then every table with what its rules may say. The tables are left
// out when only some facts were asked for.
func Facts(w io.Writer, all *glossladderv1.ListFactsResponse, withTables bool, style Style) error {
	p := newPaper(style)
	group := ""
	for i, f := range all.GetFacts() {
		if name, _, _ := strings.Cut(f.GetName(), "."); name != group {
			if i > 0 {
				p.blank()
			}
			group = name
		}
		p.fact(0, f)
	}
	if withTables {
		p.blank()
		p.heading(0, "Tables, in the order in which they are asked")
		for _, t := range all.GetTables() {
			p.blank()
			p.item(0, 0, in(strong, t.GetName()), say("·"), say(fmt.Sprintf("hit %s, %s", plainWord(t.GetHit()), plural(int(t.GetRules()), "rule", "rules"))))
			p.para(titleAt, say(t.GetMeaning()))
			for _, f := range t.GetFields() {
				p.fact(titleAt, f)
			}
		}
		p.decidedBy(all.GetRuleSet())
	}
	return p.writeTo(w)
}

// fact is a name, what values it has, and its meaning below.
func (p *paper) fact(indent int, f *glossladderv1.FactInfo) {
	p.item(indent, indent+28, in(strong, f.GetName()), say(values(f)))
	meaning := f.GetMeaning()
	if label := f.GetLabel(); label != "" {
		meaning = label + ": " + meaning
	}
	p.para(indent+4, in(faint, meaning))
}

func values(f *glossladderv1.FactInfo) string {
	switch f.GetKind() {
	case glossladderv1.ValueKind_VALUE_KIND_NUMBER:
		text := fmt.Sprintf("%s to %s", number(f.GetMin()), with(f.GetMax(), f.GetUnit()))
		if f.Step != nil {
			text += fmt.Sprintf(" in steps of %g", f.GetStep())
		}
		return text
	case glossladderv1.ValueKind_VALUE_KIND_WORD:
		if f.GetOrdered() {
			return strings.Join(f.GetWords(), " < ")
		}
		return strings.Join(f.GetWords(), " | ")
	case glossladderv1.ValueKind_VALUE_KIND_FLAG:
		return "true or false"
	}
	return "text"
}
