package rpc

import (
	"context"
	"strconv"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/history"
)

func summaryOut(j *history.Summary, vehicleLabel string) *glossladderv1.Job {
	return &glossladderv1.Job{
		Name: jobs + "/" + j.ID, Etag: etagOf(j.Sequence), Vehicle: vehicles + "/" + j.Vehicle, VehicleLabel: vehicleLabel, Stage: word[glossladderv1.JobStage](string(j.Stage)),
		Label: j.Label, Notes: j.Notes, BookTime: timeOut(j.BookedFor), CreateTime: timeOut(j.CreatedAt), UpdateTime: timeOut(j.UpdatedAt),
		LastSequence: j.Sequence,
	}
}

// jobOut is a whole job.
func jobOut(ctx context.Context, store history.Store, j *history.Job) (*glossladderv1.Job, error) {
	vehicle, err := store.Vehicle(ctx, j.Vehicle)
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := summaryOut(&j.Summary, vehicle.Label)
	out.Bay, out.Crew = bayBookedOut(j.Bay), crewOut(j.Crew)
	kept := documents{}
	if out.Whole, err = kept.wholeOut(j, &vehicle); err != nil {
		return nil, statusOf(err, "")
	}
	for _, p := range j.Panels {
		panel, err := kept.panel(j.ID, p)
		if err != nil {
			return nil, statusOf(err, "")
		}
		out.Panels = append(out.Panels, panel)
	}
	if out.Advice, err = kept.standing(j); err != nil {
		return nil, statusOf(err, "")
	}
	coursesOut(j, out)
	return out, nil
}

// documents are the messages of a job's events, each read once.
type documents struct {
	inspections     map[int64]*glossladderv1.Inspection
	recommendations map[int64]*glossladderv1.Recommendation
}

func (d *documents) inspection(p *history.Panel) (*glossladderv1.Inspection, error) {
	if known := d.inspections[p.FoundAt]; known != nil {
		return known, nil
	}
	m, err := documentInto(p.FoundDocument, &glossladderv1.Inspection{})
	if d.inspections == nil {
		d.inspections = map[int64]*glossladderv1.Inspection{}
	}
	d.inspections[p.FoundAt] = m
	return m, err
}

func (d *documents) recommendation(made *history.DecisionMade) (*glossladderv1.Recommendation, error) {
	if known := d.recommendations[made.Sequence]; known != nil {
		return known, nil
	}
	m, err := documentInto(made.Document, &glossladderv1.Recommendation{})
	if d.recommendations == nil {
		d.recommendations = map[int64]*glossladderv1.Recommendation{}
	}
	d.recommendations[made.Sequence] = m
	return m, err
}

func (d *documents) panel(job string, p *history.Panel) (*glossladderv1.JobPanel, error) {
	out := &glossladderv1.JobPanel{PanelId: p.ID, Inspection: p.FoundAt, Ladder: word[glossladderv1.Ladder](p.Ladder), AreaM2: p.AreaM2}
	if p.FoundAt > 0 {
		inspection, err := d.inspection(p)
		if err != nil {
			return nil, err
		}
		out.Found = panelOf(inspection, p.ID)
	}
	if p.Advice != nil {
		said, err := d.recommendation(p.Advice)
		if err != nil {
			return nil, err
		}
		out.Advice = adviceOf(said, p.ID)
	}
	if p.Verdict != nil {
		var err error
		if out.Verdict, err = documentInto(p.Verdict.Document, &glossladderv1.Verdict{}); err != nil {
			return nil, err
		}
	}
	for _, w := range p.Steps {
		out.Steps = append(out.Steps, workOut(&w))
	}
	if taken := p.Taken(); taken != nil {
		out.Film = visitOut(job, taken)
	}
	return out, readDocuments(out, p)
}

