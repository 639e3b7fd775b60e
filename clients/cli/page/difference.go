package page

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/compare"
)

// Difference is what the page about two rule sets is made of.
type Difference struct {
	Report *compare.Report
	// A and B are what the sets are called: "shipped", or the name of a folder.
	A, B string
	// Notes are sentences about where B comes from.
	Notes []string
	// Most is how many regions of one direction are shown for a table; 0: all.
	Most int
}

// Difference sets how one rule set differs from another, table by table: the rules that
// were edited, then the regions of input that get another answer.
func (d *Difference) Difference(w io.Writer, style Style) error {
	p := newPaper(style)
	p.heading(0, fmt.Sprintf("%s compared with %s", d.B, d.A))
	hang := max(width(d.A), width(d.B)) + 4
	p.item(2, hang, say(d.A), say(fmt.Sprintf("rule set %.12s", d.Report.A)))
	p.item(2, hang, say(d.B), say(fmt.Sprintf("rule set %.12s", d.Report.B)))
	for _, note := range d.Notes {
		p.para(2, say(note))
	}
	p.gap()
	if d.Report.A == d.Report.B {
		p.para(0, in(good, "The two are the same, file for file."))
		return p.writeTo(w)
	}
	for i := range d.Report.Tables {
		d.table(p, &d.Report.Tables[i])
		p.gap()
	}
	d.files(p)
	if d.noOrder() {
		p.para(0, in(faint, "different: these answers have no order, so which of them is stronger is for you to judge."))
	}
	return p.writeTo(w)
}

// noOrder says whether some region is neither stronger nor milder.
func (d *Difference) noOrder() bool {
	return slices.ContainsFunc(d.Report.Tables, func(t compare.Table) bool {
		return slices.ContainsFunc(t.Effect.Regions, func(r compare.Region) bool { return r.Direction == compare.Different })
	})
}

func (d *Difference) table(p *paper, t *compare.Table) {
	p.para(0, in(strong, t.Name+":"), outcome(t))
	if t.HitA != t.HitB {
		p.para(2, in(wary, fmt.Sprintf("hit policy %s, was %s", t.HitB, t.HitA)))
	}
	if len(t.Rules) == 0 {
		p.para(2, in(faint, "No rule differs; comments, names or the layout do."))
	}
	for i := range t.Rules {
		p.ruleChange(&t.Rules[i])
	}
	for _, direction := range []compare.Direction{compare.Stronger, compare.Less, compare.Different, compare.Milder, compare.More} {
		d.regions(p, t, direction)
	}
}

// outcome is what came of a table in one line.
func outcome(t *compare.Table) span {
	count := len(t.Effect.Regions)
	switch t.Effect.Outcome {
	case compare.Same:
		if len(t.Rules) > 0 && !wordingOnly(t) {
			return in(good, "rules differ and no answer does, for any input; another rule may give it")
		}
		return in(good, "only wording changed; no answer differs, for any input")
	case compare.Possible:
		return in(wary, "answers possibly differ in "+plural(count, "region", "regions"))
	case compare.NotDecided:
		return in(wary, fmt.Sprintf("not decided after %s; %s known where answers differ",
			plural(t.Effect.Steps, "step", "steps"), plural(count, "region is", "regions are")))
	}
	return in(strong, "answers differ in "+plural(count, "region of input", "regions of input")+counted(t))
}

func wordingOnly(t *compare.Table) bool {
	for i := range t.Rules {
		if c := &t.Rules[i]; c.Kind != compare.Edited || c.Condition || c.Result || c.Moved {
			return false
		}
	}
	return true
}

// counted is how many regions of a table go which way.
func counted(t *compare.Table) string {
	var parts []string
	for _, direction := range []compare.Direction{compare.Stronger, compare.Less, compare.Milder, compare.More} {
		n := 0
		for i := range t.Effect.Regions {
			if t.Effect.Regions[i].Direction == direction {
				n++
			}
		}
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, directionWord(direction)))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, ", ") + ")"
}

func directionWord(d compare.Direction) string {
	switch d {
	case compare.Less:
		return "told no more"
	case compare.More:
		return "newly told"
	}
	return d.String()
}

func directionRole(d compare.Direction) role {
	switch d {
	case compare.Stronger, compare.Less:
		return grave
	case compare.Milder, compare.More:
		return good
	}
	return wary
}

// ruleChange tells one rule that differs.
func (p *paper) ruleChange(c *compare.RuleChange) {
	at, what := c.B, strings.Join(c.What(), ", ")
	if c.Kind == compare.Removed {
		at = c.A
	}
	p.item(2, differenceAt, say(what), in(strong, c.ID), in(faint, fmt.Sprintf("(%s:%d)", at.File, at.Line)))
	if c.Kind != compare.Edited {
		p.item(differenceAt, differenceText, say("when"), say(at.When))
		p.item(differenceAt, differenceText, say("then"), say(at.Result.String()))
		return
	}
	if c.Condition && c.A.When == c.B.When {
		p.para(differenceAt, in(faint, "A name that its condition uses stands for something else now."))
	} else if c.Condition {
		p.item(differenceAt, differenceText, say("was"), say(c.A.When))
		p.item(differenceAt, differenceText, say("now"), say(c.B.When))
	}
	if c.Result {
		p.item(differenceAt, differenceText, say("gives"), say(fieldChanges(compare.FieldChanges(c.A.Result, c.B.Result))))
	}
}

// The columns of the page.
const (
	differenceAt   = 16
	differenceText = 25
)

// files tells what differs beside the tables.
func (d *Difference) files(p *paper) {
	for _, f := range d.Report.Files {
		what := "differs"
		switch f.Kind {
		case compare.Added:
			what = "is only in " + d.B
		case compare.Removed:
			what = "is only in " + d.A
		}
		if f.Case {
			what += "; worked cases decide nothing"
		}
		p.para(0, say(f.Name), in(faint, what))
	}
}

// ruleNames names the rules that answer with their places.
func ruleNames(all []rules.Rule) string {
	parts := make([]string, len(all))
	for i := range all {
		parts[i] = fmt.Sprintf("%s (%s:%d)", all[i].ID, all[i].File, all[i].Line)
	}
	return listed(parts)
}
