package cli

import (
	"fmt"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
	"github.com/glossladder/glossladder/rules/promise"
)

// findings prints what is worth a look in a set that loads. What is wrong for certain is an error.
func (p *program) findings(set *rules.Set) error {
	var wrong rules.Problems
	for _, f := range check.Set(set, 0) {
		if f.Level == check.Warning {
			fmt.Fprintf(p.out, "warning: %s\n", f)
			continue
		}
		at := f.Places[0]
		problem := rules.Problem{File: at.File, Line: at.Line, Col: at.Col, Rule: at.Rule, Message: f.Message, Hint: f.Mend}
		if f.Example != "" {
			problem.Message += ": " + f.Example
		}
		problem.Message += " [" + string(f.Code) + "]"
		wrong = append(wrong, problem)
	}
	if len(wrong) > 0 {
		return wrong
	}
	return p.promises(set)
}

// promises tells of a set's own promises that are not kept. Those about safety were settled when it was loaded.
func (p *program) promises(set *rules.Set) error {
	src, ok := set.Source(promise.File)
	if !ok {
		return nil
	}
	own, err := promise.Parse(promise.File, src)
	if err != nil {
		return err
	}
	verdicts, err := promise.Verify(set, own, 0)
	if err != nil {
		return err
	}
	for _, v := range verdicts {
		if v.Outcome != promise.Kept {
			fmt.Fprintf(p.out, "warning: %s\n", v.Problem().Error())
		}
	}
	return nil
}
