package postgres

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"

	"github.com/glossladder/glossladder/service/history"
)

const (
	makeVehicle = `with written as (
			insert into vehicles (id, revision, label, label_key, traits, created_at, updated_at)
			select @target, @last, @label, @key, @traits, @created, @updated where` + newRequest + `
			on conflict (id) do nothing returning id)`

	changeVehicle = `with written as (
			update vehicles set revision = @last, label = @label, label_key = @key, traits = @traits, updated_at = @updated
			where id = @target and revision = @expected and` + newRequest + ` returning id)`
)

// SaveVehicle stores a vehicle over the revision expected.
func (s *Store) SaveVehicle(ctx context.Context, v history.Vehicle, expected int64, by history.Request) (*history.Receipt, error) {
	traits, err := json.Marshal(v.VehicleTraits)
	if err != nil {
		return nil, fmt.Errorf("encode vehicle: %w", err)
	}
	args := named{
		"target": v.ID, "first": v.Revision, "last": v.Revision, "expected": expected, "label": v.Label, "key": history.LabelKey(v.Label),
		"traits": string(traits), "created": v.CreatedAt.UnixMicro(), "updated": v.UpdatedAt.UnixMicro(),
		"scope": by.Scope, "request": by.ID, "print": by.Print,
	}
	statement := s.changeVehicle
	if expected == 0 {
		statement = s.makeVehicle
	}
	done, earlier, err := s.write(ctx, statement, args, by)
	switch {
	case err != nil || done || earlier != nil:
		return earlier, err
	case expected == 0:
		return nil, &history.ExistsError{What: "vehicle", ID: v.ID}
	}
	return nil, s.whyNotVehicle(ctx, v.ID, expected)
}

// whyNotVehicle says why a vehicle was not at the revision expected.
func (s *Store) whyNotVehicle(ctx context.Context, id string, expected int64) error {
	v, err := s.Vehicle(ctx, id)
	if err != nil {
		return err
	}
	return &history.ConflictError{What: "vehicle", ID: id, Expected: expected, Have: v.Revision}
}

// DeleteVehicle removes a vehicle without jobs.
func (s *Store) DeleteVehicle(ctx context.Context, id string, expected int64) error {
	var gone int64
	err := s.persist(ctx, false, func() error {
		tag, err := s.pool.Exec(ctx, "delete from vehicles where id = $1 and ($2::bigint = 0 or revision = $2)", id, expected)
		gone = tag.RowsAffected()
		return err
	})
	switch {
	case broke(err, foreignKeyBroken):
		return &history.InUseError{Vehicle: id}
	case err != nil || gone > 0:
		return err
	}
	return s.whyNotVehicle(ctx, id, expected)
}

const vehicleColumns = "id, revision, label, traits, created_at, updated_at"

func readVehicle(row pgx.CollectableRow) (history.Vehicle, error) {
	var v history.Vehicle
	var traits []byte
	var created, updated int64
	if err := row.Scan(&v.ID, &v.Revision, &v.Label, &traits, &created, &updated); err != nil {
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
	return one(ctx, s, readVehicle, "vehicle", "select "+vehicleColumns+" from vehicles where id = $1", id)
}

// afterPrefix follows every text that begins with a prefix: no character comes after the last one.
const afterPrefix = "\U0010FFFF"

// ListVehicles gives up to query.Limit vehicles by label, then by id.
func (s *Store) ListVehicles(ctx context.Context, query history.VehicleQuery) ([]history.Vehicle, error) {
	var w where
	if query.LabelPrefix != "" {
		w.add("label_key >= $%d and label_key < $%d", query.LabelPrefix, query.LabelPrefix+afterPrefix)
	}
	if query.After != nil {
		w.add("(label_key, id) > ($%d, $%d)", query.After.LabelKey, query.After.ID)
	}
	return collect(ctx, s, readVehicle, fmt.Sprintf("select %s from vehicles%s order by label_key, id limit %d", vehicleColumns, w.String(), query.Limit), w.args...)
}

// KeepRuleSet stores the files of a set under its content hash.
func (s *Store) KeepRuleSet(ctx context.Context, hash string, files []byte, at time.Time) error {
	return s.persist(ctx, true, func() error {
		_, err := s.pool.Exec(ctx, "insert into rule_sets (hash, files, kept_at) values ($1, $2, $3) on conflict (hash) do nothing",
			hash, string(files), at.UnixMicro())
		return err
	})
}

// RuleSet gives the files of a set.
func (s *Store) RuleSet(ctx context.Context, hash string) (files []byte, err error) {
	err = s.persist(ctx, true, func() error {
		return s.pool.QueryRow(ctx, "select files from rule_sets where hash = $1", hash).Scan(&files)
	})
	if errors.Is(err, pgx.ErrNoRows) {
		err = &history.NotFoundError{What: "rule set", ID: hash}
	}
	return files, err
}
