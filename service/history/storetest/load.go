package storetest

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

// Reading is a batch of one event of ordinary size on a job, as a gauge by the car gives it: the unit of the durable event rate.
func Reading(job string, expected int64) history.Batch {
	b := batch(job, expected, &history.Readings{
		Panel: "bonnet", When: history.During, Step: "polish",
		Gloss: []history.GlossSpot{{Spot: "a", At20GU: []float64{82.1, 82.4, 82.2}, At60GU: []float64{90.1, 90.4, 90.2}}},
		Film:  []history.FilmSpot{{Spot: "a", TotalUm: []float64{104.1, 104.4, 104.2}}},
	})
	b.Events[0].RequestID = fmt.Sprintf("%s-%d", job, expected)
	b.Request = request("jobs/"+job, b.Events[0].RequestID, "print")
	b.Events[0].Document = []byte(`{"panelId":"bonnet","time":"READINGS_TIME_DURING","step":"STEP_POLISH","gloss":[{"spot":"a","at20Gu":[82.1,82.4,82.2],"at60Gu":[90.1,90.4,90.2]}],"film":[{"spot":"a","totalUm":[104.1,104.4,104.2]}]}`)
	return b
}

// Fill stores jobs of ten events each, several stages and vehicles among them.
func Fill(b *testing.B, store history.Store, jobs int) {
	b.Helper()
	ctx := b.Context()
	for i := range 100 {
		v := aVehicle(fmt.Sprintf("car-%d", i))
		_, err := store.SaveVehicle(ctx, v, 0, history.Request{})
		require.NoError(b, err)
	}
	stages := history.Stages()
	errs := make(chan error, jobs)
	next := make(chan int)
	for range 64 { // many at once, so that commits are shared
		go func() {
			for i := range next {
				errs <- fillJob(b, store, i, stages[i%len(stages)])
			}
		}()
	}
	go func() {
		defer close(next)
		for i := range jobs {
			next <- i
		}
	}()
	for range jobs {
		require.NoError(b, <-errs)
	}
}

func fillJob(b *testing.B, store history.Store, i int, stage history.Stage) error {
	id := fmt.Sprintf("job-%06d", i)
	made := batch(id, 0, booked())
	for k := range int64(9) {
		made.Events = append(made.Events, Reading(id, k+1).Events...)
	}
	made.After.Vehicle, made.After.Stage, made.After.Sequence = fmt.Sprintf("car-%d", i%100), stage, 10
	made.After.CreatedAt = minutes(0).Add(time.Duration(i) * time.Second)
	made.After.UpdatedAt = made.After.CreatedAt
	_, err := store.Append(b.Context(), made)
	return err
}

// ListPages lists pages of a store that [Fill] filled with so many jobs: the first, one from the middle and filtered ones.
func ListPages(b *testing.B, store history.Store, jobs int) {
	middle := minutes(0).Add(time.Duration(jobs/2) * time.Second)
	for name, query := range map[string]history.JobQuery{
		"first page":            {},
		"page in the middle":    {After: &history.JobKey{CreatedAt: middle, ID: "job"}},
		"open jobs, mid-way":    {After: &history.JobKey{CreatedAt: middle, ID: "job"}, Stages: history.Stages()[:6]},
		"one vehicle's":         {Vehicle: "car-7"},
		"one vehicle's in work": {Vehicle: "car-7", Stages: []history.Stage{history.StageInWork}},
	} {
		query.Limit = 50
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				page, err := store.ListJobs(b.Context(), query)
				require.NoError(b, err)
				if query.Vehicle == "" {
					require.Len(b, page, 50)
				}
			}
		})
	}
}

// Turn stores events by the raw driver and by the store in turns, so that both meet the same disk and the same neighbours, and
// reports how many events the store makes durable for each hundred of the driver's. Both get the number of the turn, from 1.
func Turn(b *testing.B, raw, store func(turn int64) error) {
	var rawTook, storeTook time.Duration
	turn := int64(0)
	for b.Loop() {
		turn++
		start := time.Now()
		require.NoError(b, raw(turn))
		between := time.Now()
		require.NoError(b, store(turn))
		rawTook, storeTook = rawTook+between.Sub(start), storeTook+time.Since(between)
	}
	b.ReportMetric(float64(turn)/rawTook.Seconds(), "raw-turns/s")
	b.ReportMetric(float64(turn)/storeTook.Seconds(), "store-turns/s")
	b.ReportMetric(100*rawTook.Seconds()/storeTook.Seconds(), "%-of-raw")
}
