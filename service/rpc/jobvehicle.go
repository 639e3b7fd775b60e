package rpc

import (
	"errors"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/vocabulary"
)

func vehicleIn(m *glossladderv1.VehicleRecord) history.Vehicle {
	paint := m.GetPaint()
	var hazeProne *bool
	if paint != nil {
		hazeProne = paint.HazeProne
	}
	return history.Vehicle{Label: m.GetLabel(), VehicleTraits: history.VehicleTraits{
		Size: vocabulary.WordOf(m.GetSize()), BuiltYear: int(m.GetBuiltYear()), Notes: m.GetNotes(),
		Paint: history.Paint{
			System: vocabulary.WordOf(paint.GetSystem()), Softness: vocabulary.WordOf(paint.GetSoftness()),
			Shade: vocabulary.WordOf(paint.GetShade()), HazeProne: hazeProne,
		},
	}}
}

func vehicleOut(v *history.Vehicle) *glossladderv1.VehicleRecord {
	out := &glossladderv1.VehicleRecord{
		Name: vehicles + "/" + v.ID, Etag: etagOf(v.Revision), Label: v.Label, Size: word[glossladderv1.VehicleSize](v.Size), Notes: v.Notes,
		CreateTime: timeOut(v.CreatedAt), UpdateTime: timeOut(v.UpdatedAt),
	}
	if v.BuiltYear != 0 {
		out.BuiltYear = ptr(int32(v.BuiltYear))
	}
	if v.Paint != (history.Paint{}) {
		out.Paint = paintOut(&v.Paint)
	}
	return out
}

func paintOut(p *history.Paint) *glossladderv1.Paint {
	return &glossladderv1.Paint{
		System: word[glossladderv1.PaintSystem](p.System), Softness: word[glossladderv1.Softness](p.Softness),
		Shade: word[glossladderv1.Shade](p.Shade), HazeProne: p.HazeProne,
	}
}

// lost reports whether somebody else was quicker.
func lost(err error) bool {
	_, ok := errors.AsType[*history.ConflictError](err)
	return ok
}
