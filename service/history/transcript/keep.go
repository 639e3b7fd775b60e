package transcript

import (
	"bytes"
	"context"
	"errors"
	"strconv"
	"time"

	"github.com/glossladder/glossladder/service/history"
)

// Kept is what a store gained from a transcript.
type Kept struct {
	Job *history.Job
	// Added is how many events were not there before.
	Added int
	// VehicleMade is true when the vehicle was not there before.
	VehicleMade bool
}

// DiffersError tells of a job that went another way in the store than in the transcript.
type DiffersError struct {
	Job string
	// Sequence is the first event that is another one.
	Sequence int64
}

func (e *DiffersError) Error() string {
	return "job " + e.Job + " is on record here already and went another way from event " + strconv.FormatInt(e.Sequence, 10) + " on; export that one too and compare"
}

// Keep stores a transcript. A job that is there already gains the events that it lacks, all or none; one that differs is a
// [*DiffersError], and nothing is stored. A vehicle that is there stays as it is. If storing ends between the vehicle and the
// job, the vehicle is there alone, and storing again goes on from there. Other errors are the store's.
func (t *Transcript) Keep(ctx context.Context, store history.Store, now time.Time) (*Kept, error) {
	book := history.NewBook(store)
	have, err := book.Job(ctx, t.Job())
	if _, missing := errors.AsType[*history.NotFoundError](err); missing {
		have, err = &history.Job{}, nil
	}
	if err != nil {
		return nil, err
	}
	if err := t.follows(have); err != nil {
		return nil, err
	}
	out := &Kept{Job: have, Added: max(len(t.Events)-len(have.Events()), 0)}
	for _, set := range t.RuleSets {
		if err := store.KeepRuleSet(ctx, set.Hash, set.Files, now); err != nil {
			return nil, err
		}
	}
	if out.Added == 0 {
		return out, nil
	}
	if out.VehicleMade, err = t.keepVehicle(ctx, store); err != nil {
		return nil, err
	}
	out.Job = history.Replay(t.Events)
	_, err = store.Append(ctx, history.Batch{
		Expected: have.Sequence, Events: t.Events[len(have.Events()):], After: out.Job.Summary, Claim: history.Claimed(have, out.Job),
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

func (t *Transcript) keepVehicle(ctx context.Context, store history.Store) (made bool, err error) {
	_, err = store.Vehicle(ctx, t.Vehicle.ID)
	if _, missing := errors.AsType[*history.NotFoundError](err); !missing {
		return false, err
	}
	_, err = store.SaveVehicle(ctx, t.Vehicle, 0, history.Request{})
	if _, raced := errors.AsType[*history.ExistsError](err); raced {
		return false, nil
	}
	return err == nil, err
}

// follows complains unless one of the two jobs goes on where the other ends.
func (t *Transcript) follows(have *history.Job) error {
	for i, e := range have.Events() {
		if i >= len(t.Events) {
			return nil
		}
		same, err := equal(&e, &t.Events[i])
		if err != nil {
			return err
		}
		if !same {
			return &DiffersError{Job: have.ID, Sequence: e.Sequence}
		}
	}
	return nil
}

func equal(a, b *history.Event) (bool, error) {
	left, err := lineOf(a)
	if err != nil {
		return false, err
	}
	right, err := lineOf(b)
	if err != nil {
		return false, err
	}
	l, err := left.write()
	if err != nil {
		return false, err
	}
	r, err := right.write()
	return bytes.Equal(l, r), err
}
