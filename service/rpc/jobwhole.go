package rpc

import (
	"slices"

	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// wholeOut is what holds of a job's vehicle as a whole, by the name that the vehicle's record has now: what was inspected or, before
// that, what the record says.
func (d *documents) wholeOut(j *history.Job, v *history.Vehicle) (*glossladderv1.WholeVehicle, error) {
	out, err := d.whole(j)
	if err != nil {
		return nil, err
	}
	record := vehicleOut(v)
	if out == nil {
		out = &glossladderv1.WholeVehicle{Vehicle: &glossladderv1.Vehicle{Size: record.GetSize(), Paint: record.GetPaint()}}
	}
	if out.GetVehicle() == nil {
		out.Vehicle = &glossladderv1.Vehicle{}
	}
	out.Vehicle.Label = record.GetLabel()
	return out, nil
}

// whole is what the inspections of a job say of the vehicle as a whole, the later before the earlier. Nil: there was none.
func (d *documents) whole(j *history.Job) (*glossladderv1.WholeVehicle, error) {
	found := slices.DeleteFunc(slices.Clone(j.Panels), func(p *history.Panel) bool { return p.FoundAt == 0 })
	byTime := slices.SortedFunc(slices.Values(found), func(a, b *history.Panel) int { return int(a.FoundAt - b.FoundAt) })
	var out *glossladderv1.WholeVehicle
	for _, p := range slices.CompactFunc(byTime, func(a, b *history.Panel) bool { return a.FoundAt == b.FoundAt }) {
		m, err := d.inspection(p)
		if err != nil {
			return nil, err
		}
		if out == nil {
			out = &glossladderv1.WholeVehicle{}
		}
		proto.Merge(out, &glossladderv1.WholeVehicle{Goal: m.GetGoal(), Climate: m.GetClimate(), Vehicle: m.GetVehicle(), Shop: m.GetShop()})
		out.Instruments = m.GetInstruments() // one gauge is not merged with another
	}
	return out, nil
}
