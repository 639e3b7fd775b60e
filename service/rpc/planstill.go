package rpc

import (
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/workplan"
)

// stillOut is what of a plan is still to do, as the progress on record has it; nil while no step has begun, and once the job is over.
func (o *onRecord) stillOut(made *workplan.Plan) *glossladderv1.Span {
	if o == nil || o.job.Stage != history.StageInWork {
		return nil
	}
	return spanOut(made.Still(o.progress))
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
