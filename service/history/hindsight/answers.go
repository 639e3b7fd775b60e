package hindsight

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/trace"
)

// Said is what the tables said of one panel in one decision.
type Said struct {
	// Start is the strongest start over all defects, Limit the strongest step allowed; "none" for no step, "" where the decision
	// does not tell.
	Start, Limit string
	// Effect is the gravest thing between the panel and the work: "stop". Empty: nothing.
	Effect string
	Ladder string
	// Verdict is the verdict table's answer, "" where no trial was judged.
	Verdict string
	// Settings and Cautions are the rules that told how to run each step and what to watch.
	Settings, Cautions []string
}

// First is where the ladder starts.
func (s *Said) First() string { return firstOf(s.Ladder) }

// reset keeps the room of the lists.
func (s *Said) reset() { *s = Said{Settings: s.Settings[:0], Cautions: s.Cautions[:0]} }

// retelling asks a set again what one decision was asked, panel by panel.
type retelling struct {
	now *asker
	// was asks the set that made the decision; nil where it is not kept.
	was  *before
	over *trace.Facts
	// about is what the sheet is about besides the panel.
	about string

	carried  carried
	old, new Said
	// removal is what each step is expected to take by the new set, likely and high.
	likely [len(steps)]float64
	// unknownSet says that numbers of policy and removal could not be compared since the set is not kept.
	unknownSet bool
}

func newRetelling(set *rules.Set, words *trace.Words) retelling {
	return retelling{now: newAsker(set, words), over: trace.NewFacts(words)}
}

// begin begins with one panel, whose sheets follow.
func (r *retelling) begin() {
	r.carried, r.unknownSet, r.likely = carried{}, false, [len(steps)]float64{}
	r.old.reset()
	r.new.reset()
	r.over.Clear()
}

// sheet asks what one sheet was asked.
func (r *retelling) sheet(s *trace.Sheet, facts *trace.Facts) {
	r.about = s.About
	for i := range s.Asked {
		if said := s.Asked[i].Said; len(said) > 0 {
			r.ask(facts, said)
		}
	}
}

// ask asks one table, in the order in which the adviser asks.
func (r *retelling) ask(s *trace.Facts, said []history.TableAnswer) {
	q := r.now.tables[said[0].Table]
	if q == nil {
		return
	}
	switch said[0].Table {
	case "policy":
		r.policy(q, s)
		return
	case "removal":
		r.removal(q, s)
		return
	}
	if !r.carried.done {
		r.carried.done = true
		r.carried.move(s, r.over)
	}
	if r.was != nil && r.was.same[q.at] && !q.looksAt(s, r.over) {
		r.stays(s, said)
		return
	}
	switch said[0].Table {
	case "start":
		r.start(s, said[0].Answer, word(r.now.answer(q, s, r.over), "step"))
	case "limit":
		r.starts(s)
		r.limit(said[0].Answer, word(r.now.answer(q, s, r.over), "step"))
	case "readiness":
		r.readiness(said, r.effect(q, s))
	case "ladder":
		r.old.Ladder, r.new.Ladder = said[0].Answer, word(r.now.answer(q, s, r.over), "ladder")
	case "settings":
		r.old.Settings = append(r.old.Settings, said[0].Rule)
		r.new.Settings = append(r.new.Settings, id(r.now.answer(q, s, r.over)))
	case "cautions":
		r.cautions(q, s, said)
	case "verdict":
		r.carried.move(s, r.over) // this sheet alone has what the trial showed
		r.old.Verdict, r.new.Verdict = said[0].Answer, word(r.now.answer(q, s, r.over), "verdict")
	}
}

// stays takes what a table said as what it would say.
func (r *retelling) stays(s *trace.Facts, said []history.TableAnswer) {
	answer := said[0].Answer
	switch said[0].Table {
	case "start":
		r.start(s, answer, answer)
	case "limit":
		r.starts(s)
		r.limit(answer, answer)
	case "readiness":
		effect := ""
		for _, a := range said {
			effect = graver(effect, a.Answer)
		}
		r.readiness(said, effect)
	case "ladder":
		r.old.Ladder, r.new.Ladder = answer, answer
	case "settings":
		r.old.Settings, r.new.Settings = append(r.old.Settings, said[0].Rule), append(r.new.Settings, said[0].Rule)
	case "cautions":
		for _, a := range said {
			r.old.caution(a.Rule)
			r.new.caution(a.Rule)
		}
	case "verdict":
		r.old.Verdict, r.new.Verdict = answer, answer
	}
}

func word(rule *rules.Rule, field string) string {
	if rule == nil {
		return ""
	}
	w, _ := rule.Result.Word(field)
	return w
}

func id(rule *rules.Rule) string {
	if rule == nil {
		return ""
	}
	return rule.ID
}

