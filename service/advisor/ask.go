package advisor

import (
	"fmt"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// answer is what a table said, ready to be told.
type answer struct {
	result rules.Result
	reason Reason
}

// all asks a table for every rule that answers.
func (c *panelCase) all(t *rules.Table) ([]answer, error) {
	if c.sheet.err != nil {
		return nil, c.sheet.err
	}
	if c.watch != nil {
		c.watch(t)
	}
	c.put(t)
	if c.decision.Outcome == rules.Conflict {
		return nil, conflict(t.Name(), t.Why(c.sheet.in, c.decision), c.a.set.Schema())
	}
	winners := t.Reasons(c.sheet.in, c.decision)
	out := make([]answer, len(winners))
	for i, winner := range winners {
		out[i] = answer{result: winner.Result, reason: reasonOf(t.Name(), winner, c.a.set.Schema())}
	}
	return out, nil
}

// one asks a table for its one answer; ok is false when no rule holds for sure.
func (c *panelCase) one(t *rules.Table) (said answer, ok bool, err error) {
	found, err := c.all(t)
	if err != nil || len(found) == 0 {
		return answer{reason: Reason{Table: t.Name()}}, false, err
	}
	return found[0], true, nil
}

// must asks a table that has to answer.
func (c *panelCase) must(t *rules.Table) (answer, error) {
	said, ok, err := c.one(t)
	if err == nil && !ok {
		err = &RulesError{Reason: said.reason, Says: fmt.Sprintf("no rule answers for panel %s; add one that always does", c.panel.ID)}
	}
	return said, err
}

// conflict names the rules that hold together and must not.
func conflict(table string, why rules.Explanation, schema *rules.Schema) error {
	var ids []string
	for _, r := range why.Conflict {
		ids = append(ids, fmt.Sprintf("%s (%s:%d)", r.Rule, r.File, r.Line))
	}
	return &RulesError{
		Reason: reasonOf(table, why.Conflict[0], schema),
		Says:   "holds together with other rules where only one may: " + strings.Join(ids, ", "),
	}
}

// quick asks a table that has to answer for the result alone, without the reasons.
func (c *panelCase) quick(t *rules.Table) (rules.Result, error) {
	if c.sheet.err != nil {
		return rules.Result{}, c.sheet.err
	}
	c.put(t)
	if c.decision.Outcome != rules.Answered {
		_, err := c.must(t)
		return rules.Result{}, err
	}
	return t.Rules()[c.decision.Winners[0]].Result, nil
}
