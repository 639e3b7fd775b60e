package trace

import "github.com/glossladder/glossladder/service/history"

// Outline is a decision without its panels and sheets.
type Outline struct {
	RuleSet string
	Trial   int64
	// Sheets is how many follow.
	Sheets int
}

// Decision begins to read the trace of a decision; [Reader.Sheet] then gives its sheets. Facts are cleared.
func (r *Reader) Decision(data []byte, facts *Facts) (Outline, error) {
	if kind := r.begin(data); kind != decision && r.err == nil {
		r.fail(errLater)
	}
	facts.Clear()
	out := Outline{RuleSet: r.word(), Trial: r.varint()}
	for range r.count(2) {
		r.name()
		r.name()
	}
	out.Sheets = r.count(4)
	r.sheets = out.Sheets
	return out, r.err
}

// Sheet reads the next sheet and moves facts on to what was known then; false at the end, or when something is
// wrong: see [Reader.Err]. What was asked holds until the next call.
func (r *Reader) Sheet(into *Sheet, facts *Facts) bool {
	if r.sheets == 0 || r.err != nil {
		return false
	}
	r.sheets--
	into.Panel, into.About = r.word(), r.word()
	for range r.count(2) {
		fact, value := r.name(), r.value()
		if !fact.numbered {
			r.fail(errMany)
			break
		}
		facts.put(fact.number, value)
	}
	r.asked(into)
	return r.err == nil
}

func (r *Reader) asked(into *Sheet) {
	r.answers, into.Asked = r.answers[:0], into.Asked[:0]
	for range r.count(2) {
		from, table := len(r.answers), r.word()
		for range r.count(2) {
			r.answers = append(r.answers, history.TableAnswer{Table: table, Rule: r.word(), Answer: r.word()})
		}
		// The room may have moved: what was said before is still where it was.
		into.Asked = append(into.Asked, Question{table, r.answers[from:len(r.answers):len(r.answers)]})
	}
}

// Inspection reads the trace of an inspection panel by panel. What is given to each holds during the call alone.
func (r *Reader) Inspection(data []byte, each func(*history.PanelFound)) error {
	if kind := r.begin(data); kind != inspection && r.err == nil {
		r.fail(errLater)
	}
	for range r.count(4) {
		r.found(&r.panel)
		if r.err != nil {
			break
		}
		each(&r.panel)
	}
	return r.err
}
