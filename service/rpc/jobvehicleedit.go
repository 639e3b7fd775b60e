package rpc

import (
	"context"
	"time"

	"github.com/glossladder/glossladder/service/history"
)

// vehicleEdit is a change of a vehicle's record, at the revision expected; 0 is whatever it is.
type vehicleEdit struct {
	id       string
	expected int64
	now      time.Time
	by       history.Request
}

// editTries is how often an edit without an etag is tried again when somebody else was quicker.
const editTries = 20

// do changes the record, or gives it as it stands when the request was done before.
func (e vehicleEdit) do(ctx context.Context, store history.Store, change func(*history.Vehicle)) (v history.Vehicle, err error) {
	done, err := store.Receipt(ctx, e.by.Scope, e.by.ID)
	if err != nil {
		return v, err
	}
	if done != nil {
		return e.again(ctx, store, done)
	}
	for range editTries {
		if v, err = store.Vehicle(ctx, e.id); err != nil {
			return v, err
		}
		if e.expected != 0 && e.expected != v.Revision {
			return v, &history.ConflictError{What: "vehicle", ID: e.id, Expected: e.expected, Have: v.Revision}
		}
		was := v.Revision
		change(&v)
		v.Revision = was + 1
		if now := history.Moment(e.now); now.After(v.UpdatedAt) { // the clock may have been set back
			v.UpdatedAt = now
		}
		if err := v.Check(); err != nil {
			return v, err
		}
		var earlier *history.Receipt
		earlier, err = store.SaveVehicle(ctx, v, was, e.by)
		switch {
		case err == nil && earlier != nil:
			return e.again(ctx, store, earlier)
		case err == nil || !lost(err) || e.expected != 0:
			return v, err
		}
	}
	return v, err
}

func (e vehicleEdit) again(ctx context.Context, store history.Store, done *history.Receipt) (history.Vehicle, error) {
	if done.Print != e.by.Print {
		return history.Vehicle{}, &history.RequestReusedError{ID: e.by.ID}
	}
	return store.Vehicle(ctx, e.id)
}
