package hindsight

import (
	"bytes"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history/trace"
)

// asker asks the tables of one set with facts as they are on record. It is for one goroutine.
type asker struct {
	tables  map[string]*question
	words   *trace.Words
	in      *rules.Input
	scratch rules.Scratch
	held    []int
	// strange counts facts and values on record that the set's vocabulary no longer has.
	strange int
}

// question is a table and the facts that its rules look at: no other has to be set.
type question struct {
	table *rules.Table
	reads []read
	names []bool // of reads
	at    int    // its place among the set's tables
	one   bool   // one rule answers
}

// read is a fact that is looked at, by its number in the words and in the vocabulary.
type read struct {
	name uint32
	id   rules.FactID
}

func newAsker(set *rules.Set, words *trace.Words) *asker {
	a := &asker{tables: map[string]*question{}, in: set.Schema().NewInput(), words: words}
	for at, table := range set.Tables() {
		q := &question{table: table, at: at, one: table.Hit() == rules.First || table.Hit() == rules.Priority}
		seen := map[rules.FactID]bool{}
		for _, rule := range table.Rules() {
			for _, id := range rule.Reads {
				if !seen[id] {
					seen[id] = true
					name := words.Number(set.Schema().Fact(id).Name)
					q.reads = append(q.reads, read{name, id})
					q.names = append(q.names, make([]bool, max(0, int(name)+1-len(q.names)))...)
					q.names[name] = true
				}
			}
		}
		a.tables[table.Name()] = q
	}
	return a
}

// looksAt says whether a table looks at a fact that is otherwise than it was seen.
func (q *question) looksAt(seen, over *trace.Facts) bool {
	for _, name := range over.Known() {
		if int(name) >= len(q.names) || !q.names[name] {
			continue
		}
		if now := over.At(name); now.Kind != trace.Unknown && *now != *seen.At(name) {
			return true
		}
	}
	return false
}

// before is the set that made a decision.
type before struct {
	*asker
	// same are the other set's tables that this one has in the same words: what they said is what they would say.
	same []bool
}

// newBefore compares a set with the one that is asked.
func newBefore(was, now *rules.Set, words *trace.Words) *before {
	out := &before{newAsker(was, words), nil}
	for _, table := range now.Tables() {
		other, ok := was.Table(table.Name())
		if ok {
			a, _ := was.Source(other.File())
			b, _ := now.Source(table.File())
			ok = bytes.Equal(a, b)
		}
		out.same = append(out.same, ok)
	}
	return out
}

// set puts the facts that a table looks at. What is in over takes the place of what was seen; nil: nothing does.
func (a *asker) set(q *question, seen, over *trace.Facts) {
	for _, r := range q.reads {
		value := seen.At(r.name)
		if over != nil {
			if other := over.At(r.name); other.Kind != trace.Unknown {
				value = other
			}
		}
		if value.Kind == trace.Unknown || !a.put(r.id, value) {
			a.in.Clear(r.id)
		}
	}
}

func (a *asker) put(id rules.FactID, value *trace.Value) bool {
	var err error
	switch value.Kind {
	case trace.Number:
		err = a.in.SetNumber(id, value.Number)
	case trace.Word:
		err = a.in.SetWord(id, value.Word)
	case trace.Flag:
		err = a.in.SetFlag(id, value.Flag)
	}
	if err != nil {
		a.strange++
	}
	return err == nil
}

// answer is the rule that answers; nil where none does, or several do that must not.
func (a *asker) answer(q *question, seen, over *trace.Facts) *rules.Rule {
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

// all are the rules that hold of a table that tells every one, by their places. They hold until the next call.
func (a *asker) all(q *question, seen, over *trace.Facts) []int {
	a.set(q, seen, over)
	a.held = q.table.Held(a.in, &a.scratch, a.held[:0])
	return a.held
}
