package check

import (
	"fmt"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/region"
)

// DefaultBudget is the number of steps that one question takes when asked for none.
const DefaultBudget = 50_000

// maxOfAKind is how many findings of one kind a table's are told one by one, where a
// slip of the pen can make thousands.
const maxOfAKind = 20

// Run checks the tables of a set. A budget of 0 is [DefaultBudget] steps a question.
func Run(set *rules.Set, budget int) Report {
	var out Report
	for _, t := range set.Tables() {
		c := newChecker(t, budget)
		c.source, _ = set.Source(t.File())
		c.run()
		out.Tables = append(out.Tables, c.report)
		out.Findings = append(out.Findings, c.found...)
	}
	out.Findings = sorted(out.Findings)
	return out
}

// Set finds what is wrong with the tables of a set, by file and place, what the
// files accept left out. A budget of 0 is [DefaultBudget] steps a question.
func Set(set *rules.Set, budget int) []Finding { return Run(set, budget).Open() }

// Table finds what is wrong with one table. Without its file it knows of nothing
// that is accepted, and numbers have the place of their rule.
func Table(t *rules.Table, budget int) []Finding { return one(t, budget).Findings }

func one(t *rules.Table, budget int) Report {
	c := newChecker(t, budget)
	c.run()
	return Report{Tables: []TableReport{c.report}, Findings: sorted(c.found)}
}

type checker struct {
	t        *rules.Table
	geometry rules.Geometry
	boxesOf  [][]int32 // rule -> its boxes
	meetings *region.Meetings
	budget   int
	source   []byte // the table's file, nil when it is not at hand

	scratch rules.Scratch
	memo    cond.Memo
	row     []uint64 // of boxes

	report TableReport
	found  []Finding
	placed []Place        // along the rules, as far as they were asked for
	dead   map[int32]bool // rules that never hold or never win
	unsure map[int32]bool // rules of which it is not decided whether they ever hold
}

func newChecker(t *rules.Table, budget int) *checker {
	if budget <= 0 {
		budget = DefaultBudget
	}
	c := &checker{t: t, geometry: t.Geometry(), budget: budget, dead: map[int32]bool{}, unsure: map[int32]bool{}}
	c.boxesOf = make([][]int32, len(t.Rules()))
	for b, r := range c.geometry.Owner {
		c.boxesOf[r] = append(c.boxesOf[r], int32(b))
	}
	c.meetings = region.NewMeetings(c.geometry.Axes, c.geometry.Boxes)
	c.report = TableReport{
		Table: t.Name(), File: t.File(), Hit: t.Hit(), Rules: len(t.Rules()), Answers: NotAsked, Agrees: NotAsked, Wins: Proved,
	}
	return c
}

func (c *checker) run() {
	c.conditions()
	c.duplicates()
	c.mergeable()
	c.constants()
	c.gaps()
	c.conflicts()
	c.neverWins()
	c.unusedWords()
	c.accept()
}

func (c *checker) add(f Finding) {
	f.Table = c.t.Name()
	if len(f.Places) == 0 {
		f.Places = []Place{{File: c.t.File()}}
	}
	c.found = append(c.found, f)
}

// shorten keeps the first findings of a kind that can be very many, and says of the
// others how many there are and where.
func (c *checker) shorten(from int, code Code, what string) {
	if len(c.found)-from <= maxOfAKind {
		return
	}
	rest := c.found[from+maxOfAKind:]
	f := Finding{
		Code: code, Level: rest[0].Level, Subject: c.t.Name(), More: len(rest), Effect: rest[0].Effect,
		Message: fmt.Sprintf("%d more %s", len(rest), what), Mend: "mend those told one by one and look again",
	}
	for _, r := range rest {
		f.Places = append(f.Places, r.Places...)
	}
	c.found = c.found[:from+maxOfAKind]
	c.add(f)
}

// first says whether the first rule that holds gives the answer alone.
func (c *checker) first() bool { return c.t.Hit() == rules.First || c.t.Hit() == rules.Priority }

func (c *checker) rule(r int32) rules.Rule { return c.t.Rules()[r] }

func (c *checker) places(rs []int32) []Place {
	out := make([]Place, len(rs))
	for i, r := range rs {
		out[i] = c.place(r)
	}
	return out
}

// place is a rule's place, spelt once.
func (c *checker) place(rule int32) Place {
	if c.placed == nil {
		c.placed = make([]Place, len(c.t.Rules()))
	}
	p := &c.placed[rule]
	if p.File == "" {
		r := &c.t.Rules()[rule]
		*p = Place{Rule: r.ID, File: r.File, Line: r.Line, Col: r.Col, Says: r.Result.String()}
	}
	return *p
}
