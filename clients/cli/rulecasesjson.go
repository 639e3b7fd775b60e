package cli

import (
	"encoding/json"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
	"github.com/glossladder/glossladder/rules/mutate"
)

type testJSON struct {
	RuleSet  string         `json:"rule_set"`
	Passed   int            `json:"passed"`
	Failed   int            `json:"failed"`
	Cases    []caseJSON     `json:"cases"`
	Coverage []coverageJSON `json:"coverage,omitempty"` // left out when only some cases were asked for
}

type caseJSON struct {
	Table       string           `json:"table"`
	Name        string           `json:"name"`
	File        string           `json:"file"`
	Line        int              `json:"line"`
	Passed      bool             `json:"passed"`
	Differences []differenceJSON `json:"differences,omitempty"`
	Notes       []string         `json:"notes,omitempty"`
	Why         string           `json:"why,omitempty"`
}

type differenceJSON struct {
	What     string `json:"what"`
	Expected string `json:"expected"`
	Got      string `json:"got"`
}

type coverageJSON struct {
	Table      string         `json:"table"`
	Cases      int            `json:"cases"`
	Rules      int            `json:"rules"`
	Matched    int            `json:"matched"`
	Won        int            `json:"won"`
	JustMissed int            `json:"just_missed"`
	Bounds     int            `json:"bounds"`
	Tested     int            `json:"bounds_tested_on_both_sides"`
	Unwon      []string       `json:"rules_no_case_wins,omitempty"`
	Unmissed   []string       `json:"rules_no_case_just_misses,omitempty"`
	Untested   []untestedJSON `json:"untested_bounds,omitempty"`
}

type untestedJSON struct {
	Rule    string   `json:"rule"`
	File    string   `json:"file"`
	Line    int      `json:"line"`
	Fact    string   `json:"fact"`
	Inner   string   `json:"inner"`
	Outer   string   `json:"outer"`
	Inside  string   `json:"tested_inside_by,omitempty"`
	Outside string   `json:"tested_outside_by,omitempty"`
	Cases   []string `json:"cases"` // that would test it, as YAML
}

// plainJSON prints a value that is no message of the contract.
func (p *program) plainJSON(v any) error {
	e := json.NewEncoder(p.out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

func (t *caseTest) casesJSON(set *rules.Set, report cases.Report) error {
	out := testJSON{RuleSet: set.Hash(), Cases: []caseJSON{}}
	for _, r := range report.Results {
		if !concerns(r, t.only) {
			continue
		}
		c := caseJSON{
			Table: r.Case.Table, Name: r.Case.Name, File: t.path(r.Case.File), Line: r.Case.Line,
			Passed: r.Passed(), Notes: r.Notes, Why: r.Why,
		}
		for _, d := range r.Diff {
			if !d.Same {
				c.Differences = append(c.Differences, differenceJSON{What: d.What, Expected: d.Want, Got: d.Got})
			}
		}
		if c.Passed {
			out.Passed++
		} else {
			out.Failed++
		}
		out.Cases = append(out.Cases, c)
	}
	if t.only == "" {
		for _, c := range cases.Cover(set, report) {
			out.Coverage = append(out.Coverage, t.coverageJSON(set, report, &c))
		}
	}
	return t.plainJSON(out)
}

func (t *caseTest) coverageJSON(set *rules.Set, report cases.Report, c *cases.TableCoverage) coverageJSON {
	out := coverageJSON{
		Table: c.Table, Cases: c.Cases, Rules: c.Rules, Matched: c.Matched, Won: c.Won, JustMissed: c.Missed,
		Bounds: c.Bounds, Tested: c.Tested,
	}
	for _, r := range report.Rules {
		if r.Table == c.Table && len(r.Won) == 0 {
			out.Unwon = append(out.Unwon, r.Rule)
		}
		if r.Table == c.Table && len(r.Missed) == 0 {
			out.Unmissed = append(out.Unmissed, r.Rule)
		}
	}
	for i := range c.Untested {
		b := &c.Untested[i]
		u := untestedJSON{
			Rule: b.Rule, File: t.path(b.File), Line: b.Line, Fact: set.Schema().Fact(b.Fact).Name,
			Inner: b.Inner, Outer: b.Outer, Inside: b.Inside, Outside: b.Outside, Cases: []string{},
		}
		for _, s := range b.Suggest {
			u.Cases = append(u.Cases, s.YAML())
		}
		out.Untested = append(out.Untested, u)
	}
	return out
}

type suggestionsJSON struct {
	Suggestions []suggestionJSON `json:"suggestions"`
	Without     []string         `json:"without,omitempty"`
}

type suggestionJSON struct {
	Table string `json:"table"`
	Name  string `json:"name"`
	Case  string `json:"case"` // as YAML, to paste into a list of cases
}

func (t *caseTest) suggestionsJSON(set *rules.Set, byTable map[string][]cases.Suggestion, without []string) error {
	out := suggestionsJSON{Suggestions: []suggestionJSON{}, Without: without}
	for _, table := range set.Tables() {
		for _, s := range byTable[table.Name()] {
			out.Suggestions = append(out.Suggestions, suggestionJSON{Table: s.Table, Name: s.Name, Case: s.YAML()})
		}
	}
	return t.plainJSON(out)
}

type mutationJSON struct {
	RuleSet   string               `json:"rule_set"`
	All       tallyJSON            `json:"all"`
	Tables    map[string]tallyJSON `json:"tables"`
	Kinds     map[string]tallyJSON `json:"kinds"`
	Survivors []survivorJSON       `json:"survivors"`
}

type tallyJSON struct {
	Score    float64 `json:"score_pct"`
	Caught   int     `json:"caught"`
	Survived int     `json:"survived"`
	Same     int     `json:"change_no_answer"`
	Refused  int     `json:"do_not_load"`
}

type survivorJSON struct {
	Table     string `json:"table"`
	Kind      string `json:"kind"`
	Rule      string `json:"rule,omitempty"`
	Let       string `json:"let,omitempty"`
	File      string `json:"file"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	Change    string `json:"change"`
	Undecided bool   `json:"undecided,omitempty"`
	Case      string `json:"case,omitempty"` // that would catch it, as YAML
}

func tallyOf(t mutate.Tally) tallyJSON {
	return tallyJSON{Score: t.Score(), Caught: t.Caught, Survived: t.Survived, Same: t.Same, Refused: t.Refused}
}

func (t *caseTest) mutationJSON(set *rules.Set, report mutate.Report) error {
	out := mutationJSON{
		RuleSet: set.Hash(), All: tallyOf(report.All()), Tables: map[string]tallyJSON{}, Kinds: map[string]tallyJSON{},
		Survivors: []survivorJSON{},
	}
	for _, table := range set.Tables() {
		out.Tables[table.Name()] = tallyOf(report.Of(table.Name(), ""))
	}
	for _, k := range mutate.Kinds() {
		out.Kinds[string(k)] = tallyOf(report.Of("", k))
	}
	for _, f := range report.Survivors() {
		m := &f.Mutant
		s := survivorJSON{
			Table: m.Table, Kind: string(m.Kind), Rule: m.Rule, Let: m.Let, File: t.path(m.File), Line: m.Line, Column: m.Col,
			Change: m.Change(), Undecided: f.Undecided,
		}
		if f.Case != nil {
			s.Case = f.Case.YAML()
		}
		out.Survivors = append(out.Survivors, s)
	}
	return t.plainJSON(out)
}
