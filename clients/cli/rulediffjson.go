package cli

import (
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/compare"
)

type differenceReportJSON struct {
	A              setJSON               `json:"a"`
	B              setJSON               `json:"b"`
	Base           *baseJSON             `json:"base,omitempty"` // left out when B does not say where it comes from
	Outcome        string                `json:"outcome"`
	Tables         []tableDifferenceJSON `json:"tables,omitempty"`
	Files          []fileDifferenceJSON  `json:"files,omitempty"`
	AcceptStronger string                `json:"accept_stronger,omitempty"` // left out when there is nothing to accept
	Accepted       bool                  `json:"accepted"`
}

type setJSON struct {
	Name    string `json:"name"`
	RuleSet string `json:"rule_set"`
}

type baseJSON struct {
	RuleSet        string   `json:"rule_set"`
	Version        string   `json:"version"`
	Copied         string   `json:"copied"`
	ShippedMoved   bool     `json:"shipped_moved_on"`
	ChangedShipped []string `json:"changed_in_shipped,omitempty"`
	ChangedHere    []string `json:"changed_here,omitempty"`
}

type fileDifferenceJSON struct {
	Name string `json:"name"`
	Kind string `json:"kind"`
}

type tableDifferenceJSON struct {
	Table   string               `json:"table"`
	Outcome string               `json:"outcome"`
	Steps   int                  `json:"steps"`
	HitA    string               `json:"hit_a"`
	HitB    string               `json:"hit_b"`
	Rules   []ruleDifferenceJSON `json:"rules,omitempty"`
	Regions []regionJSON         `json:"regions,omitempty"`
}

type ruleDifferenceJSON struct {
	Rule string    `json:"rule"`
	What []string  `json:"what"`
	A    *ruleJSON `json:"a,omitempty"`
	B    *ruleJSON `json:"b,omitempty"`
}

type ruleJSON struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	When    string `json:"when"`
	Then    string `json:"then"`
	Because string `json:"because"`
}

type regionJSON struct {
	Direction string       `json:"direction"`
	Possible  bool         `json:"possible,omitempty"` // no input of it is known
	Share     float64      `json:"share"`
	Where     []string     `json:"where"`
	Rest      []string     `json:"so_that_nothing_comes_first,omitempty"` // bounds that belong to where as well
	Front     []string     `json:"except_where_these_come_first,omitempty"`
	A         string       `json:"a"`
	B         string       `json:"b"`
	Example   *exampleJSON `json:"example,omitempty"`
}

type exampleJSON struct {
	Words string   `json:"words"`
	A     []string `json:"a_rules,omitempty"`
	B     []string `json:"b_rules,omitempty"`
}

func (d *difference) json(report *compare.Report) differenceReportJSON {
	code := report.Acceptance()
	out := differenceReportJSON{
		A: setJSON{d.names[0], report.A}, B: setJSON{d.names[1], report.B}, Outcome: report.Outcome().String(),
		AcceptStronger: code, Accepted: code == "" || code == d.accept,
	}
	if d.base != nil {
		out.Base = &baseJSON{
			RuleSet: d.base.Set, Version: d.base.Version, Copied: d.base.Copied.Format("2006-01-02"), ShippedMoved: d.moved(),
			ChangedShipped: d.base.Changed(d.sets[0]), ChangedHere: d.base.Changed(d.sets[1]),
		}
	}
	for i := range report.Tables {
		out.Tables = append(out.Tables, tableDifference(&report.Tables[i]))
	}
	for _, f := range report.Files {
		out.Files = append(out.Files, fileDifferenceJSON{f.Name, f.Kind.String()})
	}
	return out
}

func tableDifference(t *compare.Table) tableDifferenceJSON {
	out := tableDifferenceJSON{
		Table: t.Name, Outcome: t.Effect.Outcome.String(), Steps: t.Effect.Steps, HitA: string(t.HitA), HitB: string(t.HitB),
	}
	for _, c := range t.Rules {
		rule := ruleDifferenceJSON{Rule: c.ID, What: c.What()}
		if c.Kind != compare.Added {
			rule.A = oneRule(c.A)
		}
		if c.Kind != compare.Removed {
			rule.B = oneRule(c.B)
		}
		out.Rules = append(out.Rules, rule)
	}
	for i := range t.Effect.Regions {
		out.Regions = append(out.Regions, oneRegion(&t.Effect.Regions[i]))
	}
	return out
}

func oneRule(r rules.Rule) *ruleJSON {
	return &ruleJSON{File: r.File, Line: r.Line, When: r.When, Then: r.Result.String(), Because: r.Because}
}

func oneRegion(r *compare.Region) regionJSON {
	own, rest := r.Where()
	out := regionJSON{
		Direction: r.Direction.String(), Possible: !r.Certain, Share: r.Share,
		Where: append([]string{}, own...), Rest: rest, Front: r.Front(), A: r.A.String(), B: r.B.String(),
	}
	if e, ok := r.Example(); ok {
		out.Example = &exampleJSON{Words: e.Words, A: ids(e.A), B: ids(e.B)}
	}
	return out
}

func ids(all []rules.Rule) []string {
	var out []string
	for _, r := range all {
		out = append(out, r.ID)
	}
	return out
}
