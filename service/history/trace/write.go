package trace

import (
	"encoding/binary"
	"math"
	"slices"

	"github.com/glossladder/glossladder/service/history"
)

// version is that of the form. A form that an earlier program would misread gets a higher one, and [Read] learns to read both.
const version = 1

// The kinds of event that have a trace, as they are written.
const (
	inspection byte = iota + 1
	readings
	trial
	decision
	correction
)

// Kinds are the kinds of event that have a trace.
func Kinds() []history.Kind {
	return []history.Kind{
		history.KindInspection, history.KindReadings, history.KindTrial, history.KindDecision, history.KindCorrection,
	}
}

// Of is the trace of an event's body; nil when its kind has none.
func Of(body history.Body) []byte {
	w := writer{out: []byte{version}}
	if !w.body(body) {
		return nil
	}
	return w.out
}

type writer struct {
	out     []byte
	spelled map[string]uint64
}

func (w *writer) body(body history.Body) bool {
	switch body := body.(type) {
	case *history.Inspection:
		w.inspection(body)
	case *history.Readings:
		w.kind(readings)
		w.word(body.Panel)
		w.word(string(body.When))
	case *history.Trial:
		w.kind(trial)
		w.word(body.Panel)
		w.word(body.Step)
		w.value(Value{Kind: Flag, Flag: body.FreshSection})
		w.optional(body.Minutes)
	case *history.Decision:
		w.decision(body)
	case *history.Correction:
		w.kind(correction)
		w.out = binary.AppendVarint(w.out, body.Sequence)
		at := len(w.out)
		w.out = append(w.out, 1)
		if body.Instead == nil || body.Instead.Kind() == history.KindCorrection || !w.body(body.Instead) {
			w.out[at] = 0
		}
	default:
		return false
	}
	return true
}

func (w *writer) kind(k byte) { w.out = append(w.out, k) }

func (w *writer) count(n int) { w.out = binary.AppendUvarint(w.out, uint64(n)) }

// word writes twice its place in the list; or one for a word that is spelled, and then twice its place among those spelled in this
// trace, plus three.
func (w *writer) word(s string) {
	if at, ok := places[s]; ok {
		w.out = binary.AppendUvarint(w.out, 2*uint64(at))
		return
	}
	if at, ok := w.spelled[s]; ok {
		w.out = binary.AppendUvarint(w.out, 2*at+3)
		return
	}
	if w.spelled == nil {
		w.spelled = map[string]uint64{}
	}
	w.spelled[s] = uint64(len(w.spelled))
	w.out = append(w.out, 1)
	w.count(len(s))
	w.out = append(w.out, s...)
}

// What a value is. A number is whole, a decimal fraction of one to three places, or all of its bits.
const (
	isGone byte = iota
	isFalse
	isTrue
	isWord
	isWhole
	isTenths
	isHundredths
	isThousandths
	isBits
)

var scales = [...]float64{1, 10, 100, 1000}

func (w *writer) value(v Value) {
	switch v.Kind {
	case Unknown:
		w.out = append(w.out, isGone)
	case Flag:
		is := isFalse
		if v.Flag {
			is = isTrue
		}
		w.out = append(w.out, is)
	case Word:
		w.out = append(w.out, isWord)
		w.word(v.Word)
	case Number:
		w.number(v.Number)
	}
}

func (w *writer) number(v float64) {
	for places, scale := range scales {
		// What is written is taken only if it reads back as the same bits: minus nought and what is no number do not.
		if n := math.Round(v * scale); math.Abs(n) < 1<<40 && math.Float64bits(n/scale) == math.Float64bits(v) && (n != 0 || !math.Signbit(v)) {
			w.out = append(w.out, isWhole+byte(places))
			w.out = binary.AppendVarint(w.out, int64(n))
			return
		}
	}
	w.out = append(w.out, isBits)
	w.out = binary.LittleEndian.AppendUint64(w.out, math.Float64bits(v))
}

func (w *writer) optional(v *float64) {
	if v == nil {
		w.value(Value{})
		return
	}
	w.number(*v)
}

func (w *writer) inspection(body *history.Inspection) {
	w.kind(inspection)
	w.count(len(body.Panels))
	for i := range body.Panels {
		p := &body.Panels[i]
		w.word(p.ID)
		w.word(p.Softness)
		w.word(p.Shade)
		w.count(len(p.Defects))
		for _, d := range p.Defects {
			w.word(d.Kind)
			w.optional(d.Severity)
		}
	}
}

func (w *writer) decision(body *history.Decision) {
	w.kind(decision)
	w.word(body.RuleSet)
	w.out = binary.AppendVarint(w.out, body.Trial)
	w.count(len(body.Panels))
	for i := range body.Panels {
		w.word(body.Panels[i].Panel)
		w.word(body.Panels[i].Verdict)
	}
	w.count(len(body.Sheets))
	var before map[string]any
	var changed []string
	for i := range body.Sheets {
		s := &body.Sheets[i]
		w.word(s.Panel)
		w.word(s.About)
		changed = differing(before, s.Facts, changed[:0])
		w.count(len(changed))
		for _, fact := range changed {
			w.word(fact)
			w.value(ValueOf(s.Facts[fact]))
		}
		before = s.Facts
		w.answers(s.Answers)
	}
}

// answers writes what one table said together.
func (w *writer) answers(all []history.TableAnswer) {
	var starts []int
	for i := range all {
		if i == 0 || all[i].Table != all[i-1].Table {
			starts = append(starts, i)
		}
	}
	w.count(len(starts))
	for k, from := range starts {
		to := len(all)
		if k+1 < len(starts) {
			to = starts[k+1]
		}
		w.word(all[from].Table)
		w.count(to - from)
		for _, a := range all[from:to] {
			w.word(a.Rule)
			w.word(a.Answer)
		}
	}
}

// differing adds the names of facts that are not as they were, in order.
func differing(before, now map[string]any, to []string) []string {
	for fact, value := range now {
		if was, known := before[fact]; !known || !alike(ValueOf(was), ValueOf(value)) {
			to = append(to, fact)
		}
	}
	for fact := range before {
		if _, known := now[fact]; !known {
			to = append(to, fact)
		}
	}
	slices.Sort(to)
	return to
}

// alike tells values apart to the last bit.
func alike(a, b Value) bool {
	return a.Kind == b.Kind && a.Flag == b.Flag && a.Word == b.Word && math.Float64bits(a.Number) == math.Float64bits(b.Number)
}
