package history

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// The steps, as the contract words them. A ladder is its steps, strongest first, with hyphens between: "polish-finish".
const (
	cut    = "cut"
	polish = "polish"
	finish = "finish"
	none   = "none"
)

// Steps takes a ladder apart, strongest step first. The ladder "none" has no steps.
func Steps(ladder string) []string {
	if ladder == none || ladder == "" {
		return nil
	}
	return strings.Split(ladder, "-")
}

func checkStep(field, step string) error {
	if slices.Contains([]string{cut, polish, finish}, step) {
		return nil
	}
	return &InputError{Field: field, Says: fmt.Sprintf("%q is no step; a step is cut, polish or finish", step)}
}

func checkLadder(field, ladder string) error {
	if ladder == none {
		return nil
	}
	if ladder == "" {
		return &InputError{Field: field, Says: "is missing; none leaves the panel alone"}
	}
	for _, step := range Steps(ladder) {
		if checkStep(field, step) != nil {
			return &InputError{Field: field, Says: fmt.Sprintf("%q is no ladder; a ladder is its steps, strongest first: polish-finish", ladder)}
		}
	}
	return nil
}

// Trial is a test spot: one section worked with one combination.
type Trial struct {
	Panel string `json:"panel"`
	Step  string `json:"step"`
	// FreshSection says that no earlier trial was made on the section.
	FreshSection bool `json:"fresh_section,omitempty"`
	// Minutes is how long the section took. Nil: not timed.
	Minutes *float64 `json:"minutes,omitempty"`
	// Machine, Pad and Liquid are what was used, by class. Empty: as recommended.
	Machine string `json:"machine,omitempty"`
	Pad     string `json:"pad,omitempty"`
	Liquid  string `json:"liquid,omitempty"`
}

// Kind is [KindTrial].
func (*Trial) Kind() Kind { return KindTrial }

func (t *Trial) check() error {
	return errors.Join(CheckID("panel_id", t.Panel), checkStep("trial.step", t.Step))
}

// Plan says which ladder is carried over which panel, in the order of work. A later plan takes the place of an earlier one.
type Plan struct {
	Panels []PlannedPanel `json:"panels"`
	Note   string         `json:"note,omitempty"`
	// Measured and Crew take the place of those of the plan before. Nil: those stay.
	Measured *Measured `json:"measured,omitempty"`
	Crew     *Crew     `json:"crew,omitempty"`
}

// PlannedPanel is one panel of a plan.
type PlannedPanel struct {
	Panel  string `json:"panel"`
	Ladder string `json:"ladder"`
}

// Kind is [KindPlan].
func (*Plan) Kind() Kind { return KindPlan }

func (p *Plan) check() error {
	errs := []error{checkText("plan.note", p.Note, 500), p.Measured.check(), p.Crew.check()}
	if len(p.Panels) == 0 {
		errs = append(errs, &InputError{Field: "plan.panels", Says: "are missing; a plan names one panel at least"})
	}
	seen := map[string]bool{}
	for n, panel := range p.Panels {
		field := fmt.Sprintf("plan.panels[%d]", n)
		errs = append(errs, CheckID(field+".panel_id", panel.Panel), checkLadder(field+".ladder", panel.Ladder))
		if seen[panel.Panel] {
			errs = append(errs, &InputError{Field: field + ".panel_id", Says: fmt.Sprintf("%q is planned twice", panel.Panel)})
		}
		seen[panel.Panel] = true
	}
	return errors.Join(errs...)
}

// StepState is how far a step on a panel is.
type StepState string

// The states of a step.
const (
	Open     StepState = "open"
	UnderWay StepState = "under-way"
	Done     StepState = "done"
	LeftOut  StepState = "left-out"
)

// Progress is work done on one panel with one step.
type Progress struct {
	Panel string    `json:"panel"`
	Step  string    `json:"step"`
	State StepState `json:"state"`
	// SectionsDone and SectionsTotal count sections so far and in all. Nil: not counted.
	SectionsDone  *int `json:"sections_done,omitempty"`
	SectionsTotal *int `json:"sections_total,omitempty"`
	// Minutes is the time since the entry before. Nil: not timed.
	Minutes  *float64 `json:"minutes,omitempty"`
	FreshPad *bool    `json:"fresh_pad,omitempty"`
	// TestSectionSpared says that this step took nothing from the test section.
	TestSectionSpared bool   `json:"test_section_spared,omitempty"`
	Note              string `json:"note,omitempty"`
}

// Kind is [KindProgress].
func (*Progress) Kind() Kind { return KindProgress }

func (p *Progress) check() error {
	errs := []error{CheckID("progress.panel_id", p.Panel), checkStep("progress.step", p.Step), checkText("progress.note", p.Note, 500)}
	switch p.State {
	case UnderWay, Done:
	case LeftOut:
		if p.Note == "" {
			errs = append(errs, &InputError{Field: "progress.note", Says: "is missing; say why the step is left out"})
		}
	default:
		errs = append(errs, &InputError{Field: "progress.state", Says: fmt.Sprintf("%q is not allowed; a step is under way, done or left out", p.State)})
	}
	if p.SectionsDone != nil && p.SectionsTotal != nil && *p.SectionsDone > *p.SectionsTotal {
		errs = append(errs, &InputError{
			Field: "progress.sections_done", Says: fmt.Sprintf("is %d of %d in all; it cannot be more", *p.SectionsDone, *p.SectionsTotal),
		})
	}
	return errors.Join(errs...)
}

// Closing is what is said at an end.
type Closing struct {
	Note string `json:"note,omitempty"`
}

func (c *Closing) check() error { return checkText("closing.note", c.Note, 2000) }

// Finished says that the work is done.
type Finished struct{ Closing }

// Kind is [KindFinished].
func (*Finished) Kind() Kind { return KindFinished }

// HandedOver says that the owner has the vehicle.
type HandedOver struct{ Closing }

// Kind is [KindHandedOver].
func (*HandedOver) Kind() Kind { return KindHandedOver }

// Cancelled says that the job ended early.
type Cancelled struct{ Closing }

// Kind is [KindCancelled].
func (*Cancelled) Kind() Kind { return KindCancelled }
