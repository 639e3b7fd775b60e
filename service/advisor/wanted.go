package advisor

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/film"
)

// Wanted is something not known that could change the answer.
type Wanted struct {
	// Learn says what to do to learn it.
	Learn string
	Facts []string
	// CouldChange says what could come of it.
	CouldChange string
	// Certain is true when some value is proved to change the answer, false when it only may.
	Certain bool
	Panels  []string

	rank rank
}

// rank orders what is worth learning by what it could prevent.
type rank int

const (
	couldForbid rank = iota // a milder step, or none: paint that would be taken off in error
	couldHold               // something to do or to wait for first
	couldStart              // another place to start
	couldAllow              // a stronger step, or other steps after it
)

// searchBudget bounds the search for what missing facts could change, for each question to a table. Past it the
// answer is "may", not "does".
const searchBudget = 2000

// wantList gathers what is worth learning about one panel, by what to do to learn it.
type wantList struct{ items []wantItem }

type wantItem struct {
	Wanted
	could []outcome
}

// outcome is what learning could bring about: "the strongest step allowed could be" none, finish.
type outcome struct {
	phrase string
	words  []string
}

// weigh says how much it matters that a rule might answer, what that would be in words, and whether it matters at all.
type weigh func(result rules.Result) (rank rank, phrase, word string, matters bool)

// want adds the missing facts that could bring the table to answer otherwise, as far as weigh says it matters. It must
// follow the question itself: what is undecided comes from that decision.
func (c *panelCase) want(t *rules.Table, weigh weigh) {
	if !c.lacks(c.a.askable[t]) {
		return
	}
	possible := t.Possible(c.sheet.in, searchBudget)
	for _, missing := range possible.Facts {
		name := c.a.set.Schema().Fact(missing.Fact).Name
		learn := c.learn(name)
		if learn == "" {
			continue
		}
		for _, rule := range c.hangingOn(missing, possible.Answers, t) {
			if rank, phrase, word, matters := weigh(t.Rules()[rule].Result); matters {
				c.wanted.add(learn, name, rank, phrase, word, missing.Change == rules.CanChange)
			}
		}
	}
}

// learn is what to do to learn a fact, "" when nobody can be asked for it. A gauge that cannot read the panel is not asked.
func (c *panelCase) learn(name string) string {
	learn := c.a.learn[name]
	if learn != "" && strings.HasPrefix(name, "film.") && c.panel.Substrate != "" &&
		c.in.FilmGauge.Kind.CanRead(film.Substrate(c.panel.Substrate), film.Total) != nil {
		return "measure film thickness with an ultrasonic gauge; the one at hand cannot read " + c.panel.Substrate
	}
	return learn
}

// lacks says whether one of some facts is missing.
func (c *panelCase) lacks(facts []rules.FactID) bool {
	return slices.ContainsFunc(facts, func(id rules.FactID) bool { return !c.sheet.in.Known(id) })
}

// askableIn is the facts that a table reads and that somebody can be asked for.
func askableIn(t *rules.Table, learn map[string]string) []rules.FactID {
	var out []rules.FactID
	for _, rule := range t.Rules() {
		for _, id := range rule.Reads {
			if learn[t.Schema().Fact(id).Name] != "" && !slices.Contains(out, id) {
				out = append(out, id)
			}
		}
	}
	return out
}

// hangingOn is the rules that could answer once a fact is known: those that the search found to hang on it, and those that
// wait for it and give a result that the search found possible.
func (c *panelCase) hangingOn(missing rules.Wanted, answers []rules.PossibleAnswer, t *rules.Table) []int32 {
	out := slices.Clone(missing.Rules)
	for _, pending := range c.decision.Pending {
		if slices.Contains(pending.Facts, missing.Fact) && couldGive(answers, t, t.Rules()[pending.Rule].Result) {
			out = append(out, pending.Rule)
		}
	}
	return out
}

func couldGive(answers []rules.PossibleAnswer, t *rules.Table, result rules.Result) bool {
	return slices.ContainsFunc(answers, func(a rules.PossibleAnswer) bool {
		return slices.ContainsFunc(a.Rules, func(r int32) bool { return t.Rules()[r].Result.Equal(result) })
	})
}

func (l *wantList) add(learn, fact string, rank rank, phrase, word string, certain bool) {
	at := slices.IndexFunc(l.items, func(w wantItem) bool { return w.Learn == learn })
	if at < 0 {
		at = len(l.items)
		l.items = append(l.items, wantItem{Wanted: Wanted{Learn: learn, rank: rank}})
	}
	item := &l.items[at]
	item.rank = min(item.rank, rank)
	item.Certain = item.Certain || certain
	if !slices.Contains(item.Facts, fact) {
		item.Facts = append(item.Facts, fact)
	}
	k := slices.IndexFunc(item.could, func(o outcome) bool { return o.phrase == phrase })
	if k < 0 {
		k = len(item.could)
		item.could = append(item.could, outcome{phrase: phrase})
	}
	if word != "" && !slices.Contains(item.could[k].words, word) {
		item.could[k].words = append(item.could[k].words, word)
	}
}

