package rules

import (
	"cmp"
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Possible is what measuring missing facts could still make of an answer. Every
// missing fact may turn out anywhere within its bounds, and any of them may stay
// missing.
type Possible struct {
	// Answers are those that could arise and give another result than the present
	// one, each once, in the order found.
	Answers []PossibleAnswer
	// Facts are the missing facts whose measuring can change the answer, alone or
	// together with others, in the schema's order. A fact that cannot is not there.
	Facts []Wanted
	// Exact says that the search came to its end and that no clause outside the
	// bounds of single facts stood in its way: the two lists are then the whole truth.
	Exact bool
}

// PossibleAnswer is an answer that could arise.
type PossibleAnswer struct {
	Outcome Outcome
	Rules   []int32 // that give it, or that conflict; empty for no rule
	// Sure says that values were found that lead there. Otherwise a clause outside
	// the bounds of single facts may rule it out.
	Sure bool
}

// Change says whether measuring a fact can change the answer.
type Change uint8

// The changes. A fact that cannot change the answer is not listed at all.
const (
	CanChange   Change = iota + 1 // values were found that change it
	MightChange                   // not decided: the budget ran out, or a clause stands in the way
)

// String names the change in words.
func (c Change) String() string {
	return [...]string{"cannot change", "can change", "might change"}[min(c, 2)]
}

// Wanted is a missing fact that can matter.
type Wanted struct {
	Fact   FactID
	Change Change
	// Rules are rules whose holding hangs on the fact in a changed answer that was
	// found; one of them at least when Change is CanChange and some rule holds then.
	Rules []int32
}

// DefaultBudget is the number of steps that Possible takes when asked for none.
const DefaultBudget = 100_000

// Possible finds which other results could arise if missing facts were measured,
// and for which facts measuring can matter. It is exact within the budget of
// search steps (0: [DefaultBudget]); beyond it, it says so.
func (t *Table) Possible(in *Input, budget int) Possible {
	if budget <= 0 {
		budget = DefaultBudget
	}
	room, giveBack := t.borrowRoom()
	defer giveBack()
	w := &whatIf{t: t, in: in, room: room}
	w.find()
	out := Possible{Exact: len(w.clauses) == 0}
	if out.Exact && len(w.wanted) == 0 {
		return out // nothing that could still hold hangs on what is missing
	}
	share := budget / (len(w.wanted) + 1)
	w.budget = share
	if !w.answers(&out) {
		out.Exact = false
	}
	for _, axis := range w.wanted {
		w.budget = share
		if want := w.matters(axis); want.Change != 0 {
			out.Facts = append(out.Facts, want)
			out.Exact = out.Exact && want.Change == CanChange
		}
	}
	return out
}

// whatIf searches the completions of one input. Its variables are the missing
// axes and the clauses that read one; a clause counts as free to come out either
// way, and what hangs on that is tried with real values before it is called sure.
type whatIf struct {
	t       *Table
	in      *Input
	base    string  // the present answer
	live    []int32 // boxes that could hold in some completion
	open    bool    // some of them hang on what is missing
	axes    []int32 // missing axes that live boxes ask for
	clauses []int32 // free clauses of live boxes
	// outcomes are the truths that a free clause can come to, unknown among them
	outcomes map[int32][]space.Truth
	wanted   []int32 // missing axes that anything alive depends on
	codes    []int32 // the completion being tried
	budget   int
	seen     map[string]bool
	*room
	probe *Decision // nil until the present answer was looked for
}

// room is what a search works in: the ways now open, the boxes they leave alive, the state looked up, and a decision.
type room struct {
	ways   []option
	alive  []int32
	state  []byte
	lookup Decision
}

// borrowRoom gives room for a search, and the way to give it back. Once grown it costs no allocation.
func (t *Table) borrowRoom() (*room, func()) {
	found, ok := t.rooms.Get().(*room)
	if !ok {
		found = &room{}
	}
	found.ways, found.alive = found.ways[:0], found.alive[:0]
	return found, func() { t.rooms.Put(found) }
}

// find gathers what the answer hangs on.
func (w *whatIf) find() {
	if w.t.index.Clauses().Len() > 0 {
		w.outcomes = map[int32][]space.Truth{}
		w.begin() // findLive looks clauses up as this found them
	}
	w.findLive()
	if !w.open {
		return
	}
	w.begin()
	w.codes = slices.Clone(w.in.codes)
	w.findMissing()
}

// findMissing lists the missing axes that live boxes ask for, the most asked for first, and their free clauses.
func (w *whatIf) findMissing() {
	count := make([]int32, len(w.in.codes))
	for _, b := range w.live {
		box := &w.t.index.Boxes()[b]
		for i := range box.Dims {
			if a := box.Dims[i].Axis; w.in.codes[a] < 0 {
				if count[a]++; count[a] == 1 {
					w.axes = append(w.axes, a)
				}
			}
		}
		for _, l := range box.Literals {
			if w.lacking(l.Clause) && !slices.Contains(w.clauses, l.Clause) {
				w.clauses = append(w.clauses, l.Clause)
			}
		}
	}
	w.wanted = slices.Clone(w.axes)
	for _, c := range w.clauses {
		for _, a := range w.t.index.Clauses().At(c).Reads {
			if w.in.codes[a] < 0 && !slices.Contains(w.wanted, a) {
				w.wanted = append(w.wanted, a)
			}
		}
	}
	slices.Sort(w.clauses)
	slices.Sort(w.wanted)
	slices.SortFunc(w.axes, func(a, b int32) int {
		return cmp.Or(cmp.Compare(count[b], count[a]), cmp.Compare(a, b))
	})
}

// begin finds the present answer, once.
func (w *whatIf) begin() {
	if w.probe != nil {
		return
	}
	w.probe = &w.lookup
	w.base, _ = w.answer(w.in.codes)
}

// findLive keeps the boxes that given facts and decided clauses do not exclude.
// Under first and priority nothing behind a box that holds whatever comes counts.
func (w *whatIf) findLive() {
	t := w.t
	one := t.hit == First || t.hit == Priority
	for b := range t.index.Boxes() {
		box := &t.index.Boxes()[b]
		dead, open := false, false
		for i := range box.Dims {
			d := &box.Dims[i]
			c := w.in.codes[d.Axis]
			if dead = c >= 0 && !d.Has(c); dead {
				break
			}
			open = open || c < 0
		}
		for _, l := range box.Literals {
			if dead {
				break
			}
			free := w.lacking(l.Clause)
			open = open || free
			dead = !w.canBe(l, free)
		}
		if dead {
			continue
		}
		w.open = w.open || open
		w.live = append(w.live, int32(b))
		if one && !open {
			return
		}
	}
}

// canBe says whether a clause can come out as a box wants it.
func (w *whatIf) canBe(l space.Literal, free bool) bool {
	if !free {
		return w.t.literal(l, w.in, &w.probe.scratch) == space.True
	}
	if w.outcomes[l.Clause] == nil {
		w.outcomes[l.Clause] = append([]space.Truth{space.Unknown}, w.t.index.Clauses().Outcomes(l.Clause, w.in.codes)...)
	}
	return slices.Contains(w.outcomes[l.Clause], space.Of(l.Want))
}

// lacking says whether a clause reads a missing fact.
func (w *whatIf) lacking(clause int32) bool {
	for _, a := range w.t.index.Clauses().At(clause).Reads {
		if w.in.codes[a] < 0 {
			return true
		}
	}
	return false
}

// answer decides a completion for real: its key tells results apart.
func (w *whatIf) answer(codes []int32) (string, []int32) {
	t := w.t
	one := t.hit == First || t.hit == Priority
	t.index.Scan(codes, one, 0, &w.probe.scratch, &w.probe.finding)
	return t.key(w.probe.finding.Holds)
}

// key names the answer of boxes that hold, given in box order, and their rules.
func (t *Table) key(boxes []int32) (string, []int32) {
	var rules []int32
	for _, b := range boxes {
		if r := t.owner[b]; len(rules) == 0 || rules[len(rules)-1] != r {
			rules = append(rules, r)
		}
	}
	switch {
	case len(rules) == 0:
		return "none", nil
	case t.hit == First || t.hit == Priority:
		rules = rules[:1]
	case t.clash(rules):
		return "clash", rules
	}
	if t.hit != Collect {
		return classKey(t.class[rules[0]:][:1]), rules
	}
	classes := make([]int32, len(rules))
	for i, r := range rules {
		classes[i] = t.class[r]
	}
	return classKey(classes), rules
}

func classKey(classes []int32) string {
	key := make([]byte, 0, 1+4*len(classes))
	key = append(key, '=')
	for _, c := range classes {
		key = appendCode(key, c)
	}
	return string(key)
}

func appendCode(key []byte, c int32) []byte {
	return append(key, byte(c), byte(c>>8), byte(c>>16), byte(c>>24))
}

func outcomeOf(key string) Outcome {
	switch key {
	case "none":
		return NoRule
	case "clash":
		return Conflict
	}
	return Answered
}
