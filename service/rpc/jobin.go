package rpc

import (
	"bytes"
	"encoding/json"
	"fmt"

	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// draft is an event to be, with the way from a field of its body to that of the request.
type draft struct {
	history.Draft
	place func(field string) string
}

// documentOf is a message as events keep it: protobuf JSON, the same for the same message.
func documentOf(m proto.Message) (json.RawMessage, error) {
	text, err := protojson.Marshal(m)
	if err != nil {
		return nil, fmt.Errorf("keep %s: %w", m.ProtoReflect().Descriptor().Name(), err)
	}
	var out bytes.Buffer
	if err := json.Compact(&out, text); err != nil { // the library spaces it now so, now otherwise
		return nil, fmt.Errorf("keep %s: %w", m.ProtoReflect().Descriptor().Name(), err)
	}
	return out.Bytes(), nil
}

// documentInto reads what documentOf wrote. Fields that only a later program knows are passed over.
func documentInto[M proto.Message](document json.RawMessage, m M) (M, error) {
	if err := (protojson.UnmarshalOptions{DiscardUnknown: true}).Unmarshal(document, m); err != nil {
		return m, fmt.Errorf("read %s: %w", m.ProtoReflect().Descriptor().Name(), err)
	}
	return m, nil
}

func draftOf(body history.Body, m proto.Message, place func(string) string) (draft, error) {
	document, err := documentOf(m)
	return draft{Draft: history.Draft{Body: body, Document: document}, place: place}, err
}

func detailsIn(m *glossladderv1.Job, wrong *faults) history.Details {
	wrong.time("job.book_time", m.GetBookTime())
	out := history.Details{Label: m.GetLabel(), Notes: m.GetNotes(), Bay: bayBookedIn(m.GetBay(), "job.bay", wrong)}
	if at := m.GetBookTime(); at != nil {
		out.BookedFor = history.Moment(at.AsTime())
	}
	return out
}

// foundIn keeps what was found; own are the shop's instruments, vehicle the record that the paint is taken from where the
// inspection leaves it open.
func foundIn(m *glossladderv1.Inspection, own Instruments, vehicle *history.Vehicle) *history.Inspection {
	out := &history.Inspection{}
	for _, panel := range m.GetPanels() {
		paint := panelPaint(panel, m, vehicle)
		found := history.PanelFound{
			ID: panel.GetId(), Substrate: vocabulary.WordOf(panel.GetSubstrate()),
			System: paint.System, Softness: paint.Softness, Shade: paint.Shade,
			TakenUm: panel.FilmTakenUm, Film: filmKept(panel.GetFilm()), Gloss: glossKept(panel.GetGloss()), Defects: defectsKept(panel.GetDefects()),
		}
		if len(found.Film) > 0 && out.Gauge == nil {
			out.Gauge = history.GaugeOf(own.filmGauge(m.GetInstruments().GetFilmGauge()))
		}
		out.Panels = append(out.Panels, found)
	}
	return out
}

func filmKept(spots []*glossladderv1.FilmSpot) (out []history.FilmSpot) {
	for _, spot := range spots {
		out = append(out, history.FilmSpot{Spot: spot.GetSpot(), TotalUm: spot.GetTotalUm(), ClearUm: spot.GetClearUm(), NearEdge: spot.GetNearEdge()})
	}
	return out
}

func glossKept(spots []*glossladderv1.GlossSpot) (out []history.GlossSpot) {
	for _, spot := range spots {
		out = append(out, history.GlossSpot{
			Spot: spot.GetSpot(), At20GU: spot.GetAt20Gu(), At60GU: spot.GetAt60Gu(), At85GU: spot.GetAt85Gu(), HazeHU: spot.GetHazeHu(),
		})
	}
	return out
}

func defectsKept(defects []*glossladderv1.Defect) (out []history.Defect) {
	for _, defect := range defects {
		out = append(out, history.Defect{Kind: vocabulary.WordOf(defect.GetKind()), Severity: defect.Severity})
	}
	return out
}

func readingsIn(m *glossladderv1.Readings, own Instruments) *history.Readings {
	out := &history.Readings{
		Panel: m.GetPanelId(), When: history.When(vocabulary.WordOf(m.GetTime())), Step: vocabulary.WordOf(m.GetStep()),
		Gloss: glossKept(m.GetGloss()), Film: filmKept(m.GetFilm()), Left: defectsKept(m.GetLeft()), PanelC: m.PanelC,
		LeftAsSet: m.GetGaugeLeftAsSet(), Source: m.GetSource(), Note: m.GetNote(),
	}
	if gauge := m.GetInstruments().GetFilmGauge(); gauge != nil {
		out.Gauge = history.GaugeOf(own.filmGauge(gauge))
	}
	return out
}

func trialIn(m *glossladderv1.TrialRecord) *history.Trial {
	trial, used := m.GetTrial(), m.GetTrial().GetCombination()
	return &history.Trial{
		Panel: m.GetPanelId(), Step: vocabulary.WordOf(trial.GetStep()), FreshSection: trial.GetFreshSection(), Minutes: trial.Minutes,
		Machine: vocabulary.WordOf(used.GetMachine()), Pad: vocabulary.WordOf(used.GetPad()), Liquid: vocabulary.WordOf(used.GetLiquid()),
	}
}

func planIn(m *glossladderv1.Plan) *history.Plan {
	out := &history.Plan{Note: m.GetNote()}
	for _, panel := range m.GetPanels() {
		out.Panels = append(out.Panels, history.PlannedPanel{Panel: panel.GetPanelId(), Ladder: vocabulary.WordOf(panel.GetLadder())})
	}
	if m.GetMeasured() != nil {
		out.Measured = &history.Measured{}
	}
	for _, area := range m.GetMeasured().GetAreas() {
		out.Measured.Areas = append(out.Measured.Areas, history.MeasuredArea{Panel: area.GetPanelId(), M2: area.GetAreaM2()})
	}
	if crew := m.GetCrew(); crew != nil {
		out.Crew = &history.Crew{People: whole(crew.People), DayHours: crew.DayHours}
	}
	return out
}

func progressIn(m *glossladderv1.Progress) *history.Progress {
	return &history.Progress{
		Panel: m.GetPanelId(), Step: vocabulary.WordOf(m.GetStep()), State: history.StepState(vocabulary.WordOf(m.GetState())),
		SectionsDone: whole(m.SectionsDone), SectionsTotal: whole(m.SectionsTotal), Minutes: m.Minutes, FreshPad: m.FreshPad,
		TestSectionSpared: m.GetTestSectionSpared(), Note: m.GetNote(),
	}
}

func whole(n *int32) *int {
	if n == nil {
		return nil
	}
	return ptr(int(*n))
}

func closingIn(m *glossladderv1.Closing) history.Closing { return history.Closing{Note: m.GetNote()} }

// stageIn is a stage's word; the contract spells them as history does.
func stageIn(stage glossladderv1.JobStage) history.Stage {
	return history.Stage(vocabulary.WordOf(stage))
}
