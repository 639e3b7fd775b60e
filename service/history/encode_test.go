package history_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

func TestStoredShapesStayAsTheyAre(t *testing.T) {
	for name, row := range map[string]struct {
		body history.Body
		want string
	}{
		"booked":     {&history.Booked{Vehicle: "car", Details: history.Details{Label: "l", BookedFor: at(0)}}, `{"vehicle":"car","label":"l","booked_for":"2026-05-04T09:00:00Z"}`},
		"inspection": {inspected("roof"), `{"panels":[{"id":"roof","substrate":"steel"}],"gauge":{"kind":"combined","accuracy_um":1,"accuracy_pct":1,"resolution_um":0.1}}`},
		"readings":   {read("roof", history.After), `{"panel":"roof","when":"after","panel_c":21}`},
		"trial":      {&history.Trial{Panel: "roof", Step: "cut", Minutes: ptr(0.0)}, `{"panel":"roof","step":"cut","minutes":0}`},
		"decision": {
			judged(4, "roof", &history.Taken{Removal: history.Removal{HighUm: 1}, Measured: true}),
			`{"rule_set":"set","trial":4,"panels":[{"panel":"roof","verdict":"accept","taken":{"low_um":0,"likely_um":0,"high_um":1,"measured":true}}]}`,
		},
		"plan": {planned("roof", "none"), `{"panels":[{"panel":"roof","ladder":"none"}]}`},
		"plan with areas and crew": {
			withAreas(planned("roof", "none"), &history.Crew{People: ptr(2), DayHours: ptr(7.5)}, history.MeasuredArea{Panel: "roof", M2: 1.85}),
			`{"panels":[{"panel":"roof","ladder":"none"}],"measured":{"areas":[{"panel":"roof","m2":1.85}]},"crew":{"people":2,"day_hours":7.5}}`,
		},
		"plan without areas any more": {withAreas(planned("roof", "none"), nil), `{"panels":[{"panel":"roof","ladder":"none"}],"measured":{}}`},
		"progress":                    {worked("roof", "cut", history.UnderWay), `{"panel":"roof","step":"cut","state":"under-way"}`},
		"finished":                    {&history.Finished{}, `{}`},
		"handed over":                 {&history.HandedOver{Closing: history.Closing{Note: "n"}}, `{"note":"n"}`},
		"withdrawal":                  {corrected(3, nil), `{"sequence":3,"why":"typed wrongly"}`},
		"correction":                  {corrected(3, tried("roof", "cut")), `{"sequence":3,"why":"typed wrongly","instead":{"kind":"trial","version":1,"body":{"panel":"roof","step":"cut"}}}`},
	} {
		t.Run(name, func(t *testing.T) {
			kind, version, data, err := history.Encode(row.body)
			require.NoError(t, err)
			assert.Equal(t, 1, version)
			assert.Equal(t, row.want, string(data))
			back, err := history.Decode(kind, version, data)
			require.NoError(t, err)
			assert.Equal(t, row.body, back)
		})
	}
}

func TestWhatALaterProgramWroteIsRefused(t *testing.T) {
	_, err := history.Decode(history.KindTrial, 2, []byte(`{}`))
	assert.EqualError(t, err, "trial is of version 2, and this program reads 1; use a later program")
	_, err = history.Decode("wash", 1, []byte(`{}`))
	assert.EqualError(t, err, `"wash" is no kind of event that this program knows; use a later program`)
	_, err = history.Decode(history.KindTrial, 1, []byte(`{"panel":"roof","step":"cut","colour":"red"}`))
	assert.NoError(t, err, "a field more does not hurt")
}

// FuzzReplay feeds stored bodies, read from anything, to a job: whatever is on record, a job comes of it, what it took rises from
// low to high, and what it allows next it can take.
func FuzzReplay(f *testing.F) {
	for _, body := range wholeVisit() {
		kind, _, data, err := history.Encode(body)
		require.NoError(f, err)
		f.Add(string(kind), data, string(history.KindTrial), []byte(`{"panel":"bonnet","step":"cut"}`))
		f.Add(string(history.KindCorrection), []byte(`{"sequence":4,"why":"w"}`), string(kind), data)
	}
	f.Fuzz(func(t *testing.T, kind string, data []byte, next string, nextData []byte) {
		first, err := history.Decode(history.Kind(kind), 1, data)
		if err != nil {
			return
		}
		second, err := history.Decode(history.Kind(next), 1, nextData)
		if err != nil {
			return
		}
		visit := wholeVisit()
		job := jobOf(append(visit[:9:9], first, second)...)
		for _, p := range job.Panels {
			if taken := p.Taken(); taken != nil && taken.HighUm >= 0 && taken.HighUm < 1e6 {
				assert.LessOrEqual(t, taken.LowUm, taken.HighUm)
			}
		}
		if jobOf(visit[:9]...).Allows(first) == nil {
			_, _, again, err := history.Encode(first)
			require.NoError(t, err)
			_, err = history.Decode(history.Kind(kind), 1, again)
			require.NoError(t, err)
		}
	})
}

func TestPageTokens(t *testing.T) {
	type question struct{ Vehicle string }
	token, err := history.NextPage(question{"car"}, history.JobKey{CreatedAt: at(3), ID: "job"})
	require.NoError(t, err)
	var after history.JobKey
	more, err := history.ReadPage(token, question{"car"}, &after)
	require.NoError(t, err)
	assert.True(t, more)
	assert.Equal(t, history.JobKey{CreatedAt: at(3), ID: "job"}, after)

	more, err = history.ReadPage("", question{"car"}, &after)
	require.NoError(t, err)
	assert.False(t, more)
	_, err = history.ReadPage(token, question{"van"}, &after)
	assert.EqualError(t, err, "page_token was given for another question; ask the same with every page; leave it out to begin with the first page")
	for _, wrong := range []string{"x", "????", "e30x", token[:len(token)-3]} {
		_, err = history.ReadPage(wrong, question{"car"}, &after)
		var told *history.PageTokenError
		assert.ErrorAs(t, err, &told, wrong)
	}
}

func FuzzReadPage(f *testing.F) {
	token, err := history.NextPage("q", history.VehicleKey{LabelKey: "a", ID: "b"})
	require.NoError(f, err)
	f.Add(token)
	f.Add("e30")
	f.Fuzz(func(t *testing.T, token string) {
		var after history.VehicleKey
		more, err := history.ReadPage(token, "q", &after)
		var told *history.PageTokenError
		if err != nil && !assert.ErrorAs(t, err, &told) || more != (token != "" && err == nil) {
			t.Fatalf("token %q: more %v, err %v", token, more, err)
		}
	})
}
