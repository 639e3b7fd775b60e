package history

import (
	"errors"
	"fmt"

	"github.com/glossladder/glossladder/service/film"
)

// Decision is what the rules answered and what they saw, in numbers and words. The answer as it was given to people is the
// event's document.
type Decision struct {
	// RuleSet is the content hash of the set that answered.
	RuleSet string `json:"rule_set"`
	// Trial is the sequence of the trial that is judged. Zero: it judges none, but advises on an inspection.
	Trial int64 `json:"trial,omitempty"`
	// ConfidencePct is the confidence that the policy asks of intervals.
	ConfidencePct float64        `json:"confidence_pct,omitempty"`
	Panels        []PanelDecided `json:"panels"`
	// Sheets are the facts as they were seen, question by question.
	Sheets []FactSheet `json:"sheets,omitempty"`
}

// Kind is [KindDecision].
func (*Decision) Kind() Kind { return KindDecision }

func (d *Decision) check() error {
	var errs []error
	if d.RuleSet == "" {
		errs = append(errs, &InputError{Field: "decision.rule_set", Says: "is missing; a decision names the rules that made it"})
	}
	if d.Trial != 0 && len(d.Panels) != 1 {
		errs = append(errs, &InputError{Field: "decision.panels", Says: "must be one for a verdict"})
	}
	for n, p := range d.Panels {
		errs = append(errs, CheckID(fmt.Sprintf("decision.panels[%d].panel_id", n), p.Panel))
	}
	for n, sheet := range d.Sheets {
		for name, value := range sheet.Facts {
			switch value.(type) {
			case float64, string, bool:
			default:
				errs = append(errs, &InputError{
					Field: fmt.Sprintf("decision.sheets[%d].facts[%s]", n, name), Says: fmt.Sprintf("is a %T; a fact is a number, a word or a flag", value),
				})
			}
		}
	}
	return errors.Join(errs...)
}

// PanelDecided is the answer for one panel.
type PanelDecided struct {
	Panel string `json:"panel"`
	// Ladder is the ladder advised or, of a verdict, proven or as far as it goes.
	Ladder string `json:"ladder,omitempty"`
	// Proven is true when trials have proven the ladder.
	Proven bool `json:"proven,omitempty"`
	// Steps are the steps advised and what each is expected to take.
	Steps []StepExpected `json:"steps,omitempty"`
	// Beside are the steps that are not advised, and what each would take if it were worked all the same.
	Beside []StepExpected `json:"beside,omitempty"`
	// Verdict and Change are the judgement of a trial. Empty: none.
	Verdict string `json:"verdict,omitempty"`
	Change  string `json:"change,omitempty"`
	// Gloss and Haze are what the trial changed. Nil: not measured before and after.
	Gloss *Changed `json:"gloss,omitempty"`
	Haze  *Changed `json:"haze,omitempty"`
	// Taken is what the trial took. Nil: not known.
	Taken *Taken `json:"taken,omitempty"`
	// SeverityLeft is the worst severity left on the spot. Nil: not inspected.
	SeverityLeft *float64 `json:"severity_left,omitempty"`
	// SeverityAllowed is the severity that may stay. Nil: not known.
	SeverityAllowed *float64 `json:"severity_allowed,omitempty"`
}

// StepExpected is a step and what it is expected to take.
type StepExpected struct {
	Step    string  `json:"step"`
	Removal Removal `json:"removal"`
}

// Removal is film that goes or went, in µm.
type Removal struct {
	LowUm    float64 `json:"low_um"`
	LikelyUm float64 `json:"likely_um"`
	HighUm   float64 `json:"high_um"`
}

// RemovalOf keeps a removal.
func RemovalOf(r film.Removal) Removal {
	return Removal{LowUm: float64(r.LowUm), LikelyUm: float64(r.LikelyUm), HighUm: float64(r.HighUm)}
}

func (r Removal) film() film.Removal {
	return film.Removal{LowUm: film.Microns(r.LowUm), LikelyUm: film.Microns(r.LikelyUm), HighUm: film.Microns(r.HighUm)}
}

// Taken is film that a trial took.
type Taken struct {
	Removal
	// Measured is true when readings tell, false when it is what the step was expected to take.
	Measured bool `json:"measured,omitempty"`
}

// Changed is after less before on one scale, with its interval.
type Changed struct {
	// Angle is 20, 60 or 85 for gloss, zero for haze.
	Angle int     `json:"angle,omitempty"`
	Mean  float64 `json:"mean"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
	// Judgement is the word for it: "worthwhile".
	Judgement string `json:"judgement,omitempty"`
	// Before and After are the means.
	Before float64 `json:"before"`
	After  float64 `json:"after"`
}

// FactSheet is what was known when some tables were asked, and what they answered.
type FactSheet struct {
	Panel string `json:"panel"`
	// About is what else it is about: the defect, the step. Empty: the panel.
	About string `json:"about,omitempty"`
	// Facts are the facts that were known, by name; each value is a float64 in the fact's unit, a string or a bool.
	Facts   map[string]any `json:"facts"`
	Answers []TableAnswer  `json:"answers,omitempty"`
}

// TableAnswer is what one table answered. Rule and Answer are empty where no rule held.
type TableAnswer struct {
	Table  string `json:"table"`
	Rule   string `json:"rule,omitempty"`
	Answer string `json:"answer,omitempty"`
}
