package shipped_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// unknown stands for a fact that nobody gave.
const unknown = ""

// steps are in rising order.
var steps = []string{"none", "finish", "polish", "cut"}

func strength(step string) int { return slices.Index(steps, step) }

// desk asks one table of the shipped set.
type desk struct {
	t        testing.TB
	set      *rules.Set
	table    *rules.Table
	in       *rules.Input
	decision rules.Decision
}

func newDesk(t testing.TB, table string) *desk {
	t.Helper()
	set := load(t)
	tb, ok := set.Table(table)
	require.True(t, ok, table)
	return &desk{t: t, set: set, table: tb, in: set.Schema().NewInput()}
}

func (d *desk) id(fact string) rules.FactID {
	id, ok := d.set.Schema().FactID(fact)
	require.True(d.t, ok, fact)
	return id
}

// words are those of a fact, and unknown.
func (d *desk) words(fact string) []string {
	return append(slices.Clone(d.set.Schema().Fact(d.id(fact)).Words), unknown)
}

func (d *desk) clear() { d.in.Reset() }

// put sets a fact to a word, a number or a flag; unknown takes it away.
func (d *desk) put(fact string, value any) {
	id := d.id(fact)
	var err error
	switch v := value.(type) {
	case string:
		if v == unknown {
			d.in.Clear(id)
			return
		}
		err = d.in.SetWord(id, v)
	case float64:
		err = d.in.SetNumber(id, v)
	case bool:
		err = d.in.SetFlag(id, v)
	default:
		require.Fail(d.t, "no such kind of value", "%s: %T", fact, value)
	}
	require.NoError(d.t, err)
}

// winner is the rule that answers; it is an error if none does.
func (d *desk) winner() rules.Rule {
	d.table.Decide(d.in, &d.decision)
	if d.decision.Outcome != rules.Answered {
		require.Equal(d.t, rules.Answered, d.decision.Outcome, "%s with %s", d.table.Name(), d)
	}
	return d.table.Rules()[d.decision.Winners[0]]
}

func (d *desk) answer() rules.Result { return d.winner().Result }

// step is the step of the answer.
func (d *desk) step() string {
	word, ok := d.answer().Word("step")
	require.True(d.t, ok)
	return word
}

// all are the ids of all rules that hold.
func (d *desk) all() []rules.Rule {
	d.table.Decide(d.in, &d.decision)
	var out []rules.Rule
	for _, place := range d.decision.Winners {
		out = append(out, d.table.Rules()[place])
	}
	return out
}

// String is the known facts in words, for messages.
func (d *desk) String() string {
	var out []string
	for i, fact := range d.set.Schema().Facts() {
		if id := rules.FactID(i); d.in.Known(id) {
			out = append(out, fact.Name+"="+d.in.Value(id))
		}
	}
	return strings.Join(out, " ")
}
