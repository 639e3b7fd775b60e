package advisor

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// WhyNot is why what somebody would have done is not the answer.
type WhyNot struct {
	// Step is the step, and Verdict the verdict, that somebody would have given; one of them is "".
	Step, Verdict string
	// Rule is the one that comes nearest to giving it; "" when none gives it.
	Rule, File string
	Line       int
	// Failed are the clauses of it that do not hold, with by how much.
	Failed []string
	// EvenThen is the rule that would come first even if they did.
	EvenThen string
	Sentence string
}

// whyNot is nil for a question that has nothing against it.
func (e *enquiry) whyNot(q *asked, ask Question, now *finding, levers []moved) *WhyNot {
	w := why{asked: q, would: ask.Would, now: now.answer}
	switch q.table.Name() {
	case "start":
	case "limit":
		if strength(ask.Would) <= strength(now.answer) {
			return nil
		}
		w.atLeast = true
	case "verdict":
		w.would = ask.WouldVerdict
	default:
		return nil
	}
	if w.would == "" || w.would == now.answer {
		return nil
	}
	w.takes = e.whatTakes(&w, levers)
	return w.tell(now.rule)
}

// why is one thing that somebody would have done.
type why struct {
	*asked
	would, now string
	// atLeast says that a stronger step would do as well.
	atLeast bool
	// takes is the least change of a single thing that would lead there, "" when none does.
	takes string
}

// whatTakes supposes the nearest change of a single thing that leads to what somebody would have done.
func (e *enquiry) whatTakes(w *why, levers []moved) string {
	takes, nearest := "", 0.0
	for i := range levers {
		m := &levers[i]
		if w.subject.table == "start" && m.about >= 0 && m.about != w.nth {
			continue
		}
		for _, group := range m.groups(w.subject, "") {
			then := group[0].said[w.subject].answer
			share := m.share(m.nearest(group))
			if then != w.would && !(w.atLeast && strength(then) > strength(w.would)) || takes != "" && share >= nearest {
				continue
			}
			takes, nearest = supposed(&m.lever, rangeInWords(&m.lever, group)), share
		}
	}
	return takes
}

func (w *why) gives(r rules.Result) bool {
	word := answerWord(w.table, r)
	return word == w.would || w.atLeast && strength(word) > strength(w.would)
}

func (w *why) tell(winner string) *WhyNot {
	out := &WhyNot{Step: w.would}
	if w.table.Name() == "verdict" {
		out.Step, out.Verdict = "", w.would
	}
	place, refusal, ok := w.nearestRule()
	if !ok {
		out.Sentence = fmt.Sprintf("no rule ever answers %s", w.spoken())
		return out
	}
	out.Rule, out.File, out.Line = refusal.Rule, refusal.File, refusal.Line
	if refusal.Holds {
		w.overruled(winner, out)
		return out
	}
	schema := w.table.Schema()
	for i := range refusal.Failed {
		out.Failed = append(out.Failed, failedInWords(schema, &refusal.Failed[i]))
	}
	for _, id := range refusal.Waiting {
		fact := schema.Fact(id)
		out.Failed = append(out.Failed, leadOf(&fact)+" would have to be known, and "+seenInWords(fact, "", false))
	}
	out.Sentence = fmt.Sprintf("for %s, %s", w.spoken(), strings.Join(out.Failed, ", and "))
	if first, found := w.evenThen(place); found {
		out.EvenThen = first.ID
		out.Sentence += fmt.Sprintf("; and even then this comes first: %s (%s)", oneSentence(first.Because), first.ID)
	}
	return out
}

// doing is giving a verdict.
var doing = map[string]string{
	Accept: "accepting", Adjust: "adjusting", StepUp: "stepping up", StepDown: "stepping down", Refine: "refining", Repeat: "repeating", StopWork: "stopping",
}

func (w *why) spoken() string {
	if said, ok := doing[w.would]; ok {
		return said
	}
	return aStep(w.would)
}

// nearestRule is the rule that gives it and fails on the fewest things, and of equals by a distance rather than outright.
func (w *why) nearestRule() (place int, refusal rules.Refusal, ok bool) {
	for i, rule := range w.table.Rules() {
		if !w.gives(rule.Result) {
			continue
		}
		r := w.table.WhyNot(w.facts, i)
		if !ok || lacking(&r) < lacking(&refusal) {
			place, refusal, ok = i, r, true
		}
	}
	return place, refusal, ok
}

// lacking counts what a rule lacks; what fails by no distance, such as another kind of mark, weighs more.
func lacking(r *rules.Refusal) int {
	n := 2 * len(r.Waiting)
	for _, f := range r.Failed {
		n += 2
		if f.Off == 0 {
			n += 4
		}
	}
	return n
}

// overruled tells which rules forbid what another rule gives: the one that answered, and the next that would even without it.
func (w *why) overruled(winner string, out *WhyNot) {
	var first, next *rules.Rule
	all := w.table.Rules()
	for i := range all {
		if all[i].ID == winner {
			first = &all[i]
		}
	}
	if first == nil { // no rule of this table stopped it
		out.Sentence = fmt.Sprintf("%s is what the rules would give, but it is forbidden here whatever they say", w.spoken())
		return
	}
	for i := range all {
		r := &all[i]
		if w.table.Hit() == rules.First {
			break // what a later rule says holds only where those before it fail
		}
		if r.ID == winner || w.gives(r.Result) || !w.table.WhyNot(w.facts, i).Holds || !w.before(r) {
			continue
		}
		if next == nil || w.table.Hit() == rules.Priority && strength(answerWord(w.table, r.Result)) < strength(answerWord(w.table, next.Result)) && w.atLeast {
			next = r
		}
	}
	says := overruledSays[w.table.Name()]
	if next == nil && w.takes != "" { // why the answer is what it is has been told; what it would take has not
		out.Sentence = fmt.Sprintf(says.takes, w.spoken(), w.takes)
		return
	}
	out.Sentence = fmt.Sprintf(says.because, w.spoken(), oneSentence(first.Because))
	if next != nil {
		out.EvenThen = next.ID
		out.Sentence += fmt.Sprintf("; and even without that this comes first: %s (%s)", oneSentence(next.Because), next.ID)
	}
}

// overruledSays is how it is said that another rule comes first: by what it would take, or by that rule's reason.
var overruledSays = map[string]struct{ takes, because string }{
	"start":   {"%s would be enough %s", "%s would not be enough: %s"},
	"limit":   {"%s would be allowed %s", "%s is ruled out: %s"},
	"verdict": {"%s would be right %s", "%s would be open, but this comes first: %s"},
}

// before says whether a rule goes before what was asked about.
func (w *why) before(r *rules.Rule) bool {
	return w.atLeast || strength(answerWord(w.table, r.Result)) > strength(w.would)
}

// evenThen is the rule that answers otherwise although all that a rule asks has been mended.
func (w *why) evenThen(place int) (rules.Rule, bool) {
	held, ok := w.table.MadeToHold(w.facts, place)
	if !ok {
		return rules.Rule{}, false
	}
	var d rules.Decision
	w.table.Decide(held, &d)
	if d.Outcome != rules.Answered || slices.Contains(d.Winners, int32(place)) {
		return rules.Rule{}, false
	}
	first := w.table.Rules()[d.Winners[0]]
	return first, !w.gives(first.Result)
}

// upperFirst begins a sentence.
func upperFirst(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
