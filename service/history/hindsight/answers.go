package hindsight

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
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
	over map[string]any
	held []*rules.Rule

	carried  carried
	old, new Said
	// removal is what each step is expected to take by the new set, likely and high.
	likely [len(steps)]float64
	// unknownSet says that numbers of policy and removal could not be compared since the set is not kept.
	unknownSet bool
}

// panel asks about the sheets of one panel, which stand together.
func (r *retelling) panel(sheets []history.FactSheet) {
	r.carried, r.unknownSet = carried{}, false
	r.old.reset()
	r.new.reset()
	clear(r.over)
	for i := range sheets {
		r.sheet(&sheets[i])
	}
}

func (r *retelling) sheet(s *history.FactSheet) {
	for at := 0; at < len(s.Answers); {
		next := at + 1
		for next < len(s.Answers) && s.Answers[next].Table == s.Answers[at].Table {
			next++
		}
		r.ask(s, s.Answers[at:next])
		at = next
	}
}

// ask asks one table, in the order in which the adviser asks.
func (r *retelling) ask(s *history.FactSheet, said []history.TableAnswer) {
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
		r.carried.move(s.Facts, r.over)
	}
	if r.was != nil && r.was.same[said[0].Table] && !q.looksAt(r.over) {
		r.stays(s, said)
		return
	}
	switch said[0].Table {
	case "start":
		r.start(s, said[0].Answer, word(r.now.answer(q, s.Facts, r.over), "step"))
	case "limit":
		r.starts(s)
		r.limit(said[0].Answer, word(r.now.answer(q, s.Facts, r.over), "step"))
	case "readiness":
		r.readiness(said, r.effect(q, s))
	case "ladder":
		r.old.Ladder, r.new.Ladder = said[0].Answer, word(r.now.answer(q, s.Facts, r.over), "ladder")
	case "settings":
		r.old.Settings = append(r.old.Settings, said[0].Rule)
		r.new.Settings = append(r.new.Settings, id(r.now.answer(q, s.Facts, r.over)))
	case "cautions":
		r.cautions(q, s, said)
	case "verdict":
		r.carried.move(s.Facts, r.over) // this sheet alone has what the trial showed
		r.old.Verdict, r.new.Verdict = said[0].Answer, word(r.now.answer(q, s.Facts, r.over), "verdict")
	}
}

// stays takes what a table said as what it would say.
func (r *retelling) stays(s *history.FactSheet, said []history.TableAnswer) {
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

func (r *retelling) policy(q *question, s *history.FactSheet) {
	if r.was == nil || r.was.tables["policy"] == nil {
		r.unknownSet = true
		return
	}
	was, is := r.was.answer(r.was.tables["policy"], s.Facts, nil), r.now.answer(q, s.Facts, nil)
	if was == nil || is == nil {
		return
	}
	r.carried.policyWas, r.carried.policyIs = was.Result, is.Result
	r.carried.policy = !was.Result.Equal(is.Result)
}

func (r *retelling) removal(q *question, s *history.FactSheet) {
	step := strength(s.About)
	is := r.now.answer(q, s.Facts, nil)
	if is == nil {
		return
	}
	r.likely[step] = number(is.Result, "likely_um")
	r.carried.highIs[step] = number(is.Result, "high_um")
	if r.was == nil || r.was.tables["removal"] == nil {
		r.unknownSet = true
		return
	}
	if was := r.was.answer(r.was.tables["removal"], s.Facts, nil); was != nil {
		r.carried.highWas[step] = number(was.Result, "high_um")
		r.carried.removal = r.carried.removal || r.carried.highWas[step] != r.carried.highIs[step]
	}
}

func (r *retelling) start(s *history.FactSheet, was, is string) {
	r.old.Start, r.new.Start = stronger(r.old.Start, was), stronger(r.new.Start, is)
	if strength(was) > 0 != (strength(is) > 0) {
		r.worst(s, strength(is) > 0)
	}
}

// worst follows a mark that gets a step now, or none any more, into the worst severity that there is something to do about.
// A mark that drops out is followed only where it is the worst itself: what the others were is on the sheets that come.
func (r *retelling) worst(s *history.FactSheet, counts bool) {
	severity, graded := s.Facts["defect.severity"].(float64)
	if !graded {
		return
	}
	if counts {
		if worst, ok := r.over["panel.worst_severity"].(float64); !ok || severity > worst {
			r.over["panel.worst_severity"] = severity
		}
	}
}

// starts settles what the defects together ask for.
func (r *retelling) starts(s *history.FactSheet) {
	if worst, ok := s.Facts["panel.worst_severity"].(float64); ok {
		if more, moved := r.over["panel.worst_severity"].(float64); moved && worst > more {
			r.over["panel.worst_severity"] = worst
		}
	}
	if r.old.Start == "" {
		r.old.Start = steps[0]
	}
	if r.new.Start == "" {
		r.new.Start = steps[0]
	}
	if r.old.Start != r.new.Start {
		r.over["step.start"] = r.new.Start
	}
}

func (r *retelling) limit(was, is string) {
	r.old.Limit, r.new.Limit = was, is
	if was != is {
		r.over["step.limit"] = is
	}
	r.first(milder(r.new.Start, is), milder(r.old.Start, was))
}

func (r *retelling) first(is, was string) {
	if is != was {
		r.over["step.first"] = is
	}
}

// effect is the gravest that the set has to say of a panel.
func (r *retelling) effect(q *question, s *history.FactSheet) string {
	effect := ""
	r.held = r.now.all(q, s.Facts, r.over, r.held[:0])
	for _, rule := range r.held {
		effect = graver(effect, word(rule, "effect"))
	}
	return effect
}

func (r *retelling) readiness(said []history.TableAnswer, is string) {
	for _, a := range said {
		r.old.Effect = graver(r.old.Effect, a.Answer)
	}
	r.new.Effect = is
	r.begin()
}

// begin settles where the ladder starts once it is known whether work may begin.
func (r *retelling) begin() {
	is, was := milder(r.new.Start, r.new.Limit), milder(r.old.Start, r.old.Limit)
	if forbids(r.new.Effect) {
		is = steps[0]
	}
	if forbids(r.old.Effect) {
		was = steps[0]
	}
	delete(r.over, "step.first")
	r.first(is, was)
}

// effects of readiness, the gravest last.
var effects = [...]string{"", "note", "prepare", "wait", "refer", "stop"}

func graver(a, b string) string {
	if slices.Index(effects[:], b) > slices.Index(effects[:], a) {
		return b
	}
	return a
}

func forbids(effect string) bool { return effect == "stop" || effect == "refer" }

func (r *retelling) cautions(q *question, s *history.FactSheet, said []history.TableAnswer) {
	for _, a := range said {
		r.old.caution(a.Rule)
	}
	r.held = r.now.all(q, s.Facts, r.over, r.held[:0])
	for _, rule := range r.held {
		r.new.caution(rule.ID)
	}
}

// caution adds a rule once.
func (s *Said) caution(rule string) {
	if rule != "" && !slices.Contains(s.Cautions, rule) {
		s.Cautions = append(s.Cautions, rule)
	}
}
