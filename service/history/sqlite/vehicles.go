package sqlite

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	lib "modernc.org/sqlite/lib"

	"github.com/glossladder/glossladder/service/history"
)

// SaveVehicle stores a vehicle over the revision expected.
func (s *Store) SaveVehicle(ctx context.Context, v history.Vehicle, expected int64, by history.Request) (earlier *history.Receipt, err error) {
	traits, err := json.Marshal(v.VehicleTraits)
	if err != nil {
		return nil, fmt.Errorf("encode vehicle: %w", err)
	}
	receipt := history.Receipt{Request: by, Target: v.ID, First: v.Revision, Last: v.Revision}
	err = s.writer.do(ctx, func(ctx context.Context, w *session) error {
		if earlier, err = w.once(ctx, receipt); earlier != nil || err != nil {
			return err
		}
		return w.saveVehicle(ctx, &v, expected, string(traits))
	})
	if err != nil {
		return nil, s.fault(err)
	}
	return earlier, nil
}

func (w *session) saveVehicle(ctx context.Context, v *history.Vehicle, expected int64, traits string) error {
	if expected == 0 {
		err := w.exec(ctx, `insert into vehicles (id, revision, label, label_key, traits, created_at, updated_at) values (?, ?, ?, ?, ?, ?, ?)`,
			v.ID, v.Revision, v.Label, history.LabelKey(v.Label), traits, v.CreatedAt.UnixMicro(), v.UpdatedAt.UnixMicro())
		if breaks(err, lib.SQLITE_CONSTRAINT_PRIMARYKEY) {
			return &history.ExistsError{What: "vehicle", ID: v.ID}
		}
		return err
	}
	n, err := w.change(ctx, `update vehicles set revision = ?, label = ?, label_key = ?, traits = ?, updated_at = ? where id = ? and revision = ?`,
		v.Revision, v.Label, history.LabelKey(v.Label), traits, v.UpdatedAt.UnixMicro(), v.ID, expected)
	if err != nil || n == 1 {
		return err
	}
	return w.whyNotVehicle(ctx, v.ID, expected)
}

// whyNotVehicle says why a vehicle was not at the revision expected.
func (w *session) whyNotVehicle(ctx context.Context, id string, expected int64) error {
	var have int64
	err := w.row(ctx, "select revision from vehicles where id = ?", id).Scan(&have)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return &history.NotFoundError{What: "vehicle", ID: id}
	case err != nil:
		return err
	}
	return &history.ConflictError{What: "vehicle", ID: id, Expected: expected, Have: have}
}

// DeleteVehicle removes a vehicle without jobs.
func (s *Store) DeleteVehicle(ctx context.Context, id string, expected int64) error {
	return s.fault(s.writer.do(ctx, func(ctx context.Context, w *session) error {
		n, err := w.change(ctx, "delete from vehicles where id = ? and (? = 0 or revision = ?)", id, expected, expected)
		switch {
		case breaks(err, lib.SQLITE_CONSTRAINT_FOREIGNKEY):
			return &history.InUseError{Vehicle: id}
		case err != nil || n == 1:
			return err
		}
		return w.whyNotVehicle(ctx, id, expected)
	}))
}

const vehicleColumns = "id, revision, label, traits, created_at, updated_at"

func readVehicle(from row) (history.Vehicle, error) {
	var v history.Vehicle
	var traits []byte
	var created, updated int64
	if err := from.Scan(&v.ID, &v.Revision, &v.Label, &traits, &created, &updated); err != nil {
		return v, err
	}
	v.CreatedAt, v.UpdatedAt = time.UnixMicro(created).UTC(), time.UnixMicro(updated).UTC()
	if err := json.Unmarshal(traits, &v.VehicleTraits); err != nil {
		return v, &history.StoreError{Fault: history.Damaged, Err: fmt.Errorf("vehicle %s: %w", v.ID, err)}
	}
	return v, nil
}

// Vehicle gives one.
func (s *Store) Vehicle(ctx context.Context, id string) (history.Vehicle, error) {
	v, err := readVehicle(s.reads.QueryRowContext(ctx, "select "+vehicleColumns+" from vehicles where id = ?", id))
	if errors.Is(err, sql.ErrNoRows) {
		err = &history.NotFoundError{What: "vehicle", ID: id}
	}
	return v, s.fault(err)
}

// afterPrefix follows every text that begins with a prefix: no character comes after the last one.
const afterPrefix = "\U0010FFFF"

// ListVehicles gives up to query.Limit vehicles by label, then by id.
func (s *Store) ListVehicles(ctx context.Context, query history.VehicleQuery) ([]history.Vehicle, error) {
	text, args := "select "+vehicleColumns+" from vehicles where label_key >= ?", []any{query.LabelPrefix}
	if query.LabelPrefix != "" {
		text, args = text+" and label_key < ?", append(args, query.LabelPrefix+afterPrefix)
	}
	if query.After != nil {
		text, args = text+" and (label_key, id) > (?, ?)", append(args, query.After.LabelKey, query.After.ID)
	}
	return collect(ctx, s, readVehicle, text+" order by label_key, id limit ?", append(args, query.Limit)...)
}
