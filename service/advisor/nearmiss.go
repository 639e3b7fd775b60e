package advisor

import (
	"cmp"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// NearMiss is a rule that fails on exactly one thing and would answer otherwise.
type NearMiss struct {
	Rule, File string
	Line       int
	// Fact is what it fails on, "" when that is no bound on a single fact.
	Fact string
	// Answer is as rules write it; Failed says what failed and by how much.
	Answer, Failed string
	// By is how far it fails, in the fact's unit or in words of an order; nil for what has no distance.
	By *float64
}

// notNear is the share of what counts as far from which a miss is not near.
const notNear = 0.5

// nearMisses are the rules that a change of the one thing they fail on would make the answer; those that fail by a
// distance come first, for they are what a trainee mixes up.
func (e *enquiry) nearMisses(q *asked, places []rules.Near, near []rules.NearMiss, answer string) []NearMiss {
	if q.table.Hit() == rules.Collect || q.subject.table == "settings" {
		return nil // all that holds is told, so nothing is missed; settings have no name to mix up
	}
	schema := q.table.Schema()
	var by, other []NearMiss
	share := func(m NearMiss) float64 { return *m.By / scaleOf(e.fact(m.Fact)) }
	for i, n := range near {
		miss := NearMiss{Rule: n.Rule, File: n.File, Line: n.Line, Answer: answerWord(q.table, n.Result), Failed: n.Text}
		if n.Fact >= 0 {
			miss.Fact = schema.Fact(n.Fact).Name
		}
		if strings.HasPrefix(miss.Fact, "step.") {
			continue // it follows from an earlier decision, which tells its own
		}
		if miss.Answer == answer || !wouldWin(q, int(places[i].Rule)) {
			continue
		}
		refusal := q.table.WhyNot(q.facts, int(places[i].Rule))
		if len(refusal.Failed) == 1 {
			miss.Failed = failedInWords(schema, &refusal.Failed[0])
		}
		if len(refusal.Failed) == 1 && refusal.Failed[0].Off > 0 {
			miss.By = &refusal.Failed[0].Off
			by = append(by, miss)
		} else {
			other = append(other, miss)
		}
	}
	slices.SortStableFunc(by, func(a, b NearMiss) int { return cmp.Compare(share(a), share(b)) })
	by = slices.DeleteFunc(by, func(m NearMiss) bool { return share(m) > notNear })
	all := slices.Concat(by, other)
	return all[:min(mostTold, len(all))]
}

// wouldWin says whether a rule gives the answer once what it asks has been made so.
func wouldWin(q *asked, place int) bool {
	held, ok := q.table.MadeToHold(q.facts, place)
	if !ok {
		return false
	}
	var d rules.Decision
	q.table.Decide(held, &d)
	return slices.Contains(d.Winners, int32(place))
}

// failedInWords says what a rule asks and does not get: "severity would have to be at least 4 and is 3 (1 short)".
func failedInWords(schema *rules.Schema, f *rules.Failure) string {
	if f.Fact < 0 {
		return f.Text
	}
	fact := schema.Fact(f.Fact)
	if fact.Kind == rules.Flag {
		return "it would have to be that " + seenInWords(fact, f.Must, true)
	}
	if strings.Contains(sayings[fact.Name].is, " leave") && strings.HasPrefix(f.Must, "at most -") {
		who := strings.SplitN(sayings[fact.Name].is, " leave", 2)[0]
		return who + " would have to take more film than may go; " + f.Now + " would be left"
	}
	now, must := f.Now, f.Must
	if fact.Kind == rules.Word {
		now, must = spokenWord(fact.Name, now), spokenBound(fact.Name, must)
	}
	text := leadOf(&fact) + " would have to be " + must + " and is " + now
	if f.Off > 0 && fact.Kind == rules.Number {
		text += " (" + showNumber(f.Off, fact.Unit) + " " + shortOrOver(f) + ")"
	}
	return text
}

// spokenBound is a bound on a word as people say it: "medium or harder".
func spokenBound(fact, bound string) string {
	ends, ok := comparatives[fact]
	if word, found := strings.CutPrefix(bound, "at least "); ok && found {
		return spokenWord(fact, word) + " or " + ends[1]
	}
	if word, found := strings.CutPrefix(bound, "at most "); ok && found {
		return spokenWord(fact, word) + " or " + ends[0]
	}
	return spokenWord(fact, bound)
}

func shortOrOver(f *rules.Failure) string {
	if f.Short {
		return "short"
	}
	return "too much"
}
