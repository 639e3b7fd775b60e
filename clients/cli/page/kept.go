package page

import (
	"fmt"
	"io"
	"strings"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// idOf is the id of a resource name: what a person types.
func idOf(name string) string { return name[strings.LastIndexByte(name, '/')+1:] }

// jobStage is a job's stage, coloured by whether something is still to do.
func jobStage(stage glossladderv1.JobStage) span {
	switch stage {
	case glossladderv1.JobStage_JOB_STAGE_UNSPECIFIED:
		return say("not told")
	case glossladderv1.JobStage_JOB_STAGE_HANDED_OVER, glossladderv1.JobStage_JOB_STAGE_FINISHED:
		return in(good, plainWord(stage))
	case glossladderv1.JobStage_JOB_STAGE_CANCELLED:
		return in(faint, plainWord(stage))
	}
	return in(wary, plainWord(stage))
}

// when is a time by the clock of a zone; "" when there is none.
func when(at *timestamppb.Timestamp, zone *time.Location) string {
	if at == nil {
		return ""
	}
	return strings.ReplaceAll(at.AsTime().In(zone).Format("2006-01-02 15:04"), " ", nbsp)
}

// Vehicles lists vehicles.
func Vehicles(w io.Writer, all []*glossladderv1.VehicleRecord, style Style) error {
	p := newPaper(style)
	if len(all) == 0 {
		p.para(0, say("No vehicle is on record. Make one with: glossladder vehicle new LABEL"))
		return p.writeTo(w)
	}
	rows := make([][]span, len(all))
	for i, v := range all {
		rows[i] = []span{in(strong, idOf(v.GetName())), say(v.GetLabel()), say(plainWord(v.GetSize())), say(paintWords(v.GetPaint()))}
	}
	p.grid(0, []string{"vehicle", "label", "size", "paint"}, rows)
	return p.writeTo(w)
}

func paintWords(paint *glossladderv1.Paint) string {
	var parts []string
	for _, part := range []string{plainWord(paint.GetShade()), plainWord(paint.GetSoftness()), plainWord(paint.GetSystem())} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	if paint.GetHazeProne() {
		parts = append(parts, "haze prone")
	}
	return strings.Join(parts, ", ")
}

// Vehicle shows a vehicle, its jobs, and what all of them took off it.
func Vehicle(w io.Writer, v *glossladderv1.VehicleRecord, film *glossladderv1.VehicleFilm, jobs []*glossladderv1.Job, zone *time.Location, style Style) error {
	p := newPaper(style)
	p.item(0, 0, in(strong, idOf(v.GetName())), say("·"), say(v.GetLabel()))
	about := func(lead, text string) {
		if text != "" {
			p.item(titleAt, textAt, say(lead), say(text))
		}
	}
	about("size", plainWord(v.GetSize()))
	if v.BuiltYear != nil {
		about("built", fmt.Sprint(v.GetBuiltYear()))
	}
	about("paint", paintWords(v.GetPaint()))
	about("notes", v.GetNotes())
	if len(jobs) > 0 {
		p.blank()
		p.heading(titleAt, "Jobs")
		rows := make([][]span, len(jobs))
		for i, j := range jobs {
			rows[i] = []span{in(strong, idOf(j.GetName())), jobStage(j.GetStage()), say(when(j.GetCreateTime(), zone)), say(j.GetLabel())}
		}
		p.grid(lineAt, []string{"job", "stage", "since", "label"}, rows)
	}
	p.life(film)
	return p.writeTo(w)
}

// life sets what all visits took off a vehicle, panel by panel.
func (p *paper) life(film *glossladderv1.VehicleFilm) {
	var taken []*glossladderv1.PanelFilm
	for _, panel := range film.GetPanels() {
		if panel.GetLife().GetHighUm() > 0 || panel.GetIncomplete() {
			taken = append(taken, panel)
		}
	}
	p.blank()
	p.heading(titleAt, "Film taken over its life")
	if len(taken) == 0 {
		p.para(lineAt, say("No work on record has taken any."))
		return
	}
	for _, panel := range taken {
		p.item(lineAt, textAt, in(strong, panel.GetPanelId()), say(takenWords(panel.GetLife())+"; the next visit counts "+with(panel.GetLife().GetHighUm(), "µm")+" as gone"))
		if panel.GetIncomplete() {
			p.para(textAt, in(wary, "more than that: some work is on record whose removal nobody can tell"))
		}
		for _, v := range panel.GetVisits() {
			p.para(textAt, in(faint, fmt.Sprintf("%s  %s, %s%s", idOf(v.GetJob()), takenWords(v.GetTaken()), measuredWord(v.GetMeasured()), unaccounted(v))))
		}
	}
}

func takenWords(r *glossladderv1.Removal) string {
	return fmt.Sprintf("%s (%s to %s)", with(r.GetLikelyUm(), "µm"), number(r.GetLowUm()), with(r.GetHighUm(), "µm"))
}

func measuredWord(measured bool) string {
	if measured {
		return "measured"
	}
	return "as expected of the steps"
}

func unaccounted(v *glossladderv1.VisitFilm) string {
	if len(v.GetUnaccounted()) == 0 {
		return ""
	}
	words := make([]string, len(v.GetUnaccounted()))
	for i, step := range v.GetUnaccounted() {
		words[i] = stepWord(step)
	}
	return "; not counted: " + listed(words)
}

// Jobs lists jobs; more says that there are older ones.
func Jobs(w io.Writer, all []*glossladderv1.Job, more bool, zone *time.Location, style Style) error {
	p := newPaper(style)
	if len(all) == 0 {
		p.para(0, say("No job is on record. Book one with: glossladder job new VEHICLE"))
		return p.writeTo(w)
	}
	rows := make([][]span, len(all))
	for i, j := range all {
		rows[i] = []span{
			in(strong, idOf(j.GetName())), jobStage(j.GetStage()), say(idOf(j.GetVehicle())), say(when(j.GetBookTime(), zone)), say(when(j.GetUpdateTime(), zone)), say(j.GetLabel()),
		}
	}
	p.grid(0, []string{"job", "stage", "vehicle", "booked for", "last event", "label"}, rows)
	if more {
		p.para(0, in(faint, "There are older ones: --limit shows more."))
	}
	return p.writeTo(w)
}
