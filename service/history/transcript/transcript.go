package transcript

import (
	"context"
	"errors"
	"fmt"
	"iter"

	"github.com/glossladder/glossladder/service/history"
)

// Transcript is one job with all that belongs to it.
type Transcript struct {
	Vehicle history.Vehicle
	// RuleSets are those that decided in it and are kept, in the order of first decision.
	RuleSets []RuleSet
	// Events are all of them, in order from the first.
	Events []history.Event
}

// RuleSet is the files of a set, as the archive keeps them.
type RuleSet struct {
	Hash  string
	Files []byte
}

// Job is the id of the job.
func (t *Transcript) Job() string { return t.Events[0].Job }

// Of takes the transcript of a job from a store. A job that is not there is a [*history.NotFoundError].
func Of(ctx context.Context, store history.Store, job string) (*Transcript, error) {
	out := &Transcript{}
	for {
		page, err := store.Events(ctx, job, int64(len(out.Events)), history.MostOnPage)
		if err != nil {
			return nil, err
		}
		out.Events = append(out.Events, page...)
		if len(page) < history.MostOnPage {
			break
		}
	}
	booked, ok := out.Events[0].Body.(*history.Booked)
	if !ok {
		return nil, fmt.Errorf("job %s does not begin with its booking", job)
	}
	vehicle, err := store.Vehicle(ctx, booked.Vehicle)
	if err != nil {
		return nil, err
	}
	out.Vehicle = vehicle
	if err := out.ruleSets(ctx, store); err != nil {
		return nil, err
	}
	return out, nil
}

func (t *Transcript) ruleSets(ctx context.Context, store history.Archive) error {
	seen := map[string]bool{}
	for _, e := range t.Events {
		d, ok := e.Body.(*history.Decision)
		if !ok || seen[d.RuleSet] {
			continue
		}
		seen[d.RuleSet] = true
		files, err := store.RuleSet(ctx, d.RuleSet)
		if _, lost := errors.AsType[*history.NotFoundError](err); lost {
			continue
		}
		if err != nil {
			return err
		}
		t.RuleSets = append(t.RuleSets, RuleSet{Hash: d.RuleSet, Files: files})
	}
	return nil
}

// Lines gives the transcript line by line, without line ends.
func (t *Transcript) Lines() iter.Seq2[[]byte, error] {
	return func(yield func([]byte, error) bool) {
		v := &t.Vehicle
		lines := []*line{
			{Transcript: form, Job: t.Job()},
			{Vehicle: &vehicleLine{
				ID: v.ID, Revision: v.Revision, CreatedAt: v.CreatedAt, UpdatedAt: v.UpdatedAt, Label: v.Label, VehicleTraits: v.VehicleTraits,
			}},
		}
		for _, set := range t.RuleSets {
			lines = append(lines, &line{RuleSet: &ruleSetLine{Hash: set.Hash, Files: string(set.Files)}})
		}
		for _, l := range lines {
			if !yield(l.write()) {
				return
			}
		}
		for i := range t.Events {
			l, err := lineOf(&t.Events[i])
			if err != nil {
				yield(nil, err)
				return
			}
			if !yield(l.write()) {
				return
			}
		}
		yield((&line{End: &endLine{Events: int64(len(t.Events))}}).write())
	}
}
