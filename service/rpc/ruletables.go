package rpc

import (
	"context"
	"slices"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/edit"
	"github.com/glossladder/glossladder/rules/strictyaml"
	"github.com/glossladder/glossladder/service/rulefolder"
)

// NoRuleError says that the set in force has no such table, or the table no such rule.
type NoRuleError struct{ Table, Rule, Near string }

func (e *NoRuleError) Error() string {
	says := "there is no table " + e.Table
	if e.Rule != "" {
		says = "table " + e.Table + " has no rule " + e.Rule
	}
	if e.Near != "" {
		says += "; did you mean " + e.Near + "?"
	}
	return says
}

// ListRuleTables lists the tables of the set in force.
func (s *RulesServer) ListRuleTables(context.Context, *glossladderv1.ListRuleTablesRequest) (*glossladderv1.ListRuleTablesResponse, error) {
	set := s.desk.InForce().Advisor.Set()
	out := &glossladderv1.ListRuleTablesResponse{RuleSet: set.Hash()}
	for _, t := range set.Tables() {
		table := &glossladderv1.RuleTable{Name: t.Name(), Hit: string(t.Hit()), File: t.File(), RuleCount: int32(len(t.Rules()))}
		for _, let := range t.Lets() {
			table.Lets = append(table.Lets, &glossladderv1.RuleLet{Name: let.Name, Formula: let.Formula})
		}
		out.Tables = append(out.Tables, table)
	}
	return out, nil
}

// ListRules lists the rules of the set in force.
func (s *RulesServer) ListRules(_ context.Context, req *glossladderv1.ListRulesRequest) (*glossladderv1.ListRulesResponse, error) {
	set := s.desk.InForce().Advisor.Set()
	tables := set.Tables()
	if req.GetTable() != "" {
		t, err := tableOf(set, req.GetTable())
		if err != nil {
			return nil, statusOf(err, "")
		}
		tables = []*rules.Table{t}
	}
	type place struct{ table, rule int }
	var all []place
	for i, t := range tables {
		for r := range t.Rules() {
			all = append(all, place{i, r})
		}
	}
	page, next, err := pageOf(all, set.Hash(), req)
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.ListRulesResponse{RuleSet: set.Hash(), NextPageToken: next}
	files := map[int]tableFile{}
	for _, p := range page {
		file, ok := files[p.table]
		if !ok {
			file = fileOf(set, tables[p.table])
			files[p.table] = file
		}
		out.Rules = append(out.Rules, file.rule(tables[p.table], p.rule))
	}
	return out, nil
}

// GetRule gives one rule of the set in force.
func (s *RulesServer) GetRule(_ context.Context, req *glossladderv1.GetRuleRequest) (*glossladderv1.Rule, error) {
	set := s.desk.InForce().Advisor.Set()
	t, err := tableOf(set, req.GetTable())
	if err != nil {
		return nil, statusOf(err, "")
	}
	rule, ok := t.Rule(req.GetRuleId())
	if !ok {
		var ids []string
		for _, r := range t.Rules() {
			ids = append(ids, r.ID)
		}
		return nil, statusOf(&NoRuleError{Table: t.Name(), Rule: req.GetRuleId(), Near: strictyaml.Nearest(req.GetRuleId(), ids)}, "")
	}
	return fileOf(set, t).rule(t, rule.Index), nil
}

// UpdateRule changes one rule in its file.
func (s *RulesServer) UpdateRule(ctx context.Context, req *glossladderv1.UpdateRuleRequest) (*glossladderv1.RulesEdit, error) {
	rule := req.GetRule()
	t, err := tableOf(s.desk.InForce().Advisor.Set(), rule.GetTable())
	if err != nil {
		return nil, statusOf(err, "")
	}
	change, err := ruleChange(rule, req.GetUpdateMask().GetPaths())
	if err != nil {
		return nil, statusOf(err, "")
	}
	edits := func(now rulefolder.Files) ([]rulefolder.Change, error) {
		text, ok := now[t.File()]
		if !ok {
			return nil, &rulefolder.NoFileError{Name: t.File()}
		}
		// Before the edit is tried: in another text the rule may be gone, and that would be told instead.
		if is := rulefolder.Etag(text); is != rule.GetEtag() {
			return nil, &rulefolder.StaleError{Name: t.File(), Etag: is}
		}
		text, err := edit.Rule(t.File(), text, rule.GetRuleId(), change)
		return []rulefolder.Change{{Name: t.File(), Etag: rule.GetEtag(), Text: text}}, err
	}
	return s.editBy(ctx, RulesEdit{Change: edits, AcceptStronger: req.GetAcceptStronger(), ValidateOnly: req.GetValidateOnly()})
}

// ruleChange is what a request wants of a rule: what its mask names, or all that is there.
func ruleChange(rule *glossladderv1.Rule, mask []string) (edit.Change, error) {
	switch {
	case rule.GetTable() == "" || rule.GetRuleId() == "":
		return edit.Change{}, &RequestError{"rule", "say which one by table and rule_id"}
	case rule.GetEtag() == "":
		return edit.Change{}, &RequestError{"rule.etag", "send the etag of the file that was read, so that nobody else's edit is lost"}
	}
	if len(mask) == 0 {
		for field, value := range map[string]string{"when": rule.GetWhen(), "then": rule.GetThen(), "because": rule.GetBecause()} {
			if value != "" {
				mask = append(mask, field)
			}
		}
	}
	var change edit.Change
	for field, value := range map[string]struct {
		is string
		at **string
	}{
		"when": {rule.GetWhen(), &change.When}, "then": {rule.GetThen(), &change.Then}, "because": {rule.GetBecause(), &change.Because},
	} {
		if i := slices.Index(mask, field); i >= 0 {
			mask = slices.Delete(slices.Clone(mask), i, i+1)
			*value.at = &value.is
		}
	}
	if len(mask) > 0 {
		return edit.Change{}, &RequestError{"update_mask", "of a rule, when, then and because can be changed, not " + mask[0]}
	}
	return change, nil
}

func tableOf(set *rules.Set, name string) (*rules.Table, error) {
	t, ok := set.Table(name)
	if !ok {
		var names []string
		for _, t := range set.Tables() {
			names = append(names, t.Name())
		}
		return nil, &NoRuleError{Table: name, Near: strictyaml.Nearest(name, names)}
	}
	return t, nil
}

// tableFile is what the text of a table's file tells about its rules.
type tableFile struct {
	etag    string
	answers map[string]string // as they are written, by rule
}

func fileOf(set *rules.Set, t *rules.Table) tableFile {
	text, _ := set.Source(t.File())
	answers, err := edit.Answers(t.File(), text)
	if err != nil { // the set has loaded from this very text
		answers = nil
	}
	return tableFile{etag: rulefolder.Etag(text), answers: answers}
}

func (f tableFile) rule(t *rules.Table, index int) *glossladderv1.Rule {
	r := t.Rules()[index]
	return &glossladderv1.Rule{
		Table: t.Name(), RuleId: r.ID, When: r.When, Then: f.answers[r.ID], Because: r.Because, File: r.File, Line: int32(r.Line), Etag: f.etag,
	}
}
