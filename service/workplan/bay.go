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

// Bay lays the likely minutes of a plan, or of what is left of it, into the hours of a bay that others leave free, shared by the crew. Errors are those of
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

// part is work in a row that one piece of bay time is for.
type part struct {
	name    string
	minutes float64 // of one person
	isStep  bool
}

// pieces are the parts of the work as the bay holds them, one crew at a time. Minutes are rounded so that the sum is that of the plan.
func (p *Plan) pieces() []plan.Piece {
	people := float64(max(1, p.job.Crew.People))
	parts := p.parts()
	var out []plan.Piece
	done := 0.0
	for i, part := range parts {
		before := math.Round(done / people)
		done += part.minutes
		wait := 0.0
		if part.isStep && i+1 < len(parts) && parts[i+1].isStep {
			wait = p.WaitMin.Likely / float64(len(p.Steps)-1)
		}
		out = append(out, plan.Piece{Name: part.name, WorkMin: int(math.Round(done/people) - before), WaitMin: int(math.Ceil(wait))})
	}
	return out
}

// parts are what comes before the steps, each step, and what comes after them.
func (p *Plan) parts() []part {
	if p.Left != nil {
		return partsLeft(p.Left)
	}
	var steps []part
	all := 0.0
	for _, s := range p.Steps {
		minutes := s.Minutes.Likely + p.lights(s.Step)
		steps = append(steps, part{name: s.Step, minutes: minutes, isStep: true})
		all += minutes
	}
	last := p.line("read again") + p.line("last wipe and hand over")
	out := append([]part{{name: "prepare, inspect, try and tape", minutes: p.WorkMin.Likely - all - last}}, steps...)
	return append(out, part{name: lastPiece, minutes: last})
}

const lastPiece = "read again, last wipe"

func partsLeft(left *plan.Left) []part {
	out := []part{{name: "tape", minutes: left.BeforeMin.Likely}}
	for _, s := range left.Steps {
		out = append(out, part{name: s.Step, minutes: s.Min.Likely, isStep: true})
	}
	return append(out, part{name: lastPiece, minutes: left.AfterMin.Likely})
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
