package history

import (
	"errors"
	"fmt"
)

// Measured are areas that the shop measured, in place of those of the rules.
type Measured struct {
	Areas []MeasuredArea `json:"areas,omitempty"`
}

// MeasuredArea is the area of one panel.
type MeasuredArea struct {
	Panel string  `json:"panel"`
	M2    float64 `json:"m2"`
}

// Crew is who works, and how long a day is. Nil: not said, which is one person and eight hours.
type Crew struct {
	People   *int     `json:"people,omitempty"`
	DayHours *float64 `json:"day_hours,omitempty"`
}

// The bounds of areas and crews are those of the contract.
const (
	leastM2, mostM2             = 0.01, 60
	mostPeople                  = 20
	leastDayHours, mostDayHours = 1, 24
)

func (m *Measured) areas() []MeasuredArea {
	if m == nil {
		return nil
	}
	return m.Areas
}

func (m *Measured) check() error {
	var errs []error
	seen := map[string]bool{}
	for n, area := range m.areas() {
		field := fmt.Sprintf("plan.measured.areas[%d]", n)
		errs = append(errs, CheckID(field+".panel_id", area.Panel))
		if seen[area.Panel] {
			errs = append(errs, &InputError{Field: field + ".panel_id", Says: fmt.Sprintf("%q has an area already; a panel has one", area.Panel)})
		}
		seen[area.Panel] = true
		if !(area.M2 >= leastM2 && area.M2 <= mostM2) { // not a number is neither
			errs = append(errs, &InputError{Field: field + ".area_m2", Says: fmt.Sprintf("is %v m²; an area is %v to %v m²", area.M2, leastM2, mostM2)})
		}
	}
	return errors.Join(errs...)
}

func (c *Crew) check() error {
	if c == nil {
		return nil
	}
	var errs []error
	if c.People != nil && (*c.People < 1 || *c.People > mostPeople) {
		errs = append(errs, &InputError{Field: "plan.crew.people", Says: fmt.Sprintf("is %d; 1 to %d people share the work", *c.People, mostPeople)})
	}
	if c.DayHours != nil && !(*c.DayHours >= leastDayHours && *c.DayHours <= mostDayHours) {
		errs = append(errs, &InputError{
			Field: "plan.crew.day_hours", Says: fmt.Sprintf("is %v h; a day has %d to %d hours of work", *c.DayHours, leastDayHours, mostDayHours),
		})
	}
	return errors.Join(errs...)
}

// measure takes over the areas and the crew of a plan, where it says any.
func (j *Job) measure(body *Plan) {
	if body.Crew != nil {
		j.Crew = body.Crew
	}
	if body.Measured == nil {
		return
	}
	for _, p := range j.Panels {
		p.AreaM2 = nil
	}
	for _, area := range body.Measured.Areas {
		if p := j.Panel(area.Panel); p != nil { // else its inspection was withdrawn
			p.AreaM2 = &area.M2
		}
	}
}