func (r *retelling) policy(q *question, s *trace.Facts) {
	if r.was == nil || r.was.tables["policy"] == nil {
		r.unknownSet = true
		return
	}
	is := r.now.answer(q, s, nil)
	if is == nil || r.was.same[q.at] {
		return
	}
	was := r.was.answer(r.was.tables["policy"], s, nil)
	if was == nil {
		return
	}
	r.carried.policyWas, r.carried.policyIs = was.Result, is.Result
	r.carried.policy = !was.Result.Equal(is.Result)
}

func (r *retelling) removal(q *question, s *trace.Facts) {
	step := strength(r.about)
	is := r.now.answer(q, s, nil)
	if is == nil {
		return
	}
	r.likely[step] = number(is.Result, "likely_um")
	r.carried.highIs[step] = number(is.Result, "high_um")
	if r.was == nil || r.was.tables["removal"] == nil {
		r.unknownSet = true
		return
	}
	if r.was.same[q.at] {
		r.carried.highWas[step] = r.carried.highIs[step]
		return
	}
	if was := r.was.answer(r.was.tables["removal"], s, nil); was != nil {
		r.carried.highWas[step] = number(was.Result, "high_um")
		r.carried.removal = r.carried.removal || r.carried.highWas[step] != r.carried.highIs[step]
	}
}

func (r *retelling) start(s *trace.Facts, was, is string) {
	r.old.Start, r.new.Start = stronger(r.old.Start, was), stronger(r.new.Start, is)
	if strength(was) > 0 != (strength(is) > 0) {
		r.worst(s, strength(is) > 0)
	}
}

// worst follows a mark that gets a step now, or none any more, into the worst severity that there is something to do about.
// A mark that drops out is followed only where it is the worst itself: what the others were is on the sheets that come.
func (r *retelling) worst(s *trace.Facts, counts bool) {
	severity, graded := s.Number("defect.severity")
	if !graded {
		return
	}
	if counts {
		if worst, ok := r.over.Number("panel.worst_severity"); !ok || severity > worst {
			setNumber(r.over, "panel.worst_severity", severity)
		}
	}
}

// starts settles what the defects together ask for.
func (r *retelling) starts(s *trace.Facts) {
	if worst, ok := s.Number("panel.worst_severity"); ok {
		if more, moved := r.over.Number("panel.worst_severity"); moved && worst > more {
			setNumber(r.over, "panel.worst_severity", worst)
		}
	}
	if r.old.Start == "" {
		r.old.Start = steps[0]
	}
	if r.new.Start == "" {
		r.new.Start = steps[0]
	}
	if r.old.Start != r.new.Start {
		setWord(r.over, "step.start", r.new.Start)
	}
}

func (r *retelling) limit(was, is string) {
	r.old.Limit, r.new.Limit = was, is
	if was != is {
		setWord(r.over, "step.limit", is)
	}
	r.first(milder(r.new.Start, is), milder(r.old.Start, was))
}

func (r *retelling) first(is, was string) {
	if is != was {
		setWord(r.over, "step.first", is)
	}
}

// effect is the gravest that the set has to say of a panel.
func (r *retelling) effect(q *question, s *trace.Facts) string {
	effect := ""
	for _, at := range r.now.all(q, s, r.over) {
		effect = graver(effect, word(&q.table.Rules()[at], "effect"))
	}
	return effect
}

func (r *retelling) readiness(said []history.TableAnswer, is string) {
	for _, a := range said {
		r.old.Effect = graver(r.old.Effect, a.Answer)
	}
	r.new.Effect = is
	r.firstAllowed()
}

// firstAllowed settles where the ladder starts once it is known whether work may begin.
func (r *retelling) firstAllowed() {
	is, was := milder(r.new.Start, r.new.Limit), milder(r.old.Start, r.old.Limit)
	if forbids(r.new.Effect) {
		is = steps[0]
	}
	if forbids(r.old.Effect) {
		was = steps[0]
	}
	r.over.Drop("step.first")
	r.first(is, was)
}

// effects of readiness, the gravest last.
var effects = [...]string{"", "note", "prepare", "wait", "refer", "stop"}

func graver(a, b string) string {
	if b != a && slices.Index(effects[:], b) > slices.Index(effects[:], a) {
		return b
	}
	return a
}

func forbids(effect string) bool { return effect == "stop" || effect == "refer" }

func (r *retelling) cautions(q *question, s *trace.Facts, said []history.TableAnswer) {
	for _, a := range said {
		r.old.caution(a.Rule)
	}
	for _, at := range r.now.all(q, s, r.over) {
		r.new.caution(q.table.Rules()[at].ID)
	}
}

// caution adds a rule once.
func (s *Said) caution(rule string) {
	if rule != "" && !slices.Contains(s.Cautions, rule) {
		s.Cautions = append(s.Cautions, rule)
	}
}
