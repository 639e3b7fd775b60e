package intake

import (
	"fmt"
	"slices"
	"strconv"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// OnRecord tells of readings of a file that a job holds already.
type OnRecord struct {
	PanelID string
	Time    glossladderv1.ReadingsTime
	Step    glossladderv1.Step
	// Values is how many of them, in the events Sequences.
	Values    int
	Sequences []int64
}

// fewestKnown is how many readings of a file have to agree before it counts as one that goes on where another ended. Two readings
// that agree by chance are no wonder; three in a row at their spots are.
const fewestKnown = 3

// LeaveOut takes out what a job's events hold already, and tells what that was: readings of a panel that are on record as they
// are, wherever they came from; and, of a gauge that writes everything it ever read, the readings that were imported before.
// What a correction withdrew is on record no more.
func (g *Gauge) LeaveOut(events []*glossladderv1.JobEvent) []OnRecord {
	on := standing(events)
	matches := make([]match, len(g.Readings))
	agree := 0
	for i, r := range g.Readings {
		matches[i] = matchOf(r, on)
		agree += matches[i].values
	}
	var out []OnRecord
	places := newPlaces()
	var kept []*glossladderv1.Readings
	for i, r := range g.Readings {
		m, fresh := matches[i], r
		if m.whole || m.values > 0 && agree >= fewestKnown {
			out = append(out, OnRecord{PanelID: r.GetPanelId(), Time: r.GetTime(), Step: r.GetStep(), Values: m.values, Sequences: m.sequences})
			fresh = trimmed(r, m.known)
		}
		if count(valuesOf(fresh)) == 0 && count(valuesOf(r)) > 0 {
			continue
		}
		movePlaces(g.Places, places, "readings["+strconv.Itoa(i)+"]", "readings["+strconv.Itoa(len(kept))+"]", r, fresh)
		kept = append(kept, fresh)
	}
	g.Readings, g.Places = kept, places
	return out
}

// recorded is readings as they stand in a job.
type recorded struct {
	sequence int64
	*glossladderv1.Readings
}

// standing are the readings of a job with its corrections.
func standing(events []*glossladderv1.JobEvent) []recorded {
	corrections := map[int64]*glossladderv1.Correction{}
	for _, e := range events {
		if c := e.GetCorrection(); c != nil {
			corrections[c.GetSequence()] = c // a later one takes the earlier one's place
		}
	}
	var out []recorded
	for _, e := range events {
		r := e.GetReadings()
		if c := corrections[e.GetSequence()]; c != nil {
			r = c.GetReadings()
		}
		if r != nil {
			out = append(out, recorded{e.GetSequence(), r})
		}
	}
	return out
}

// match is what of the readings of a panel is on record.
type match struct {
	// known are the first of each list, which are on record; values is how many of them.
	known     map[string][]float64
	values    int
	sequences []int64
	// whole is true when one event holds exactly these readings.
	whole bool
}

func matchOf(r *glossladderv1.Readings, on []recorded) match {
	mine, all := valuesOf(r), match{known: map[string][]float64{}}
	for _, o := range on {
		if o.GetPanelId() != r.GetPanelId() || o.GetTime() != r.GetTime() || o.GetStep() != r.GetStep() {
			continue
		}
		theirs := valuesOf(o.Readings)
		if begins(mine, theirs) && begins(theirs, mine) {
			return match{known: mine, values: count(mine), sequences: []int64{o.sequence}, whole: true}
		}
		if o.GetSource() == "" {
			continue
		}
		all.sequences = append(all.sequences, o.sequence)
		for key, values := range theirs {
			if had := all.known[key]; len(values) < len(had) || !slices.Equal(values[:len(had)], had) {
				values = append(had, values...)
			}
			all.known[key] = values // or the whole list was recorded again, with more behind it
		}
	}
	switch {
	case begins(all.known, mine):
		all.values = count(all.known)
		return all
	case begins(mine, all.known):
		return match{known: mine, values: count(mine), sequences: all.sequences}
	}
	return match{}
}

// lists calls for every list of readings: its key, its spot, its field, and its path from the readings.
func lists(r *glossladderv1.Readings, each func(key string, spot protoreflect.Message, field protoreflect.FieldDescriptor, path string)) {
	for _, part := range []protoreflect.Name{"film", "gloss"} {
		spots := r.ProtoReflect().Get(r.ProtoReflect().Descriptor().Fields().ByName(part)).List()
		for i := range spots.Len() {
			spot := spots.Get(i).Message()
			name := spot.Get(spot.Descriptor().Fields().ByName("spot")).String()
			for k := range spot.Descriptor().Fields().Len() {
				field := spot.Descriptor().Fields().Get(k)
				if field.IsList() && field.Kind() == protoreflect.DoubleKind {
					each(fmt.Sprintf("%s/%q/%s", part, name, field.Name()), spot, field, fmt.Sprintf(".%s[%d]", part, i))
				}
			}
		}
	}
}

func valuesOf(r *glossladderv1.Readings) map[string][]float64 {
	out := map[string][]float64{}
	lists(r, func(key string, spot protoreflect.Message, field protoreflect.FieldDescriptor, _ string) {
		list := spot.Get(field).List()
		for i := range list.Len() {
			out[key] = append(out[key], list.Get(i).Float())
		}
	})
	return out
}

// begins says whether every list of a is the beginning of b's.
func begins(a, b map[string][]float64) bool {
	for key, values := range a {
		if len(b[key]) < len(values) || !slices.Equal(values, b[key][:len(values)]) {
			return false
		}
	}
	return true
}

func count(lists map[string][]float64) int {
	n := 0
	for _, values := range lists {
		n += len(values)
	}
	return n
}

// trimmed is what is news of readings. Before and after the work a spot counts by its latest readings, so that one with more of
// them is recorded whole; during the work each reading is a moment of its own, and only the new ones are.
func trimmed(r *glossladderv1.Readings, known map[string][]float64) *glossladderv1.Readings {
	out, mine := proto.CloneOf(r), valuesOf(r)
	news := map[string]bool{}
	lists(out, func(key string, spot protoreflect.Message, field protoreflect.FieldDescriptor, path string) {
		news[path] = news[path] || len(mine[key]) > len(known[key])
		if r.GetTime() != glossladderv1.ReadingsTime_READINGS_TIME_DURING {
			return
		}
		left := mine[key][len(known[key]):]
		spot.Clear(field)
		for _, v := range left {
			spot.Mutable(field).List().Append(protoreflect.ValueOfFloat64(v))
		}
	})
	out.Film = withNews(out.GetFilm(), news, ".film")
	out.Gloss = withNews(out.GetGloss(), news, ".gloss")
	return out
}

func withNews[S any](spots []S, news map[string]bool, part string) []S {
	var out []S
	for i, spot := range spots {
		if news[fmt.Sprintf("%s[%d]", part, i)] {
			out = append(out, spot)
		}
	}
	return out
}

// movePlaces gives the fields of what was left of readings the places that they had before.
func movePlaces(from, to *Places, was, is string, r, left *glossladderv1.Readings) {
	put := func(old, now string) {
		if at, exact, ok := from.Of(was + old); ok && exact {
			to.put(is+now, at)
		}
	}
	for _, field := range []string{"", ".panel_id", ".time", ".step", ".panel_c"} {
		put(field, field)
	}
	old, before := map[string]string{}, valuesOf(r)
	lists(r, func(key string, _ protoreflect.Message, _ protoreflect.FieldDescriptor, path string) { old[key] = path })
	lists(left, func(key string, spot protoreflect.Message, field protoreflect.FieldDescriptor, path string) {
		put(old[key], path)
		put(old[key]+".spot", path+".spot")
		list := spot.Get(field).List()
		gone := len(before[key]) - list.Len()
		for i := range list.Len() {
			name := "." + string(field.Name())
			put(fmt.Sprintf("%s%s[%d]", old[key], name, i+gone), fmt.Sprintf("%s%s[%d]", path, name, i))
		}
	})
}
