package hindsight

import (
	"cmp"
	"context"
	"errors"
	"iter"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mathext"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/compare"
	"github.com/glossladder/glossladder/rules/mutate"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/lessons"
	"github.com/glossladder/glossladder/service/history/trace"
)

// Hint is a bound of a rule that the shop's own outcomes speak against. It is for a person to weigh; nothing applies it.
type Hint struct {
	Table string
	// Rule is the rule that holds the bound, or Let the name that several rules share.
	Rule, Let string
	File      string
	Line      int
	// Was and Is are the bound as it stands and as the outcomes would have it: "defect.severity >= 2".
	Was, Is string
	// Panels is how many judged panels would have started otherwise; ForChange, Against and Open are what their outcomes say, and
	// the rest would have come to the same.
	Panels, ForChange, Against, Open int
	// Surely is the chance that more outcomes of this kind speak for the change than against it, before any was seen as likely as
	// not.
	Surely float64
	// Trials is how many trials the change would have saved, Timed how many of them were timed and Minutes how long those took;
	// FilmUm is what was expected to stay on the panels. Below zero: it would have cost more.
	Trials, Timed int
	Minutes       float64
	FilmUm        float64
	// Examples are panels whose outcomes speak for the change.
	Examples []Example
	// Effect is what the change means for all input, beyond what is on record.
	Effect compare.Effect
}

// Change is the bound before and after, in one line.
func (h *Hint) Change() string { return h.Was + " becomes " + h.Is }

// Weigh is how hints are chosen. The zero value takes what [DefaultWeigh] says.
type Weigh struct {
	// Least is how many outcomes have to speak, for or against.
	Least int
	// Surely is the least chance that more speak for the change than against it.
	Surely float64
	// Keeps says whether a changed set keeps its promises; one that does not is no hint. Nil: all do.
	Keeps func(*rules.Set) bool
}

// DefaultWeigh asks for eight outcomes, and to be as good as sure: some hundred bounds are tried on one record, and of a hundred
// tried one passes by luck.
func DefaultWeigh() Weigh { return Weigh{Least: 8, Surely: 0.99} }

// Hints moves every bound of the start table by one step of its fact or one word, and keeps what the outcomes on record speak
// for. Bounds of other tables are left alone: those of limit, policy, removal, readiness and verdict keep paint safe, and no
// outcome of a trial speaks for less safety; and bounds on the shop's own record move with it by themselves. The error is that of
// the scan.
func Hints(ctx context.Context, scan iter.Seq2[history.Traced, error], set *rules.Set, weigh Weigh) ([]Hint, error) {
	usual := DefaultWeigh()
	if weigh.Least <= 0 {
		weigh.Least = usual.Least
	}
	if weigh.Surely <= 0 {
		weigh.Surely = usual.Surely
	}
	table, ok := set.Table(startTable)
	if !ok {
		return nil, nil
	}
	judged, err := gather(ctx, scan, set)
	if err != nil {
		return nil, err
	}
	var out []Hint
	for _, m := range mutate.Moved(set, table) {
		if strings.Contains(m.Was, "history.") {
			continue
		}
		moved, err := m.Apply(set)
		if err != nil {
			continue // it would not load
		}
		hint := Hint{Table: m.Table, Rule: m.Rule, Let: m.Let, File: m.File, Line: m.Line, Was: m.Was, Is: m.Now}
		other, _ := moved.Table(startTable)
		hint.weigh(judged, other)
		if hint.ForChange+hint.Against < weigh.Least || hint.Surely < weigh.Surely || weigh.Keeps != nil && !weigh.Keeps(moved) {
			continue
		}
		if hint.Effect, err = compare.Tables(table, other, 0); err != nil {
			return nil, err
		}
		out = append(out, hint)
	}
	slices.SortStableFunc(out, func(a, b Hint) int {
		return cmp.Or(cmp.Compare(b.ForChange-b.Against, a.ForChange-a.Against), cmp.Compare(b.FilmUm, a.FilmUm))
	})
	return out, nil
}

const startTable = "start"

// judgedPanel is a panel whose trials proved a ladder, as the start table sees it.
type judgedPanel struct {
	at      Example
	defects []*rules.Input
	// most is the strongest first step that limit and readiness allow.
	most string
	// now is where the set in force starts, and against[step] what starting there instead is worth.
	now     string
	against [len(steps)]judgement
}

