package plan

import "fmt"

// CandidateError tells what is wrong with what a panel may get.
type CandidateError struct {
	Panel  string
	Choice int // place in its choices, -1 for the panel as a whole
	Says   string
}

func (e *CandidateError) Error() string {
	if e.Choice < 0 {
		return fmt.Sprintf("panel %s: %s", e.Panel, e.Says)
	}
	return fmt.Sprintf("panel %s, choice %d: %s", e.Panel, e.Choice+1, e.Says)
}

// LimitError tells which number of a question is outside what can be reckoned.
type LimitError struct {
	Field    string
	Value    int
	Min, Max int
}

func (e *LimitError) Error() string {
	return fmt.Sprintf("%s is %d, allowed is %d to %d", e.Field, e.Value, e.Min, e.Max)
}

func within(field string, value, least, most int) error {
	if value < least || value > most {
		return &LimitError{field, value, least, most}
	}
	return nil
}

// mostWorth keeps the sum over all panels far from what an int holds.
const mostWorth = 1_000_000_000

func check(panels []Candidate, setup Setup, minutes int) error {
	if err := within("minutes", minutes, 0, MostMinutes); err != nil {
		return err
	}
	if err := within("number of panels", len(panels), 1, MostPanels); err != nil {
		return err
	}
	if err := within("number of steps", len(stepsIn(panels)), 0, MostSteps); err != nil {
		return err
	}
	for step, m := range setup {
		if err := within("setup of "+step, m, 0, MostMinutes); err != nil {
			return err
		}
	}
	for _, p := range panels {
		if err := p.check(); err != nil {
			return err
		}
	}
	return nil
}

func (p Candidate) check() error {
	if err := within("number of choices", len(p.Choices), 1, MostChoices); err != nil {
		return &CandidateError{p.Panel, -1, err.Error()}
	}
	for k, c := range p.Choices {
		for _, each := range []struct {
			field       string
			value, most int
		}{
			{"minutes", c.Minutes, MostMinutes},
			{"worth", c.Worth, mostWorth},
			{"film taken in nm", c.TakesNm, mostWorth},
		} {
			if err := within(each.field, each.value, 0, each.most); err != nil {
				return &CandidateError{p.Panel, k, err.Error()}
			}
		}
	}
	return nil
}
