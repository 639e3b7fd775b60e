package hindsight

import (
	"bytes"

	"github.com/glossladder/glossladder/rules"
)

// asker asks the tables of one set with facts as they are on record. It is for one goroutine.
type asker struct {
	tables  map[string]*question
	in      *rules.Input
	scratch rules.Scratch
	// strange counts facts and values on record that the set's vocabulary no longer has.
	strange int
}

// question is a table and the facts that its rules look at: no other has to be set.
type question struct {
	table *rules.Table
	reads []read
	names map[string]bool // of reads
	one   bool            // one rule answers
}

type read struct {
	name string
	id   rules.FactID
}

func newAsker(set *rules.Set) *asker {
	a := &asker{tables: map[string]*question{}, in: set.Schema().NewInput()}
	for _, table := range set.Tables() {
		q := &question{table: table, names: map[string]bool{}, one: table.Hit() == rules.First || table.Hit() == rules.Priority}
		seen := map[rules.FactID]bool{}
		for _, rule := range table.Rules() {
			for _, id := range rule.Reads {
				if !seen[id] {
					seen[id] = true
					name := set.Schema().Fact(id).Name
					q.reads, q.names[name] = append(q.reads, read{name, id}), true
				}
			}
		}
		a.tables[table.Name()] = q
	}
	return a
}

// looksAt says whether a table looks at a fact that is otherwise than it was seen.
func (q *question) looksAt(over map[string]any) bool {
	for name := range over {
		if q.names[name] {
			return true
		}
	}
	return false
}

// before is the set that made a decision.
type before struct {
	*asker
	// same are the tables that the other set has in the same words: what they said is what they would say.
	same map[string]bool
}

// newBefore compares a set with the one that is asked.
func newBefore(was, now *rules.Set) *before {
	out := &before{newAsker(was), map[string]bool{}}
	for _, table := range was.Tables() {
		other, ok := now.Table(table.Name())
		if !ok {
			continue
		}
		a, _ := was.Source(table.File())
		b, _ := now.Source(other.File())
		out.same[table.Name()] = bytes.Equal(a, b)
	}
	return out
}

// set puts the facts that a table looks at. What is in over takes the place of what was seen; a nil there is not known.
func (a *asker) set(q *question, seen, over map[string]any) {
	for _, r := range q.reads {
		value, known := seen[r.name]
		if over != nil {
			if other, moved := over[r.name]; moved {
				value, known = other, other != nil
			}
		}
		if !known || !a.put(r.id, value) {
			a.in.Clear(r.id)
		}
	}
}

func (a *asker) put(id rules.FactID, value any) bool {
	var err error
	switch value := value.(type) {
	case float64:
		err = a.in.SetNumber(id, value)
	case string:
		err = a.in.SetWord(id, value)
	case bool:
		err = a.in.SetFlag(id, value)
	}
	if err != nil {
		a.strange++
	}
	return err == nil
}

// answer is the rule that answers; nil where none does, or several do that must not.
func (a *asker) answer(q *question, seen, over map[string]any) *rules.Rule {
	a.set(q, seen, over)
	if q.one {
		if at := q.table.First(a.in, &a.scratch); at >= 0 {
			return &q.table.Rules()[at]
		}
		return nil
	}
	var d rules.Decision
	q.table.Answer(a.in, &d)
	if d.Outcome != rules.Answered || len(d.Winners) == 0 {
		return nil
	}
	return &q.table.Rules()[d.Winners[0]]
}

// all are the rules that hold of a table that tells every one.
func (a *asker) all(q *question, seen, over map[string]any, to []*rules.Rule) []*rules.Rule {
	a.set(q, seen, over)
	for at := range q.table.Rules() {
		if q.table.Holds(a.in, at, &a.scratch) {
			to = append(to, &q.table.Rules()[at])
		}
	}
	return to
}
