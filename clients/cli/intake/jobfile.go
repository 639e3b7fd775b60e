package intake

import (
	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Found is what a file of a job holds: one of an inspection and readings.
type Found struct {
	Inspection *glossladderv1.Inspection
	Readings   []*glossladderv1.Readings
}

// ForJob reads what is recorded in a job: an inspection as [Recommend] does; a list of readings under "readings"; or the readings
// of one panel alone. Places are named as in the requests to record them: "inspection.panels[0]…", "readings[0]…". Problems are
// as for [Recommend]; found and places are nil only if the file is no YAML at all.
func ForJob(src Source, bare Bare) (*Found, *Places, strictyaml.Problems) {
	root, problems := parse(src)
	if root == nil {
		return nil, nil, problems
	}
	r := &reader{bare: bare, places: newPlaces(), problems: problems}
	keys := map[string]bool{}
	for _, entry := range root.Entries() {
		keys[entry.Key] = true
	}
	switch {
	case keys["readings"]:
		var request glossladderv1.RecordReadingsRequest
		r.only(root, &request, "readings")
		return &Found{Readings: request.GetReadings()}, r.places, r.found()
	case keys["panel_id"] || keys["panelId"]:
		readings := &glossladderv1.Readings{}
		r.message(root, readings.ProtoReflect(), "readings", "readings[0]")
		return &Found{Readings: []*glossladderv1.Readings{readings}}, r.places, r.found()
	}
	var request glossladderv1.RecommendRequest
	r.inspectionOrRequest(root, request.ProtoReflect())
	return &Found{Inspection: request.GetInspection()}, r.places, r.found()
}

// only fills one field of a request, from a file that may hold nothing else.
func (r *reader) only(root *strictyaml.Node, request interface{ ProtoReflect() protoreflect.Message }, name protoreflect.Name) {
	into := request.ProtoReflect()
	for _, entry := range root.Entries() {
		if entry.Key != string(name) {
			r.problems = append(r.problems, strictyaml.Problem{
				File: root.File(), Pos: entry.KeyPos, Message: "the file has no field " + shown(entry.Key), Hint: "it holds " + string(name) + " and nothing else",
			})
			continue
		}
		r.field(entry.Value, into, into.Descriptor().Fields().ByName(name), string(name))
	}
}

// TrialForJob reads a trial to record in a job: panel_id, and the trial under "trial". Places are named as in the request:
// "trial.trial.after[0]…".
func TrialForJob(src Source, bare Bare) (*glossladderv1.TrialRecord, *Places, strictyaml.Problems) {
	root, problems := parse(src)
	if root == nil {
		return nil, nil, problems
	}
	r := &reader{bare: bare, places: newPlaces(), problems: problems}
	record := &glossladderv1.TrialRecord{}
	for _, entry := range root.Entries() {
		if entry.Key == "trials" {
			r.problems = append(r.problems, strictyaml.Problem{
				File: root.File(), Pos: entry.KeyPos, Message: "a job records one trial at a time, and knows those before it",
				Hint: "write the new one alone, under trial:",
			})
			return record, r.places, r.found()
		}
	}
	r.message(root, record.ProtoReflect(), "a trial of a job", "trial")
	return record, r.places, r.found()
}

// Instead is what is true in the place of an event that was wrong: one of its fields is set.
type Instead struct {
	Inspection *glossladderv1.Inspection
	Readings   *glossladderv1.Readings
	Trial      *glossladderv1.TrialRecord
	Progress   *glossladderv1.Progress
}

// ForCorrection reads what is true in the place of an event: an inspection or the readings of one panel as [ForJob] does, a trial
// as [TrialForJob] does, or work on a panel, told by its state. Problems are as for [ForJob].
func ForCorrection(src Source, bare Bare) (*Instead, *Places, strictyaml.Problems) {
	root, problems := parse(src)
	if root == nil {
		return nil, nil, problems
	}
	keys := map[string]bool{}
	for _, entry := range root.Entries() {
		keys[entry.Key] = true
	}
	switch {
	case keys["trial"]:
		trial, places, problems := TrialForJob(src, bare)
		return &Instead{Trial: trial}, places, problems
	case keys["state"]:
		r := &reader{bare: bare, places: newPlaces(), problems: problems}
		work := &glossladderv1.Progress{}
		r.message(root, work.ProtoReflect(), "work on a panel", "progress")
		return &Instead{Progress: work}, r.places, r.found()
	}
	found, places, problems := ForJob(src, bare)
	switch {
	case found == nil || found.Inspection != nil:
		return &Instead{Inspection: found.inspection()}, places, problems
	case len(found.Readings) != 1:
		problems = append(problems, root.Problem("one event holds the readings of one panel", "write them alone, with panel_id and time"))
		return &Instead{}, places, problems
	}
	return &Instead{Readings: found.Readings[0]}, places, problems
}

func (f *Found) inspection() *glossladderv1.Inspection {
	if f == nil {
		return nil
	}
	return f.Inspection
}
