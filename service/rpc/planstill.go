package rpc

import (
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/workplan"
)

// begin tells a plan what is left of it, as the progress on record has it. Nothing is told before a step has begun, and once the work
// is over.
func (o *onRecord) begin(made *workplan.Plan) {
	if o != nil && o.job.Stage == history.StageInWork {
		left := made.Still(o.progress)
		made.Left = &left
	}
}

func (o *onRecord) progress(panel, step string) plan.Progress {
	found := o.job.Panel(panel)
	if found == nil {
		return plan.Progress{}
	}
	for _, w := range found.Steps {
		if w.Step == step {
			return plan.Progress{
				Begun: w.State == history.UnderWay, Over: w.State == history.Done || w.State == history.LeftOut,
				Sections: count(w.SectionsDone), Of: count(w.SectionsTotal),
			}
		}
	}
	return plan.Progress{}
}

func count(n *int) int {
	if n == nil {
		return 0
	}
	return *n
}
