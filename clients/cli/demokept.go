package cli

import (
	"context"
	"os"
	"path/filepath"

	"github.com/glossladder/glossladder/clients/cli/intake"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// keptStory gives the demo a place of its own to keep a vehicle in, and the way to take it away again.
func (p *program) keptStory() (remove func(), err error) {
	folder, err := os.MkdirTemp("", "glossladder-demo-")
	if err != nil {
		return nil, err
	}
	p.data = filepath.Join(folder, "jobs.db")
	return func() { _ = os.RemoveAll(folder) }, nil
}

// aYearLater tells the return of the car: its first visit is put on record, and then it is inspected again.
func (t *teller) aYearLater(ctx context.Context) error {
	vehicle := &glossladderv1.VehicleRecord{
		Label: "invented dark estate car", Size: glossladderv1.VehicleSize_VEHICLE_SIZE_MEDIUM,
		Paint: &glossladderv1.Paint{
			System: glossladderv1.PaintSystem_PAINT_SYSTEM_CLEAR_COAT, Softness: glossladderv1.Softness_SOFTNESS_MEDIUM,
			Shade: glossladderv1.Shade_SHADE_DARK, HazeProne: new(false),
		},
	}
	if _, err := t.keeper.CreateVehicle(ctx, &glossladderv1.CreateVehicleRequest{Vehicle: vehicle, VehicleId: "estate"}); err != nil {
		return err
	}
	if err := t.firstVisit(ctx); err != nil {
		return err
	}
	film, err := t.keeper.GetVehicleFilm(ctx, &glossladderv1.GetVehicleFilmRequest{Name: "vehicles/estate"})
	if err != nil {
		return err
	}
	returned, _, problems := intake.Recommend(t.source("return.yaml"), intake.Bare{})
	if err := problems.Err(); err != nil {
		return err
	}
	again, err := t.visit(ctx, "second", returned.GetInspection())
	if err != nil {
		return err
	}
	t.story.Chapter("A year later")
	t.story.Tell("The shop kept the car and its first visit on record: every reading, both trials, the work on the bonnet, and the rules that decided. No name, no plate. What the visit took off is counted over the life of the car:")
	t.story.Life(film)
	t.story.Tell("Now the car is back with new wash marks. The technician inspects the bonnet again. She need not say what the paint is, nor what is gone already; the service knows both from the record, and takes it off what may still go:")
	for _, event := range again.GetEvents() {
		if r := event.GetDecision().GetRecommendation(); r != nil {
			t.story.Usable(r.GetPanels()[0])
		}
	}
	return t.learned(ctx)
}

// learned tells what the record of the first visit makes the shop expect of the next polish.
func (t *teller) learned(ctx context.Context) error {
	severity := 3.0
	kind := &glossladderv1.GetLessonsRequest{
		Softness: glossladderv1.Softness_SOFTNESS_MEDIUM, Defect: glossladderv1.DefectKind_DEFECT_KIND_WASH_MARKS, Severity: &severity,
	}
	said, err := t.history.GetLessons(ctx, kind)
	if err != nil {
		return err
	}
	t.story.Tell("The shop has learned a little, too. One trial is not much, so what is expected of the next polish on such paint is drawn from it only a little way, and the intervals stay wide until there are more:")
	t.story.Lesson(said, glossladderv1.Step_STEP_POLISH)
	return nil
}

// firstVisit records what was told so far, up to the hand-over.
func (t *teller) firstVisit(ctx context.Context) error {
	request, _, problems := intake.Recommend(t.source("inspection.yaml"), intake.Bare{})
	if err := problems.Err(); err != nil {
		return err
	}
	if _, err := t.visit(ctx, "first", request.GetInspection()); err != nil {
		return err
	}
	inspection := t.source("inspection.yaml")
	tried, _, problems := intake.Judge(t.source("trial-2.yaml"), &inspection, intake.Bare{})
	if err := problems.Err(); err != nil {
		return err
	}
	const job, bonnet = "jobs/first", "bonnet"
	for _, trial := range tried.GetTrials() {
		record := &glossladderv1.TrialRecord{PanelId: bonnet, Trial: trial}
		if _, err := t.keeper.RecordTrial(ctx, &glossladderv1.RecordTrialRequest{Name: job, Trial: record}); err != nil {
			return err
		}
	}
	ladder := glossladderv1.Ladder_LADDER_POLISH_FINISH
	plan := &glossladderv1.Plan{Panels: []*glossladderv1.PlannedPanel{{PanelId: bonnet, Ladder: ladder}}}
	if _, err := t.keeper.RecordPlan(ctx, &glossladderv1.RecordPlanRequest{Name: job, Plan: plan}); err != nil {
		return err
	}
	done := func(step glossladderv1.Step) *glossladderv1.Progress {
		return &glossladderv1.Progress{PanelId: bonnet, Step: step, State: glossladderv1.StepState_STEP_STATE_DONE, TestSectionSpared: true}
	}
	work := []*glossladderv1.Progress{done(glossladderv1.Step_STEP_POLISH), done(glossladderv1.Step_STEP_FINISH)}
	if _, err := t.keeper.RecordProgress(ctx, &glossladderv1.RecordProgressRequest{Name: job, Progress: work}); err != nil {
		return err
	}
	if _, err := t.keeper.FinishJob(ctx, &glossladderv1.FinishJobRequest{Name: job}); err != nil {
		return err
	}
	_, err := t.keeper.HandOverJob(ctx, &glossladderv1.HandOverJobRequest{Name: job})
	return err
}

// visit books a job for the car and inspects it.
func (t *teller) visit(ctx context.Context, id string, inspection *glossladderv1.Inspection) (*glossladderv1.RecordResponse, error) {
	job := &glossladderv1.Job{Vehicle: "vehicles/estate"}
	if _, err := t.keeper.CreateJob(ctx, &glossladderv1.CreateJobRequest{Job: job, JobId: id}); err != nil {
		return nil, err
	}
	return t.keeper.RecordInspection(ctx, &glossladderv1.RecordInspectionRequest{Name: "jobs/" + id, Inspection: inspection})
}
