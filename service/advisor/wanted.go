package advisor

import (
	"cmp"
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
	// CouldLeadTo is each decision that it could turn and every answer that it could lead to, and CouldChange the same
	// in one line.
	CouldLeadTo []string
	CouldChange string
	// Certain is true when some value is proved to change the answer, false when it only may.
	Certain bool
	Panels  []string

	rank rank
	// split is how many other answers it could lead to.
	split int
	// film says that it is film that is learned.
	film bool
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

// outcome is what learning could bring about: "the strongest step allowed could be" no step or finish "instead of polish".
// Without words the phrase says it all.
type outcome struct {
	phrase  string
	words   []string
	instead string
}

// askable is the facts of a table that are learned by the same work.
type askable struct {
	learn string
	film  bool // it is film
	facts []rules.FactID
}

// askableIn is the facts that a table reads and that somebody can be asked for, in the order of the facts.
func askableIn(t *rules.Table) []askable {
	var read []rules.FactID
	for _, rule := range t.Rules() {
		read = append(read, rule.Reads...)
	}
	slices.Sort(read)
	var out []askable
	for _, id := range slices.Compact(read) {
		fact := t.Schema().Fact(id)
		work := fact.Learn
		if work == "" {
			continue
		}
		at := slices.IndexFunc(out, func(a askable) bool { return a.learn == work })
		if at < 0 {
			at = len(out)
			out = append(out, askable{learn: work, film: strings.HasPrefix(fact.Name, "film.")})
		}
		out[at].facts = append(out[at].facts, id)
	}
	return out
}

// weigh says how much it matters that a rule might answer, what that would be in words, and whether it matters at all.
type weigh func(result rules.Result) (rank rank, phrase, word string, matters bool)

// want adds what is not known and could bring the table to answer otherwise than now, as far as weigh says it matters.
// Facts that the same work tells are learned together.
func (c *panelCase) want(t *rules.Table, now string, weigh weigh) {
	if c.quiet {
		return
	}
	for i := range c.a.askable[t] {
		ask := &c.a.askable[t][i]
		if !c.lacks(ask.facts) {
			continue
		}
		learned := t.Learn(c.sheet.in, ask.facts, searchBudget)
		for _, rule := range learned.Rules {
			if rank, phrase, word, matters := weigh(t.Rules()[rule].Result); matters {
				item := c.wanted.item(c.howToLearn(ask), rank)
				item.film = item.film || ask.film
				item.lead(phrase, word, now)
				item.Certain = item.Certain || learned.Change == rules.CanChange
				item.tell(c.sheet, ask.facts)
			}
		}
	}
}

// howToLearn is what to do to learn facts. A gauge that cannot read the panel is not asked.
func (c *panelCase) howToLearn(ask *askable) string {
	if ask.film && c.panel.Substrate != "" && c.in.FilmGauge.Kind.CanRead(film.Substrate(c.panel.Substrate), film.Total) != nil {
		return "measure film thickness with an ultrasonic gauge; the one at hand cannot read " + c.panel.Substrate
	}
	return ask.learn
}

// lacks says whether one of some facts is missing.
func (c *panelCase) lacks(facts []rules.FactID) bool {
	return slices.ContainsFunc(facts, func(id rules.FactID) bool { return !c.sheet.in.Known(id) })
}

// item is the entry for some work, which matters at least as much as rank says.
func (l *wantList) item(learn string, rank rank) *wantItem {
	at := slices.IndexFunc(l.items, func(w wantItem) bool { return w.Learn == learn })
	if at < 0 {
		at = len(l.items)
		l.items = append(l.items, wantItem{Wanted: Wanted{Learn: learn, rank: rank}})
	}
	item := &l.items[at]
	item.rank = min(item.rank, rank)
	return item
}

// lead notes an answer that could come of it.
func (w *wantItem) lead(phrase, word, now string) {
	k := slices.IndexFunc(w.could, func(o outcome) bool { return o.phrase == phrase })
	if k < 0 {
		k = len(w.could)
		w.could = append(w.could, outcome{phrase: phrase, instead: now})
	}
	if word != "" && !slices.Contains(w.could[k].words, word) {
		w.could[k].words = append(w.could[k].words, word)
	}
}

// tell notes which facts would be learned.
func (w *wantItem) tell(sheet *factSheet, facts []rules.FactID) {
	for _, id := range facts {
		if name := sheet.schema.Fact(id).Name; !sheet.in.Known(id) && !slices.Contains(w.Facts, name) {
			w.Facts = append(w.Facts, name)
		}
	}
}

// ranked is the list in the order of [byWorth].
func (l *wantList) ranked(panel string) []Wanted {
	var out []Wanted
	for _, item := range l.items {
		for _, o := range item.could {
			item.CouldLeadTo = append(item.CouldLeadTo, o.String())
			item.split += max(1, len(o.words))
		}
		item.CouldChange = strings.Join(item.CouldLeadTo, "; ")
		item.Panels = []string{panel}
		out = append(out, item.Wanted)
	}
	slices.SortStableFunc(out, byWorth)
	return out
}

// String is "the strongest step allowed could be no step or finish instead of polish".
func (o outcome) String() string {
	if len(o.words) == 0 {
		return o.phrase
	}
	text := o.phrase + " " + inWords(o.words)
	if o.instead != "" {
		text += " instead of " + o.instead
	}
	return text
}

// byWorth puts what could prevent more first, then film, which nobody can see and which does not come back, then what
// splits the answers still possible into more.
func byWorth(a, b Wanted) int {
	return cmp.Or(cmp.Compare(a.rank, b.rank), filmFirst(a.film, b.film), cmp.Compare(b.split, a.split))
}

func filmFirst(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
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
	slices.SortStableFunc(out, byWorth)
	return out
}
