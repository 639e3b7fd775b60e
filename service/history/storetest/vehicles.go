package storetest

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

func vehicleComesBack(t *testing.T, store history.Store) {
	want := saveVehicle(t, store, "car")
	got, err := store.Vehicle(t.Context(), "car")
	require.NoError(t, err)
	assert.Equal(t, want, got)

	bare := history.Vehicle{ID: "bare", Revision: 1, CreatedAt: minutes(1), UpdatedAt: minutes(1), Label: " x "}
	_, err = store.SaveVehicle(t.Context(), bare, 0, history.Request{})
	require.NoError(t, err)
	got, err = store.Vehicle(t.Context(), "bare")
	require.NoError(t, err)
	assert.Equal(t, bare, got, "what was not said stays not said")

	_, err = store.Vehicle(t.Context(), "other")
	assert.Equal(t, &history.NotFoundError{What: "vehicle", ID: "other"}, err)
}

func vehicleRevisions(t *testing.T, store history.Store) {
	v := saveVehicle(t, store, "car")
	_, err := store.SaveVehicle(t.Context(), v, 0, history.Request{})
	assert.Equal(t, &history.ExistsError{What: "vehicle", ID: "car"}, err)

	v.Revision, v.Label, v.UpdatedAt = 2, "red", minutes(9)
	_, err = store.SaveVehicle(t.Context(), v, 1, history.Request{})
	require.NoError(t, err)
	got, err := store.Vehicle(t.Context(), "car")
	require.NoError(t, err)
	assert.Equal(t, v, got)

	_, err = store.SaveVehicle(t.Context(), v, 1, history.Request{})
	assert.Equal(t, &history.ConflictError{What: "vehicle", ID: "car", Expected: 1, Have: 2}, err)
	_, err = store.SaveVehicle(t.Context(), aVehicle("other"), 1, history.Request{})
	assert.Equal(t, &history.NotFoundError{What: "vehicle", ID: "other"}, err)

	assert.Equal(t, &history.ConflictError{What: "vehicle", ID: "car", Expected: 1, Have: 2}, store.DeleteVehicle(t.Context(), "car", 1))
	require.NoError(t, store.DeleteVehicle(t.Context(), "car", 2))
	assert.Equal(t, &history.NotFoundError{What: "vehicle", ID: "car"}, store.DeleteVehicle(t.Context(), "car", 0))
}

func vehicleWithJobsStays(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	mustAppend(t, store, batch("job", 0, booked()))
	assert.Equal(t, &history.InUseError{Vehicle: "car"}, store.DeleteVehicle(t.Context(), "car", 0))
	_, err := store.Vehicle(t.Context(), "car")
	assert.NoError(t, err)
}

// label saves a vehicle under a label.
func label(t *testing.T, store history.Store, id, text string) {
	t.Helper()
	v := aVehicle(id)
	v.Label = text
	_, err := store.SaveVehicle(t.Context(), v, 0, history.Request{})
	require.NoError(t, err)
}

func ids(vehicles []history.Vehicle) []string {
	var out []string
	for _, v := range vehicles {
		out = append(out, v.ID)
	}
	return out
}

func vehiclesInOrder(t *testing.T, store history.Store) {
	// A server set up for a language would put punctuation, spaces and accents elsewhere.
	for id, text := range map[string]string{"a": "zebra", "b": "Zebra crossing", "c": "a-b", "d": "a b", "e": "ab", "f": "äb", "g": "_x", "h": "ab"} {
		label(t, store, id, text)
	}
	all, err := store.ListVehicles(t.Context(), history.VehicleQuery{Limit: 100})
	require.NoError(t, err)
	assert.Equal(t, []string{"g", "d", "c", "e", "h", "a", "b", "f"}, ids(all))
}

func vehiclePrefix(t *testing.T, store history.Store) {
	for id, text := range map[string]string{"a": "Blue estate", "b": "blue van", "c": "BLUEBIRD", "d": "blu", "e": "100% blue", "f": "bl_e"} {
		label(t, store, id, text)
	}
	for _, row := range []struct {
		prefix string
		want   []string
	}{
		{"Blue", []string{"a", "b", "c"}},
		{"blue ", []string{"a", "b"}},
		{"bl_", []string{"f"}},
		{"100%", []string{"e"}},
		{"green", nil},
		{"", []string{"e", "f", "d", "a", "b", "c"}},
	} {
		query := history.VehicleQuery{LabelPrefix: history.LabelPrefix(row.prefix), Limit: 100}
		got, err := store.ListVehicles(t.Context(), query)
		require.NoError(t, err)
		assert.Equal(t, row.want, ids(got), "prefix %q", row.prefix)
	}
}

func vehiclePages(t *testing.T, store history.Store) {
	random := rand.New(rand.NewPCG(4, 4))
	want := map[string]bool{}
	for i := range 57 {
		id := fmt.Sprintf("v%d", i)
		label(t, store, id, fmt.Sprintf("label %d", random.IntN(9)))
		want[id] = true
	}
	query := history.VehicleQuery{LabelPrefix: "label", Limit: 10}
	seen, last := map[string]bool{}, ""
	for {
		page, err := store.ListVehicles(t.Context(), query)
		require.NoError(t, err)
		for _, v := range page {
			require.False(t, seen[v.ID], "%s came twice", v.ID)
			seen[v.ID] = true
			key := history.LabelKey(v.Label) + "\x00" + v.ID
			require.Greater(t, key, last)
			last = key
			query.After = &history.VehicleKey{LabelKey: history.LabelKey(v.Label), ID: v.ID}
		}
		if len(page) < query.Limit {
			break
		}
	}
	assert.Equal(t, want, seen)
}
