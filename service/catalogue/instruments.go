package catalogue

import (
	"fmt"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Instruments are what the shop measures with, as their makers state them. They stand in for a vehicle whose readings do
// not say what they were taken with.
type Instruments struct {
	GlossMeter GlossMeter
	FilmGauge  FilmGauge
}

// GlossMeter is a gloss meter: largest stated error either way, and the smallest steps its displays move in.
type GlossMeter struct {
	AccuracyGU, ResolutionGU, ResolutionHU float64
}

// GaugeKind is the principle that a film gauge measures by.
type GaugeKind string

// The kinds of film gauge.
const (
	MagneticEddy GaugeKind = "magnetic-eddy" // all layers together, on steel and aluminium
	Ultrasonic   GaugeKind = "ultrasonic"    // layer by layer, on plastic and composites too
)

// GaugeKinds lists the kinds of film gauge.
func GaugeKinds() []GaugeKind { return []GaugeKind{MagneticEddy, Ultrasonic} }

// FilmGauge is a film gauge whose readings are off by at most AccuracyUm plus AccuracyPct of the reading.
type FilmGauge struct {
	Kind                                  GaugeKind
	AccuracyUm, AccuracyPct, ResolutionUm float64
}

// Instruments are the shop's own.
func (c *Catalogue) Instruments() Instruments { return c.instruments }

func (r *reader) instruments(file record) (out Instruments) {
	node := file.fields["instruments"]
	if node == nil {
		file.missing("instruments")
		return out
	}
	rec, ok := r.record(node, "instruments", "gloss_meter", "film_gauge")
	if !ok {
		return out
	}
	out.GlossMeter = part(rec, "gloss_meter", r.glossMeter)
	out.FilmGauge = part(rec, "film_gauge", r.filmGauge)
	return out
}

// part reads a map that must be there.
func part[T any](rec record, key string, read func(*strictyaml.Node) T) (out T) {
	node := rec.fields[key]
	if node == nil {
		rec.missing(key)
		return out
	}
	return read(node)
}

func (r *reader) glossMeter(node *strictyaml.Node) (m GlossMeter) {
	rec, ok := r.record(node, "gloss_meter", "accuracy_gu", "resolution_gu", "resolution_hu")
	if !ok {
		return m
	}
	m.AccuracyGU = rec.number("accuracy_gu", span{0, 10, "GU"})
	m.ResolutionGU = rec.number("resolution_gu", span{0.01, 1, "GU"})
	m.ResolutionHU = rec.number("resolution_hu", span{0.01, 10, "HU"})
	return m
}

func (r *reader) filmGauge(node *strictyaml.Node) (g FilmGauge) {
	rec, ok := r.record(node, "film_gauge", "kind", "accuracy_um", "accuracy_pct", "resolution_um")
	if !ok {
		return g
	}
	g.Kind = word(rec, "kind", GaugeKinds())
	g.AccuracyUm = rec.number("accuracy_um", span{0, 20, "µm"})
	g.AccuracyPct = rec.number("accuracy_pct", span{0, 20, "%"})
	g.ResolutionUm = rec.number("resolution_um", span{0.01, 10, "µm"})
	if g.AccuracyUm == 0 && g.AccuracyPct == 0 && rec.fields["accuracy_um"] != nil && rec.fields["accuracy_pct"] != nil {
		r.refuse(node, fmt.Sprintf("%s states no error at all", rec.name), "no gauge is perfect; give accuracy_um, accuracy_pct or both")
	}
	return g
}