// gather finds the judged panels of a record.
func gather(ctx context.Context, scan iter.Seq2[history.Traced, error], set *rules.Set) ([]judgedPanel, error) {
	words := trace.NewWords()
	g := &gatherer{asker: newAsker(set, words), again: newRetelling(set, words), reader: trace.NewReader(words), facts: trace.NewFacts(words)}
	var job []history.Traced
	for t, err := range scan {
		if err != nil {
			return nil, err
		}
		if len(job) > 0 && job[0].Job != t.Job {
			if err := errors.Join(ctx.Err(), g.job(job)); err != nil {
				return nil, err
			}
			job = job[:0]
		}
		job = append(job, t)
	}
	if len(job) > 0 {
		if err := g.job(job); err != nil {
			return nil, err
		}
	}
	return g.out, nil
}

type gatherer struct {
	asker  *asker
	again  retelling
	reader *trace.Reader
	facts  *trace.Facts
	events []history.Event
	out    []judgedPanel
}

func (g *gatherer) job(job []history.Traced) error {
	if err := ownTraces(job); err != nil {
		return err
	}
	var err error
	if g.events, err = eventsOf(job, g.reader, g.events[:0]); err != nil {
		return err
	}
	courses := lessons.Courses(g.events)
	for i := range courses {
		c := &courses[i]
		if _, proven := c.Proven(); !proven || c.Advice == 0 {
			continue
		}
		at := slices.IndexFunc(job, func(t history.Traced) bool { return t.Sequence == c.Advice })
		if err := g.panel(Example{Job: c.Job, Panel: c.Panel, Event: c.Advice}, c, &job[at]); err != nil {
			return err
		}
	}
	return nil
}

// panel looks at the sheets of one panel, which stand together.
func (g *gatherer) panel(at Example, c *lessons.Course, advice *history.Traced) error {
	if _, err := g.reader.Decision(advice.Trace, g.facts); err != nil {
		return unreadable(advice, err)
	}
	p := judgedPanel{at: at}
	q := g.asker.tables[startTable]
	var sheet trace.Sheet
	g.again.begin()
	for some := false; g.reader.Sheet(&sheet, g.facts); {
		if sheet.Panel != c.Panel {
			if some {
				break
			}
			continue
		}
		some = true
		g.again.sheet(&sheet, g.facts)
		if slices.ContainsFunc(sheet.Asked, func(q trace.Question) bool { return q.Table == startTable }) {
			g.asker.set(q, g.facts, nil)
			p.defects = append(p.defects, g.asker.in.Clone())
		}
	}
	if err := g.reader.Err(); err != nil {
		return unreadable(advice, err)
	}
	said := &g.again.new
	if forbids(said.Effect) {
		return nil
	}
	p.most, p.now = said.Limit, milder(said.Start, said.Limit)
	for k, step := range steps {
		p.against[k] = judge(c, p.now, step, &g.again.likely)
	}
	g.out = append(g.out, p)
	return nil
}

// weigh asks a changed table about every judged panel.
func (h *Hint) weigh(panels []judgedPanel, table *rules.Table) {
	var room rules.Scratch
	for i := range panels {
		p := &panels[i]
		start := steps[0]
		for _, in := range p.defects {
			if at := table.First(in, &room); at >= 0 {
				step, _ := table.Rules()[at].Result.Word("step")
				start = stronger(start, step)
			}
		}
		if is := milder(start, p.most); is != p.now {
			h.count(&p.against[strength(is)], p.at)
		}
	}
	// The chance is that of a share over a half, by a beta posterior on an even prior; Gelman and others, Bayesian Data Analysis,
	// 3rd edition, section 2.1.
	h.Surely = 1 - mathext.RegIncBeta(float64(h.ForChange+1), float64(h.Against+1), 0.5)
	h.Minutes, h.FilmUm = math.Round(h.Minutes*10)/10, math.Round(h.FilmUm*100)/100
}

func (h *Hint) count(j *judgement, at Example) {
	h.Panels++
	switch j.speaks {
	case ForNew:
		h.ForChange++
		if len(h.Examples) < mostExamples {
			h.Examples = append(h.Examples, at)
		}
	case ForOld:
		h.Against++
	case Open:
		h.Open++
		return
	}
	h.Trials, h.Timed = h.Trials+j.trials, h.Timed+j.timed
	h.Minutes, h.FilmUm = h.Minutes+j.minutes, h.FilmUm+j.filmUm
}
