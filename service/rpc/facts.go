package rpc

import (
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
)

// factsOut is the vocabulary of a rule set: every fact that begins with prefix, and every table.
func factsOut(set *rules.Set, prefix string) *glossladderv1.ListFactsResponse {
	out := &glossladderv1.ListFactsResponse{RuleSet: set.Hash()}
	for _, fact := range set.Schema().Facts() {
		if strings.HasPrefix(fact.Name, prefix) {
			out.Facts = append(out.Facts, factOut(fact))
		}
	}
	for _, result := range set.Schema().Results() {
		out.Tables = append(out.Tables, tableOut(set, result))
	}
	return out
}

func factOut(f rules.Fact) *glossladderv1.FactInfo {
	out := &glossladderv1.FactInfo{
		Name: f.Name, Label: f.Label, Meaning: f.Meaning, Kind: kindOut(f.Kind), Unit: f.Unit, Words: f.Words, Ordered: f.Ordered,
		Class: classOut(f.Class),
	}
	if f.Kind == rules.Number {
		out.Min, out.Max, out.Step = &f.Min, &f.Max, &f.Step
	}
	return out
}

func tableOut(set *rules.Set, result rules.ResultType) *glossladderv1.TableInfo {
	out := &glossladderv1.TableInfo{Name: result.Table, Meaning: result.Meaning}
	for _, field := range result.Fields {
		info := &glossladderv1.FactInfo{
			Name: field.Name, Meaning: field.Meaning, Kind: kindOut(field.Kind), Unit: field.Unit, Words: field.Words, Ordered: field.Ordered,
		}
		if field.Kind == rules.Number {
			info.Min, info.Max, info.Step = &field.Min, &field.Max, &field.Step
		}
		out.Fields = append(out.Fields, info)
	}
	if table, ok := set.Table(result.Table); ok {
		out.Hit, out.Rules = hitOut(table.Hit()), int32(len(table.Rules()))
	}
	return out
}

func kindOut(kind rules.Kind) glossladderv1.ValueKind {
	switch kind {
	case rules.Number:
		return glossladderv1.ValueKind_VALUE_KIND_NUMBER
	case rules.Word:
		return glossladderv1.ValueKind_VALUE_KIND_WORD
	case rules.Flag:
		return glossladderv1.ValueKind_VALUE_KIND_FLAG
	case rules.Text:
		return glossladderv1.ValueKind_VALUE_KIND_TEXT
	}
	return glossladderv1.ValueKind_VALUE_KIND_UNSPECIFIED
}

func classOut(class rules.Class) glossladderv1.FactClass {
	switch class {
	case rules.Given:
		return glossladderv1.FactClass_FACT_CLASS_GIVEN
	case rules.Measurable:
		return glossladderv1.FactClass_FACT_CLASS_MEASURED
	case rules.Choosable:
		return glossladderv1.FactClass_FACT_CLASS_CHOSEN
	}
	return glossladderv1.FactClass_FACT_CLASS_UNSPECIFIED
}

func hitOut(hit rules.Hit) glossladderv1.HitPolicy {
	switch hit {
	case rules.Unique:
		return glossladderv1.HitPolicy_HIT_POLICY_UNIQUE
	case rules.Any:
		return glossladderv1.HitPolicy_HIT_POLICY_ANY
	case rules.Priority:
		return glossladderv1.HitPolicy_HIT_POLICY_PRIORITY
	case rules.First:
		return glossladderv1.HitPolicy_HIT_POLICY_FIRST
	case rules.Collect:
		return glossladderv1.HitPolicy_HIT_POLICY_COLLECT
	}
	return glossladderv1.HitPolicy_HIT_POLICY_UNSPECIFIED
}
