package rules

import (
	"slices"
	"sync"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/index"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Rule is one row of a table.
type Rule struct {
	ID      string // unique in its table
	Because string // the reason, for people
	When    string // the condition as written
	Result  Result
	Reads   []FactID // the facts that the condition names, lets written out
	File    string
	Line    int // of the rule's id, from 1
	Col     int
	Index   int // its place in the file, from 0
}

// Let is a named formula of a table.
type Let struct{ Name, Formula string }

// Table is one decision: its rules in file order, and what they answer. It is
// immutable and safe for concurrent use.
type Table struct {
	schema *Schema
	typ    *ResultType
	name   string
	file   string
	hit    Hit
	lets   []Let
	rules  []Rule

	index *index.Index
	owner []int32    // box -> rule
	boxes [][2]int32 // rule -> its boxes, half open
	class []int32    // rule -> number of its result; equal results share one

	rooms sync.Pool // of *room, reused from search to search
}

// Name is the table's name.
func (t *Table) Name() string { return t.name }

// Hit is the table's hit policy.
func (t *Table) Hit() Hit { return t.hit }

// File is the file that holds the table.
func (t *Table) File() string { return t.file }

// Schema is the schema that the table was compiled for.
func (t *Table) Schema() *Schema { return t.schema }

// Result is what the table's rules answer.
func (t *Table) Result() ResultType { return *t.typ }

// Rules are the rules in file order. Do not change them.
func (t *Table) Rules() []Rule { return t.rules }

// Lets are the named formulas in file order. Do not change them.
func (t *Table) Lets() []Let { return t.lets }

// Rule finds a rule by its id.
func (t *Table) Rule(id string) (Rule, bool) {
	for i := range t.rules {
		if t.rules[i].ID == id {
			return t.rules[i], true
		}
	}
	return Rule{}, false
}

// finish makes the compiled conditions of the rules into an index. Under
// priority the boxes of stronger results come first, so that the first box that
// holds wins.
func (t *Table) finish(clauses *cond.Clauses, conditions []cond.Condition) {
	order := make([]int, len(t.rules))
	for i := range order {
		order[i] = i
	}
	if t.hit == Priority {
		slices.SortStableFunc(order, func(a, b int) int {
			return t.rules[a].Result.strength() - t.rules[b].Result.strength()
		})
	}
	var boxes []space.Box
	t.boxes = make([][2]int32, len(t.rules))
	for _, r := range order {
		from := int32(len(boxes))
		boxes = append(boxes, conditions[r].Boxes...)
		t.boxes[r] = [2]int32{from, int32(len(boxes))}
		for range conditions[r].Boxes {
			t.owner = append(t.owner, int32(r))
		}
		for _, a := range conditions[r].Reads {
			t.rules[r].Reads = append(t.rules[r].Reads, FactID(a))
		}
	}
	t.class = make([]int32, len(t.rules))
	known := map[string]int32{}
	for r := range t.rules {
		key := t.rules[r].Result.key()
		if _, ok := known[key]; !ok {
			known[key] = int32(len(known))
		}
		t.class[r] = known[key]
	}
	t.index = index.New(t.schema.space, clauses, boxes)
}