// readDocuments fills in what was tried and read.
func readDocuments(out *glossladderv1.JobPanel, p *history.Panel) error {
	for _, made := range p.Trials {
		trial, err := documentInto(made.Document, &glossladderv1.TrialRecord{})
		if err != nil {
			return err
		}
		out.Trials = append(out.Trials, trial.GetTrial())
	}
	for taken, into := range map[*[]history.ReadingsTaken]*[]*glossladderv1.Readings{&p.During: &out.During, &p.After: &out.After} {
		for _, r := range *taken {
			readings, err := documentInto(r.Document, &glossladderv1.Readings{})
			if err != nil {
				return err
			}
			*into = append(*into, readings)
		}
	}
	return nil
}

func panelOf(inspection *glossladderv1.Inspection, id string) *glossladderv1.Panel {
	for _, panel := range inspection.GetPanels() {
		if panel.GetId() == id {
			return panel
		}
	}
	return nil
}

func adviceOf(said *glossladderv1.Recommendation, panel string) *glossladderv1.PanelAdvice {
	for _, advice := range said.GetPanels() {
		if advice.GetPanelId() == panel {
			return advice
		}
	}
	return nil
}

func workOut(w *history.StepWork) *glossladderv1.StepProgress {
	return &glossladderv1.StepProgress{
		Step: word[glossladderv1.Step](w.Step), State: word[glossladderv1.StepState](string(w.State)),
		SectionsDone: narrow(w.SectionsDone), SectionsTotal: narrow(w.SectionsTotal), Minutes: w.Minutes,
	}
}

func crewOut(c *history.Crew) *glossladderv1.Crew {
	if c == nil {
		return nil
	}
	return &glossladderv1.Crew{People: narrow(c.People), DayHours: c.DayHours}
}

func narrow(n *int) *int32 {
	if n == nil {
		return nil
	}
	return ptr(int32(*n))
}

func lifeOut(life *history.PanelLife) *glossladderv1.PanelFilm {
	out := &glossladderv1.PanelFilm{PanelId: life.Panel, Life: removalOut(life.Taken), Incomplete: life.Incomplete}
	for i := range life.Visits {
		out.Visits = append(out.Visits, visitOut(life.Visits[i].Job, &life.Visits[i].FilmTaken))
	}
	return out
}

func visitOut(job string, taken *history.FilmTaken) *glossladderv1.VisitFilm {
	out := &glossladderv1.VisitFilm{Job: jobs + "/" + job, Taken: removalOut(taken.Removal), Measured: taken.Measured}
	for _, step := range taken.Unaccounted {
		out.Unaccounted = append(out.Unaccounted, word[glossladderv1.Step](step))
	}
	return out
}

func removalOut(r film.Removal) *glossladderv1.Removal {
	return &glossladderv1.Removal{LowUm: float64(r.LowUm), LikelyUm: float64(r.LikelyUm), HighUm: float64(r.HighUm)}
}

// eventsOut are events of one job with what corrects them; all are all events of the job that are known.
func eventsOut(events, all []history.Event) ([]*glossladderv1.JobEvent, error) {
	corrected := map[int64]int64{}
	for i := range all {
		if c, ok := all[i].Body.(*history.Correction); ok {
			corrected[c.Sequence] = all[i].Sequence
		}
	}
	var out []*glossladderv1.JobEvent
	for i := range events {
		m, err := eventOut(&events[i])
		if err != nil {
			return nil, err
		}
		m.CorrectedBy = corrected[events[i].Sequence]
		out = append(out, m)
	}
	return out, nil
}

func eventOut(e *history.Event) (*glossladderv1.JobEvent, error) {
	out := &glossladderv1.JobEvent{
		Name: jobs + "/" + e.Job + "/events/" + strconv.FormatInt(e.Sequence, 10), Sequence: e.Sequence, RecordTime: timeOut(e.RecordedAt),
		HappenTime: timeOut(e.HappenedAt), RecordedBy: e.By, RequestId: e.RequestID,
	}
	if err := whatOut(out, e); err != nil {
		return nil, &history.UnreadableError{Job: e.Job, Sequence: e.Sequence, Says: err.Error()}
	}
	return out, nil
}
