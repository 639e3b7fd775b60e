package course

import "github.com/glossladder/glossladder/service/history"

// freshPads are the events of work with a step that say that a fresh or cleaned pad was put on.
func freshPads(job *history.Job, step string) []int64 {
	var out []int64
	for _, e := range history.Effective(job.Events()) {
		if p, ok := e.Body.(*history.Progress); ok && p.Step == step && p.FreshPad != nil && *p.FreshPad {
			out = append(out, e.Sequence)
		}
	}
	return out
}

// sectionsOnPad counts the sections worked with a step since the last entry of work that says that a fresh or cleaned pad was put
// on; nil when no sections were counted. Counts on a panel run over its entries, so that each adds what it has more than the one
// before.
func sectionsOnPad(job *history.Job, step string) *int {
	var out *int
	before := map[string]int{}
	for _, e := range history.Effective(job.Events()) {
		p, ok := e.Body.(*history.Progress)
		if !ok || p.Step != step {
			continue
		}
		if p.FreshPad != nil && *p.FreshPad {
			out = new(0)
		}
		if p.SectionsDone == nil {
			continue
		}
		if out == nil {
			out = new(0)
		}
		*out += max(*p.SectionsDone-before[p.Panel], 0)
		before[p.Panel] = *p.SectionsDone
	}
	return out
}
