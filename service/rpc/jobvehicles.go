package rpc

import (
	"context"

	"google.golang.org/protobuf/types/known/emptypb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// CreateVehicle makes the record of a vehicle.
func (s *JobServer) CreateVehicle(ctx context.Context, req *glossladderv1.CreateVehicleRequest) (*glossladderv1.VehicleRecord, error) {
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	v := vehicleIn(req.GetVehicle())
	now := history.Moment(s.now())
	v.Revision, v.CreatedAt, v.UpdatedAt = 1, now, now
	entry := s.entryOf(req, &glossladderv1.Entry{RequestId: req.GetRequestId()})
	by := history.Request{Scope: vehicles, ID: entry.RequestID, Print: entry.Print}
	err = withNewID(req.GetVehicleId(), func(id string) error {
		v.ID = id
		if err := v.Check(); err != nil {
			return err
		}
		earlier, err := store.SaveVehicle(ctx, v, 0, by)
		if err != nil || earlier == nil {
			return err
		}
		v, err = store.Vehicle(ctx, earlier.Target)
		return err
	})
	if err != nil {
		return nil, statusOf(err, "")
	}
	return vehicleOut(&v), nil
}

// GetVehicle gives one.
func (s *JobServer) GetVehicle(ctx context.Context, req *glossladderv1.GetVehicleRequest) (*glossladderv1.VehicleRecord, error) {
	id, store, _, err := s.openVehicle(ctx, "name", req.GetName())
	if err != nil {
		return nil, statusOf(err, "")
	}
	v, err := store.Vehicle(ctx, id)
	if err != nil {
		return nil, statusOf(err, "")
	}
	return vehicleOut(&v), nil
}

func (s *JobServer) openVehicle(ctx context.Context, field, name string) (id string, store history.Store, book *history.Book, err error) {
	var wrong faults
	id = wrong.id(field, vehicles, name)
	if err := wrong.asError(); err != nil {
		return "", nil, nil, err
	}
	store, book, err = s.record.Open(ctx)
	return id, store, book, err
}

// ListVehicles gives them by label.
func (s *JobServer) ListVehicles(ctx context.Context, req *glossladderv1.ListVehiclesRequest) (*glossladderv1.ListVehiclesResponse, error) {
	query := history.VehicleQuery{LabelPrefix: history.LabelPrefix(req.GetLabelPrefix()), Limit: history.PageSize(int(req.GetPageSize()))}
	question := []any{vehicles, query.LabelPrefix}
	var after history.VehicleKey
	more, err := history.ReadPage(req.GetPageToken(), question, &after)
	if err != nil {
		return nil, statusOf(err, "")
	}
	if more {
		query.After = &after
	}
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	found, next, err := onePage(&query.Limit, question, func() ([]history.Vehicle, error) { return store.ListVehicles(ctx, query) },
		func(last *history.Vehicle) any {
			return history.VehicleKey{LabelKey: history.LabelKey(last.Label), ID: last.ID}
		})
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.ListVehiclesResponse{NextPageToken: next}
	for i := range found {
		out.Vehicles = append(out.Vehicles, vehicleOut(&found[i]))
	}
	return out, nil
}

// UpdateVehicle changes the fields that its mask names.
func (s *JobServer) UpdateVehicle(ctx context.Context, req *glossladderv1.UpdateVehicleRequest) (*glossladderv1.VehicleRecord, error) {
	m := req.GetVehicle()
	var wrong faults
	id := wrong.id("vehicle.name", vehicles, m.GetName())
	expected := wrong.etag("vehicle.etag", m.GetEtag())
	change := wrong.mask(req.GetUpdateMask(), map[string]bool{
		"label": m.GetLabel() != "", "size": m.GetSize() != 0, "built_year": m.BuiltYear != nil, "paint": m.Paint != nil, "notes": m.GetNotes() != "",
	})
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	entry := s.entryOf(req, &glossladderv1.Entry{RequestId: req.GetRequestId()})
	edit := vehicleEdit{id: id, expected: expected, now: entry.Now, by: history.Request{Scope: vehicles + "/" + id, ID: entry.RequestID, Print: entry.Print}}
	v, err := edit.do(ctx, store, func(v *history.Vehicle) { changeVehicle(v, vehicleIn(m), change) })
	if err != nil {
		return nil, statusOf(err, "")
	}
	return vehicleOut(&v), nil
}

func changeVehicle(v *history.Vehicle, given history.Vehicle, change map[string]bool) {
	if change["label"] {
		v.Label = given.Label
	}
	if change["size"] {
		v.Size = given.Size
	}
	if change["built_year"] {
		v.BuiltYear = given.BuiltYear
	}
	if change["paint"] {
		v.Paint = given.Paint
	}
	if change["notes"] {
		v.Notes = given.Notes
	}
}

// DeleteVehicle removes the record of a vehicle that has no jobs.
func (s *JobServer) DeleteVehicle(ctx context.Context, req *glossladderv1.DeleteVehicleRequest) (*emptypb.Empty, error) {
	var wrong faults
	id, expected := wrong.id("name", vehicles, req.GetName()), wrong.etag("etag", req.GetEtag())
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	if err := store.DeleteVehicle(ctx, id, expected); err != nil {
		return nil, statusOf(err, "")
	}
	return &emptypb.Empty{}, nil
}

// GetVehicleFilm tells what all visits together have taken off a vehicle.
func (s *JobServer) GetVehicleFilm(ctx context.Context, req *glossladderv1.GetVehicleFilmRequest) (*glossladderv1.VehicleFilm, error) {
	id, _, book, err := s.openVehicle(ctx, "name", req.GetName())
	if err != nil {
		return nil, statusOf(err, "")
	}
	lives, err := book.Life(ctx, id, "")
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.VehicleFilm{Vehicle: req.GetName()}
	for i := range lives {
		out.Panels = append(out.Panels, lifeOut(&lives[i]))
	}
	return out, nil
}
