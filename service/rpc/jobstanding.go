package rpc

import (
	"cmp"
	"slices"

	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// standing is what the advice that holds for the panels of a job says beyond each of them, of the panels for which it holds. Nil: none
// holds.
func (d *documents) standing(j *history.Job) (*glossladderv1.StandingAdvice, error) {
	var out *glossladderv1.StandingAdvice
	for _, made := range adviceStanding(j) {
		said, err := d.recommendation(made)
		if err != nil {
			return nil, err
		}
		if out == nil {
			out = &glossladderv1.StandingAdvice{}
		}
		holds := func(panel string) bool {
			p := j.Panel(panel)
			return p.Advice != nil && p.Advice.Sequence == made.Sequence
		}
		for _, group := range said.GetGroups() {
			if left := groupOf(group, holds); left != nil {
				out.Groups = append(out.Groups, left)
			}
		}
		out.Cautions = addUnsaid(out.GetCautions(), said.GetCautions())
		out.MeasureNext = addUnsaid(out.GetMeasureNext(), said.GetMeasureNext())
	}
	slices.SortStableFunc(out.GetCautions(), func(a, b *glossladderv1.Caution) int { return cmp.Compare(b.GetLevel(), a.GetLevel()) })
	return out, nil
}

// adviceStanding are the decisions whose advice holds for some panel, the earliest first.
func adviceStanding(j *history.Job) []*history.DecisionMade {
	var all []*history.DecisionMade
	for _, p := range j.Panels {
		if p.Advice != nil {
			all = append(all, p.Advice)
		}
	}
	slices.SortStableFunc(all, func(a, b *history.DecisionMade) int { return cmp.Compare(a.Sequence, b.Sequence) })
	return slices.CompactFunc(all, func(a, b *history.DecisionMade) bool { return a.Sequence == b.Sequence })
}

// groupOf is a group without the panels for which its advice no longer holds; nil when the one to test first is among them.
func groupOf(group *glossladderv1.PanelGroup, holds func(panel string) bool) *glossladderv1.PanelGroup {
	if !holds(group.GetTestFirst()) {
		return nil // what is said of the panel to test first is not true of another
	}
	left := proto.CloneOf(group)
	left.PanelIds = slices.DeleteFunc(left.GetPanelIds(), func(panel string) bool { return !holds(panel) })
	return left
}

// addUnsaid adds what is not said yet.
func addUnsaid[M proto.Message](all, more []M) []M {
	for _, m := range more {
		if !slices.ContainsFunc(all, func(said M) bool { return proto.Equal(said, m) }) {
			all = append(all, m)
		}
	}
	return all
}