// ranked is the list, the most telling first.
func (l *wantList) ranked(panel string) []Wanted {
	slices.SortStableFunc(l.items, func(a, b wantItem) int { return int(a.rank - b.rank) })
	var out []Wanted
	for _, item := range l.items {
		var texts []string
		for _, o := range item.could {
			texts = append(texts, strings.TrimSpace(o.phrase+" "+inWords(o.words)))
		}
		item.CouldChange = strings.Join(texts, "; ")
		item.Panels = []string{panel}
		out = append(out, item.Wanted)
	}
	return out
}

// mergeWanted puts the lists of all panels into one: what is learned by the same work is one line.
func mergeWanted(panels []PanelAdvice) []Wanted {
	var out []Wanted
	for _, p := range panels {
		for _, w := range p.MeasureNext {
			at := slices.IndexFunc(out, func(o Wanted) bool { return o.Learn == w.Learn && o.CouldChange == w.CouldChange })
			if at < 0 {
				w.Panels = slices.Clone(w.Panels)
				out = append(out, w)
				continue
			}
			out[at].Panels = append(out[at].Panels, w.Panels...)
			out[at].Certain = out[at].Certain || w.Certain
			out[at].rank = min(out[at].rank, w.rank)
		}
	}
	slices.SortStableFunc(out, func(a, b Wanted) int { return int(a.rank - b.rank) })
	return out
}

// wantStart notes what could move the start for one defect. The limit is not known yet: what it makes idle is dropped
// by wantLimit.
func (c *panelCase) wantStart(now string) {
	c.want(c.a.tables.start, func(result rules.Result) (rank, string, string, bool) {
		step, _ := result.Word("step")
		return couldStart, "the step to start with could be", step, step != now
	})
}

// wantLimit notes what could move the limit, where that would move the start of the ladder.
func (c *panelCase) wantLimit(start, limit string) {
	first := milderOf(start, limit)
	c.wanted.keep("the step to start with could be", func(step string) bool { return milderOf(step, limit) != first })
	c.want(c.a.tables.limit, func(result rules.Result) (rank, string, string, bool) {
		step, _ := result.Word("step")
		rank := couldAllow
		if strength(step) < strength(limit) {
			rank = couldForbid
		}
		return rank, "the strongest step allowed could be", step, milderOf(start, step) != first
	})
}

// keep drops the words of a phrase that do not pass, and what then has nothing left to change.
func (l *wantList) keep(phrase string, pass func(word string) bool) {
	for i := range l.items {
		for k := range l.items[i].could {
			if l.items[i].could[k].phrase == phrase {
				l.items[i].could[k].words = slices.DeleteFunc(l.items[i].could[k].words, func(w string) bool { return !pass(w) })
			}
		}
		l.items[i].could = slices.DeleteFunc(l.items[i].could, func(o outcome) bool { return o.phrase == phrase && len(o.words) == 0 })
	}
	l.items = slices.DeleteFunc(l.items, func(w wantItem) bool { return len(w.could) == 0 })
}

// wantReadiness notes what could forbid the work or make it wait. Notes hold nobody up.
func (c *panelCase) wantReadiness() {
	phrases := map[string]string{
		"prepare": "something may have to be done first", "wait": "work may have to wait",
		"refer": "this may be for another trade", "stop": "polishing may be ruled out",
	}
	c.want(c.a.tables.readiness, func(result rules.Result) (rank, string, string, bool) {
		effect, _ := result.Word("effect")
		if effect == "stop" || effect == "refer" {
			return couldForbid, phrases[effect], "", true
		}
		return couldHold, phrases[effect], "", phrases[effect] != ""
	})
}

func (c *panelCase) wantLadder(now string) {
	c.want(c.a.tables.ladder, func(result rules.Result) (rank, string, string, bool) {
		ladder, _ := result.Word("ladder")
		return couldAllow, "the ladder could be", LadderInWords(ladder), ladder != now
	})
}

// wantVerdict notes what could change the verdict on a trial.
func (c *panelCase) wantVerdict(now answer) {
	c.want(c.a.tables.verdict, func(result rules.Result) (rank, string, string, bool) {
		kind, _ := result.Word("verdict")
		rank := couldStart
		if kind == StopWork {
			rank = couldForbid
		}
		return rank, "the verdict could be", strings.ReplaceAll(kind, "-", " "), !result.Equal(now.result)
	})
}

// inWords lists words as people do: "none, finish or cut".
func inWords(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}
