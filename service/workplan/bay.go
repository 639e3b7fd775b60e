package workplan

import (
	"math"
	"time"

	"github.com/glossladder/glossladder/service/plan"
)

// BayTime is how a plan lies in the hours of a bay.
type BayTime struct {
	Blocks []plan.Block
	// Ready is when the vehicle can be handed over.
	Ready time.Time
}

// Bay lays the likely minutes of a plan into the hours of a bay that others leave free, shared by the crew. Errors are those of
// [plan.Blocks].
func Bay(p *Plan, start time.Time, opening plan.Opening, taken plan.Taken) (BayTime, error) {
	blocks, err := plan.BlocksAround(start, opening, taken, p.pieces())
	if err != nil {
		return BayTime{}, err
	}
	out := BayTime{Blocks: blocks, Ready: start}
	if len(blocks) > 0 {
		out.Ready = blocks[len(blocks)-1].End
	}
	out.Ready = out.Ready.Add(time.Duration(math.Ceil(p.CureMin)) * time.Minute)
	return out, nil
}

// pieces are the parts of a plan's work in a row: before the steps, each step, and after them. Minutes are rounded so that the sum
// is that of the plan.
func (p *Plan) pieces() []plan.Piece {
	people := float64(max(1, p.job.Crew.People))
	steps := make([]float64, len(p.Steps))
	all := 0.0
	for i, s := range p.Steps {
		steps[i] = s.Minutes.Likely + p.lights(s.Step)
		all += steps[i]
	}
	last := p.line("read again") + p.line("last wipe and hand over")
	var out []plan.Piece
	done := 0.0
	add := func(name string, minutes, wait float64) {
		before := math.Round(done / people)
		done += minutes
		out = append(out, plan.Piece{Name: name, WorkMin: int(math.Round(done/people) - before), WaitMin: int(math.Ceil(wait))})
	}
	add("prepare, inspect, try and tape", p.WorkMin.Likely-all-last, 0)
	for i, s := range p.Steps {
		wait := 0.0
		if i < len(p.Steps)-1 {
			wait = p.WaitMin.Likely / float64(len(p.Steps)-1)
		}
		add(s.Step, steps[i], wait)
	}
	add("read again, last wipe", last, 0)
	return out
}

// lights is the minutes that moving lights takes for a step.
func (p *Plan) lights(step string) (minutes float64) {
	for i := range p.Panels {
		for _, s := range p.Panels[i].Steps {
			if s.Step == step {
				minutes += p.Panels[i].Panel.LightMin.Likely
			}
		}
	}
	return minutes
}
