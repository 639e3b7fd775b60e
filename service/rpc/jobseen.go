package rpc

import (
	"context"
	"slices"

	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/history"
)

// visit is what the record adds to a job's own inspections: the vehicle, and what its other visits took off.
type visit struct {
	vehicle history.Vehicle
	lives   []history.PanelLife
	year    int
	// rules are those in force.
	rules *Rules
}

// visitOf looks up what the record knows beside the job itself.
func (s *JobServer) visitOf(ctx context.Context, store history.Store, book *history.Book, job string) (*visit, error) {
	summary, err := store.Job(ctx, job)
	if err != nil {
		return nil, err
	}
	v := &visit{year: s.now().Year(), rules: s.rules.InForce()}
	if v.vehicle, err = store.Vehicle(ctx, summary.Vehicle); err != nil {
		return nil, err
	}
	v.lives, err = book.Life(ctx, summary.Vehicle, job)
	return v, err
}

// seen are the panels of a job as one inspection of them all, as the adviser is to see them now. Of what the inspections say of
// the whole vehicle the later goes before the earlier. Panels that were read with other instruments stand in one of their own,
// for what an instrument reads wrong counts with its own readings.
func (v *visit) seen(job *history.Job, which func(*history.Panel) bool) ([]*glossladderv1.Inspection, error) {
	var out []*glossladderv1.Inspection
	kept := documents{}
	whole, err := kept.whole(job)
	if err != nil {
		return nil, err
	}
	own := v.stillOwn(whole.GetShop())
	for _, p := range job.Panels {
		if p.FoundAt == 0 || !which(p) {
			continue
		}
		m, err := kept.inspection(p)
		if err != nil {
			return nil, err
		}
		into := sameInstruments(&out, m.GetInstruments())
		into.Goal, into.Climate, into.Vehicle, into.Shop = whole.GetGoal(), whole.GetClimate(), whole.GetVehicle(), own
		panel, err := v.panel(p, m)
		if err != nil {
			return nil, err
		}
		into.Panels = append(into.Panels, panel)
	}
	return out, nil
}

// sameInstruments finds the inspection of the panels that were read with the same, or makes one.
func sameInstruments(all *[]*glossladderv1.Inspection, used *glossladderv1.Instruments) *glossladderv1.Inspection {
	for _, m := range *all {
		if proto.Equal(m.GetInstruments(), used) {
			return m
		}
	}
	made := &glossladderv1.Inspection{Instruments: used}
	*all = append(*all, made)
	return made
}

// panel is a panel as the adviser is to see it: as it was found, with later readings from before the work, and with what the
// record knows and the inspection leaves open.
func (v *visit) panel(p *history.Panel, of *glossladderv1.Inspection) (*glossladderv1.Panel, error) {
	out, _ := proto.Clone(panelOf(of, p.ID)).(*glossladderv1.Panel)
	out.Shop = v.stillOwn(out.GetShop())
	for _, before := range p.Before {
		m, err := documentInto(before.Document, &glossladderv1.Readings{})
		if err != nil {
			return nil, err
		}
		readBefore(out, m)
	}
	out.Paint = v.paint(out.GetPaint(), of.GetVehicle().GetPaint())
	if out.PanelC == nil && of.GetClimate() != nil {
		out.PanelC = of.GetClimate().PanelC
	}
	if taken := v.taken(p); taken > out.GetFilmTakenUm() {
		out.FilmTakenUm = &taken
	}
	return out, nil
}

// taken is what is gone from the panel by the record, at the high end: what other visits took, and what this one did where a
// step was carried over the panel already.
func (v *visit) taken(p *history.Panel) float64 {
	var um float64
	for _, life := range v.lives {
		if life.Panel == p.ID {
			um = float64(life.Taken.HighUm)
		}
	}
	if taken := p.Taken(); taken != nil && p.Worked() {
		um += float64(taken.HighUm)
	}
	return um
}

// paint takes each field from the panel where it says, then from the inspection's vehicle, then from the vehicle's record.
func (v *visit) paint(own, whole *glossladderv1.Paint) *glossladderv1.Paint {
	out := paintOut(&v.vehicle.Paint)
	if years, known := v.vehicle.AgeYears(v.year); known {
		out.AgeYears = &years
	}
	if whole != nil {
		proto.Merge(out, whole)
	}
	if own != nil {
		proto.Merge(out, own)
	}
	return out
}

// panelPaint is what is known of a panel's paint in the contract's words.
func panelPaint(panel *glossladderv1.Panel, of *glossladderv1.Inspection, vehicle *history.Vehicle) advisor.Paint {
	v := visit{vehicle: *vehicle}
	return paintIn(v.paint(panel.GetPaint(), of.GetVehicle().GetPaint()), nil)
}

// readBefore puts readings in the place of earlier ones on the same scale at the same spot, and adds others.
func readBefore(panel *glossladderv1.Panel, m *glossladderv1.Readings) {
	for _, spot := range m.GetGloss() {
		at := slices.IndexFunc(panel.GetGloss(), func(o *glossladderv1.GlossSpot) bool { return o.GetSpot() == spot.GetSpot() })
		if at < 0 {
			panel.Gloss = append(panel.Gloss, spot)
			continue
		}
		was := panel.Gloss[at]
		later(&was.At20Gu, spot.GetAt20Gu())
		later(&was.At60Gu, spot.GetAt60Gu())
		later(&was.At85Gu, spot.GetAt85Gu())
		later(&was.HazeHu, spot.GetHazeHu())
	}
	for _, spot := range m.GetFilm() {
		at := slices.IndexFunc(panel.GetFilm(), func(o *glossladderv1.FilmSpot) bool { return o.GetSpot() == spot.GetSpot() })
		if at < 0 {
			panel.Film = append(panel.Film, spot)
			continue
		}
		later(&panel.Film[at].TotalUm, spot.GetTotalUm())
		later(&panel.Film[at].ClearUm, spot.GetClearUm())
	}
	for _, defect := range m.GetLeft() {
		at := slices.IndexFunc(panel.GetDefects(), func(o *glossladderv1.Defect) bool { return o.GetKind() == defect.GetKind() })
		if at < 0 {
			panel.Defects = append(panel.Defects, defect)
			continue
		}
		panel.Defects[at] = defect
	}
	if m.PanelC != nil {
		panel.PanelC = m.PanelC
	}
}

func later(was *[]float64, readings []float64) {
	if len(readings) > 0 {
		*was = readings
	}
}
