package advisor

import (
	"cmp"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// AnswerChange is a range of one thing that gives another answer, all else as it was found. It was found by changing the
// inspection or the trial and asking again.
type AnswerChange struct {
	// Fact names what is otherwise, and With the facts that move with it because they come from it.
	Fact  string
	With  []string
	Label string
	// Now is its value in words, Range the values that change the answer, and Nearest the one among them that lies nearest:
	// a number, or a word as rules write it.
	Now, Range, Nearest string
	// To is Nearest as a number; nil for a word or a flag.
	To *float64
	// Answer is "" where no rule holds.
	Answer, Rule string
	Class        rules.Class
	// Away is nil for what has no distance; it is in Unit.
	Away *float64
	Unit string
	// Borderline says that Away lies inside the reading's own uncertainty.
	Borderline bool
	// Supposed is the change, Would what would come of it, Because the reason of the rule that would answer; Sentence is the
	// whole.
	Supposed, Would, Because, Sentence string

	share float64
}

// moved is a lever with what comes of moving it.
type moved struct {
	lever
	parts []stretch
}

// changes are the nearest changes of an answer: one for each thing, borderline ones first. What is not known and decided it
// just by that comes with all that could come of it. Asked is the facts that the rule that answered asks for.
func (e *enquiry) changes(of subject, about int, levers []moved, asked []string) []AnswerChange {
	now := e.found[of]
	var out []AnswerChange
	for i := range levers {
		m := &levers[i]
		if about >= 0 && m.about >= 0 && m.about != about {
			continue
		}
		groups := m.groups(of, now.key)
		if m.known() && len(groups) > 1 {
			groups = [][]stretch{m.closest(groups)}
		}
		for _, group := range groups {
			c := e.change(m, group, of, &now, asked)
			if !m.known() && c.share > 0 && len(groups) > 1 {
				groups = nil // it may matter, but it is not what decided
			}
			out = append(out, c)
			if groups == nil {
				break
			}
		}
	}
	out = liftingFirst(of, &now, out)
	slices.SortStableFunc(out, func(a, b AnswerChange) int {
		if a.Borderline != b.Borderline {
			return filmFirst(a.Borderline, b.Borderline)
		}
		return cmp.Compare(a.share, b.share)
	})
	return out[:min(mostTold, len(out))]
}

// liftingFirst leaves, where something stands in the way of the work, only what would make it less, if anything would.
func liftingFirst(of subject, now *finding, all []AnswerChange) []AnswerChange {
	if of.table != "readiness" || now.key == "begin" {
		return all
	}
	lifting := slices.DeleteFunc(slices.Clone(all), func(c AnswerChange) bool { return gravity(c.Answer) >= gravity(now.answer) })
	if len(lifting) == 0 {
		return all
	}
	return lifting
}

// closest is the group with the place nearest to the present value.
func (m *moved) closest(groups [][]stretch) []stretch {
	return slices.MinFunc(groups, func(a, b []stretch) int { return cmp.Compare(m.away(m.nearest(a)), m.away(m.nearest(b))) })
}

// change is a group of places as a change of the answer.
func (e *enquiry) change(m *moved, group []stretch, of subject, now *finding, asked []string) AnswerChange {
	place := m.nearest(group)
	at := slices.IndexFunc(group, func(s stretch) bool { return s.lo <= place && place <= s.hi })
	then := group[at].said[of]
	if of.table == "readiness" && slices.ContainsFunc(group, func(s stretch) bool { return s.said[of].do != then.do }) {
		then.do = "" // what is to be done is not the same everywhere in the range
	}
	where := rangeInWords(&m.lever, group)
	out := AnswerChange{
		Fact: m.fact.Name, Label: m.fact.Label, Now: m.nowInWords(), Range: where, Unit: m.fact.Unit,
		Answer: then.answer, Rule: then.rule, Class: m.fact.Class, share: m.share(place), With: e.movedWith(m, group[at].facts),
		Supposed: supposed(&m.lever, where), Would: wouldInWords(of.table, &then, now), Because: then.because,
	}
	decided := slices.ContainsFunc(append(out.With, out.Fact), func(f string) bool { return slices.Contains(asked, f) && (m.known() || e.missing(f)) })
	if !m.known() {
		out.Now = "not known"
		if decided {
			out.share = 0
		}
	} else if !decided {
		out.share *= 2 // the answer does not hang on it as things are
	}
	out.Nearest = m.show(place)
	if m.number() {
		out.To = ptr(m.numberAt(place))
	} else {
		out.Nearest = m.words[place]
	}
	if m.number() && m.known() {
		out.Away = ptr(m.away(place))
		out.Borderline = m.fact.Class == rules.Measurable && m.sways(*out.Away)
	}
	out.Sentence = changeInSentence(m, &out, decided)
	return out
}

// missing says whether a fact is not known as things are.
func (e *enquiry) missing(fact string) bool {
	id, ok := e.a.set.Schema().FactID(fact)
	return ok && !e.said.facts.Known(id)
}

// sways says whether a reading may be that far from the truth: within its own uncertainty, or one step of its instrument.
func (l *lever) sways(away float64) bool {
	const hair = 1e-9
	return away <= l.step+hair || l.sway != nil && away <= *l.sway+hair
}

// groups are runs of places that give one other answer; of what has no order all places that give it.
func (m *moved) groups(of subject, now string) [][]stretch {
	var out [][]stretch
	keys := map[string]int{}
	last := ""
	for _, s := range m.parts {
		f, ok := s.said[of]
		if !ok || f.key == now {
			last = ""
			continue
		}
		at, known := keys[f.key]
		joins := known && (!m.ordered() || last == f.key && out[at][len(out[at])-1].hi+1 == s.lo)
		if !joins {
			at = len(out)
			keys[f.key] = at
			out = append(out, nil)
		}
		out[at] = append(out[at], s)
		last = f.key
	}
	return out
}

// nearest is the place of a group that lies nearest to the present value.
func (m *moved) nearest(group []stretch) int {
	best := -1
	for _, s := range group {
		for _, place := range []int{s.lo, s.hi} {
			if best < 0 || m.known() && m.away(place) < m.away(best) {
				best = place
			}
		}
	}
	return best
}

// movedWith are the other facts that are not what they were.
func (e *enquiry) movedWith(m *moved, then *rules.Input) []string {
	var out []string
	schema := e.a.set.Schema()
	for id := range schema.Facts() {
		fact := rules.FactID(id)
		name := schema.Fact(fact).Name
		if name == m.fact.Name || strings.HasPrefix(name, "step.") || then.Value(fact) == e.said.facts.Value(fact) {
			continue
		}
		out = append(out, name)
	}
	return out
}

// changeInSentence says what a change would take, and whether it is advice. Decided says that the rule that answered asks for it.
func changeInSentence(m *moved, c *AnswerChange, decided bool) string {
	what := c.Supposed + ", " + c.Would
	switch {
	case c.Borderline:
		return "Borderline, measure again before you decide: " + what
	case !m.known() && c.Class == rules.Measurable:
		return "Not measured: " + what
	case !m.known():
		return "Not known: " + what
	case c.Class == rules.Choosable && !m.trial:
		return "Your choice: " + what
	case c.Class == rules.Given && decided:
		return "This decided it: " + what
	}
	return upperFirst(what)
}
