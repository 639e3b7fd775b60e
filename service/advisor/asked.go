package advisor

import (
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/film"
)

// Record is what the rules were asked about one panel, for whoever keeps a decision to look at again.
type Record struct {
	Panel string
	// ConfidencePct is what the policy asks of intervals.
	ConfidencePct float64
	// Removal is what each step is expected to take off this panel, whether it is advised or not, by step.
	Removal map[string]film.Removal
	// Sheets are the facts as they were seen, in the order of asking. Tables that were asked with the same facts share one.
	Sheets []Sheet
}

// Sheet is what was known when some tables were asked, and what they answered.
type Sheet struct {
	// About is the defect, "wash-marks 2", or the step, "polish". Empty: the panel.
	About   string
	Facts   *rules.Input
	Answers []TableAnswer
}

// TableAnswer is a rule that answered. Rule and Answer are empty where no rule held.
type TableAnswer struct{ Table, Rule, Answer string }

// RecommendForRecord is [Advisor.Recommend] with a record of every panel, in order.
func (a *Advisor) RecommendForRecord(in Inspection) (Recommendation, []Record, error) {
	notes := newNotes(len(in.Panels))
	said, err := a.recommend(in, notes)
	if err != nil {
		return Recommendation{}, nil, err
	}
	return said, notes.records, nil
}

// JudgeTrialForRecord is [Advisor.JudgeTrial] with a record of the panel: what led to its advice, and to the verdict on the last
// trial. What earlier trials were judged by is on their own records.
func (a *Advisor) JudgeTrialForRecord(in Inspection, panel string, trials []Trial) (Verdict, Record, error) {
	notes := newNotes(len(in.Panels))
	said, index, err := a.judgeTrial(in, panel, trials, notes)
	if err != nil {
		return Verdict{}, Record{}, err
	}
	return said, notes.records[index], nil
}

// notes are the records of an inspection's panels while they are made; nil where nobody asks for them.
type notes struct{ records []Record }

func newNotes(panels int) *notes { return &notes{records: make([]Record, panels)} }

// put asks a table and notes what it was asked and what it said.
func (c *panelCase) put(t *rules.Table) {
	t.Answer(c.sheet.in, c.decision)
	if c.notes != nil {
		c.note(t)
	}
}

func (c *panelCase) note(t *rules.Table) {
	record := &c.notes.records[c.index]
	about := c.aboutNow(t)
	if t == c.a.tables.removal && record.answered(t.Name(), about) {
		return // it is asked again for the reason alone
	}
	n := len(record.Sheets)
	if n == 0 || record.Sheets[n-1].About != about || !record.Sheets[n-1].Facts.Equal(c.sheet.in) {
		record.Sheets = append(record.Sheets, Sheet{About: about, Facts: c.sheet.in.Clone()})
		n++
	}
	sheet := &record.Sheets[n-1]
	if len(c.decision.Winners) == 0 {
		sheet.Answers = append(sheet.Answers, TableAnswer{Table: t.Name()})
	}
	for _, winner := range c.decision.Winners {
		rule := &t.Rules()[winner]
		sheet.Answers = append(sheet.Answers, TableAnswer{Table: t.Name(), Rule: rule.ID, Answer: answerWord(t, rule.Result)})
	}
}

// aboutNow is what a question is about besides the panel.
func (c *panelCase) aboutNow(t *rules.Table) string {
	if t == c.a.tables.verdict {
		return c.tried
	}
	facts, schema := c.sheet.in, c.a.set.Schema()
	defect, _ := schema.FactID("defect.kind")
	if kind, known := facts.Word(defect); known {
		severity, _ := schema.FactID("defect.severity")
		if v, graded := facts.Number(severity); graded {
			kind += " " + showNumber(v, "")
		}
		return kind
	}
	now, _ := schema.FactID("step.now")
	step, _ := facts.Word(now)
	return step
}

func (r *Record) answered(table, about string) bool {
	for _, sheet := range r.Sheets {
		for _, answer := range sheet.Answers {
			if answer.Table == table && sheet.About == about {
				return true
			}
		}
	}
	return false
}

// begin forgets what an earlier trial was judged by: the record is of the last.
func (n *notes) begin(b *bench, trial *Trial) {
	if n == nil {
		return
	}
	record := &n.records[b.c.index]
	if b.noted == 0 {
		b.noted = len(record.Sheets)
	}
	record.Sheets = record.Sheets[:b.noted]
	b.c.tried = trial.Step
}

// finish adds what was reckoned beside the sheets.
func (n *notes) finish(c *panelCase) {
	if n == nil {
		return
	}
	record := &n.records[c.index]
	record.Panel, record.ConfidencePct, record.Removal = c.panel.ID, c.policy.confidencePct, c.removal
}
