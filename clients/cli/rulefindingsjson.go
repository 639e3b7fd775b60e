package cli

import (
	"errors"
	"fmt"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
)

type checkJSON struct {
	Folder   string        `json:"folder,omitempty"`   // left out for the rules as shipped
	RuleSet  string        `json:"rule_set,omitempty"` // left out for a set that does not load
	Good     bool          `json:"good"`               // loads, and no finding is an error
	Problems []problemJSON `json:"problems,omitempty"` // why it does not load
	Tables   []proofJSON   `json:"tables,omitempty"`
	Findings []findingJSON `json:"findings,omitempty"`
	Promises []promiseJSON `json:"promises,omitempty"`
}

type problemJSON struct {
	File    string `json:"file"`
	Line    int    `json:"line,omitempty"`
	Column  int    `json:"column,omitempty"`
	Rule    string `json:"rule,omitempty"`
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
}

type proofJSON struct {
	Table    string        `json:"table"`
	File     string        `json:"file"`
	Hit      rules.Hit     `json:"hit"`
	Rules    int           `json:"rules"`
	Answers  check.Outcome `json:"every_input_answered"`
	Agrees   check.Outcome `json:"rules_agree"`
	Wins     check.Outcome `json:"every_rule_can_answer"`
	Steps    int           `json:"steps"`
	Accepted int           `json:"accepted"`
}

type findingJSON struct {
	Code     check.Code          `json:"code"`
	Level    check.Level         `json:"level"`
	Table    string              `json:"table,omitempty"` // left out for a promise
	Message  string              `json:"message"`
	Places   []placeJSON         `json:"places"`
	Example  string              `json:"example,omitempty"`
	Input    *counterexampleJSON `json:"counterexample,omitempty"`
	Effect   string              `json:"effect,omitempty"`
	Mend     string              `json:"mend,omitempty"`
	Stub     string              `json:"stub,omitempty"`
	More     int                 `json:"more,omitempty"`
	Subject  string              `json:"subject,omitempty"`
	Accepted string              `json:"accepted,omitempty"` // the reason; left out for a finding that is open
}

type placeJSON struct {
	File   string `json:"file"`
	Line   int    `json:"line,omitempty"`
	Column int    `json:"column,omitempty"`
	Rule   string `json:"rule,omitempty"`
	Says   string `json:"says,omitempty"`
}

type counterexampleJSON struct {
	Region string         `json:"region"`
	When   string         `json:"when"`
	Given  map[string]any `json:"given"`
}

type promiseJSON struct {
	ID      string `json:"id"`
	Safety  bool   `json:"safety"`
	Outcome string `json:"outcome"`
	Steps   int    `json:"steps"`
}

// checkedJSON prints all that a check found out, what the files accept too.
func (p *program) checkedJSON(c checked) error {
	wrong := c.count(check.Error)
	out := checkJSON{Folder: p.rulesDir, RuleSet: c.set.Hash(), Good: wrong == 0}
	for _, t := range c.report.Tables {
		out.Tables = append(out.Tables, proofJSON{t.Table, t.File, t.Hit, t.Rules, t.Answers, t.Agrees, t.Wins, t.Steps, t.Accepted})
	}
	all := c.report.Findings
	all = append(all[:len(all):len(all)], c.findings[len(c.report.Open()):]...)
	for _, f := range all {
		out.Findings = append(out.Findings, findingOut(f))
	}
	for _, v := range c.verdicts {
		out.Promises = append(out.Promises, promiseJSON{v.Promise.ID, v.Promise.Safety, v.Outcome.String(), v.Steps})
	}
	if err := p.plainJSON(out); err != nil || wrong == 0 {
		return err
	}
	return &outcome{code: faultyRules, err: fmt.Errorf("%s of the rules", plural(wrong, "error", "errors"))}
}

func findingOut(f check.Finding) findingJSON {
	out := findingJSON{
		Code: f.Code, Level: f.Level, Table: f.Table, Message: f.Message, Example: f.Example, Effect: f.Effect, Mend: f.Mend,
		Stub: f.Stub, More: f.More, Subject: f.Subject, Accepted: f.Accepted,
	}
	for _, p := range f.Places {
		out.Places = append(out.Places, placeJSON{File: p.File, Line: p.Line, Column: p.Col, Rule: p.Rule, Says: p.Says})
	}
	if f.Input != nil {
		out.Input = &counterexampleJSON{Region: f.Input.Region, When: f.Input.When, Given: f.Input.Given}
	}
	return out
}

// problemsJSON prints why a set does not load.
func (p *program) problemsJSON(problems rules.Problems) error {
	out := checkJSON{Folder: p.rulesDir}
	for _, q := range problems {
		out.Problems = append(out.Problems, problemJSON{q.File, q.Line, q.Col, q.Rule, q.Message, q.Hint})
	}
	if err := p.plainJSON(out); err != nil {
		return err
	}
	return &outcome{code: faultyRules, err: errors.New("the rules do not load")}
}
