package rpc

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/history"
)

// asking is one call that asks the rules in force about a job.
type asking struct {
	*visit
	// brought leads from what the adviser complains of to the field of the request that brought it: the panel's id and the
	// rest of the path, or the trial's place among the panel's trials. "" is what was on record before.
	brought func(panel, rest string) string
}

// everyPanel and stillToWork say which panels are asked about.
func everyPanel(*history.Panel) bool { return true }

func stillToWork(p *history.Panel) bool { return !p.Begun() }

// recommend gives the decisions on panels of a job, one for all that were read with the same instruments.
func (a *asking) recommend(job *history.Job, which func(*history.Panel) bool) ([]draft, error) {
	inspections, err := a.seen(job, which)
	if err != nil {
		return nil, err
	}
	var out []draft
	for _, m := range inspections {
		said, records, err := a.rules.Advisor.RecommendForRecord(a.rules.Instruments.inspection(m))
		if err != nil {
			return nil, a.told(err, job, m)
		}
		d, err := adviceKept(&said, records)
		if err != nil {
			return nil, err
		}
		out = append(out, d)
	}
	return out, nil
}

// judge gives the verdict on the last trial of a panel.
func (a *asking) judge(job *history.Job, p *history.Panel) (draft, error) {
	inspections, err := a.seen(job, func(o *history.Panel) bool { return o == p || !o.Begun() })
	if err != nil {
		return draft{}, err
	}
	var trials []*glossladderv1.Trial
	for _, made := range p.Trials {
		m, err := documentInto(made.Document, &glossladderv1.TrialRecord{})
		if err != nil {
			return draft{}, err
		}
		trials = append(trials, m.GetTrial())
	}
	for _, m := range inspections {
		if panelOf(m, p.ID) == nil {
			continue
		}
		said, record, err := a.rules.Advisor.JudgeTrialForRecord(a.rules.Instruments.inspection(m), p.ID, trialsIn(trials))
		if err != nil {
			return draft{}, a.told(err, job, m)
		}
		return verdictKept(&said, &record, p.Trials[len(p.Trials)-1].Sequence)
	}
	return draft{}, fmt.Errorf("panel %s of job %s was tried and has no inspection", p.ID, job.ID)
}

// told puts the adviser's complaints to the fields of the request that brought what they are about. Complaints about what is
// on record already are no fault of the request.
func (a *asking) told(err error, job *history.Job, m *glossladderv1.Inspection) error {
	input, ok := errors.AsType[*advisor.InputError](err)
	if !ok {
		return err
	}
	var wrong faults
	for _, trouble := range input.Troubles {
		panel, rest := panelAt(trouble.Field, m)
		if field := a.brought(panel, rest); field != "" {
			wrong.add(field, trouble.Says)
			continue
		}
		return &history.StageError{
			Job: job.ID, Stage: job.Stage, Kind: history.KindDecision,
			Says: fmt.Sprintf("what is on record of panel %s cannot be reckoned with, %s %s; correct it first", panel, strings.TrimPrefix(rest, "."), trouble.Says),
		}
	}
	return wrong.asError()
}

// panelAt takes the place among the panels off a field: "panels[1].film" is panel "roof" and ".film".
func panelAt(field string, m *glossladderv1.Inspection) (panel, rest string) {
	after, ok := strings.CutPrefix(field, "panels[")
	if !ok {
		return "", field
	}
	place, rest, _ := strings.Cut(after, "]")
	n, err := strconv.Atoi(place)
	if err != nil || n >= len(m.GetPanels()) {
		return "", field
	}
	return m.GetPanels()[n].GetId(), rest
}

// keepRules puts the rule set that answers into the archive, so that its decisions can be explained again.
func (s *JobServer) keepRules(ctx context.Context, store history.Store, rules *Rules) error {
	hash := rules.Advisor.RuleSet()
	if _, kept := s.archive.Load(hash); kept {
		return nil
	}
	set := rules.Advisor.Set()
	files := map[string][]byte{}
	for _, name := range set.Files() {
		files[name], _ = set.Source(name)
	}
	document, err := history.PackRuleSet(files)
	if err != nil {
		return err
	}
	if err := store.KeepRuleSet(ctx, hash, document, s.now()); err != nil {
		return err
	}
	s.archive.Store(hash, true)
	return nil
}
