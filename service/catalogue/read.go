package catalogue

import (
	"fmt"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Read reads a catalogue file and returns a *Catalogue. Its error is [strictyaml.Problems]: every problem of the file at
// once, sorted by place. The name only serves the problems.
func Read(name string, src []byte) (any, error) { return Knowing(nil)(name, src) }

// Knowing is [Read] that also refuses a time zone which is not among those known.
func Knowing(zones Zones) func(name string, src []byte) (any, error) {
	return func(name string, src []byte) (any, error) {
		c, problems := parse(name, src, zones)
		if err := problems.Err(); err != nil {
			return nil, err
		}
		return c, nil
	}
}

// Parse reads a catalogue file. The catalogue is nil exactly if there are problems.
func Parse(name string, src []byte) (*Catalogue, strictyaml.Problems) { return parse(name, src, nil) }

func parse(name string, src []byte, zones Zones) (*Catalogue, strictyaml.Problems) {
	node, problems := strictyaml.Parse(name, src)
	r := &reader{problems: problems, zones: zones, ids: map[string]strictyaml.Pos{}}
	var c *Catalogue
	if node != nil {
		c = r.catalogue(node)
	}
	if len(r.problems) > 0 {
		r.problems.Sort()
		return nil, r.problems.Capped()
	}
	return c, nil
}

// reader collects the problems of one file.
type reader struct {
	problems strictyaml.Problems
	zones    Zones // nil: whatever looks like one
	currency Currency
	ids      map[string]strictyaml.Pos // ids are unique in the whole file: history names a thing by its id alone
}

func (r *reader) refuse(at *strictyaml.Node, message, hint string) {
	r.problems = append(r.problems, at.Problem(message, hint))
}

func (r *reader) catalogue(node *strictyaml.Node) *Catalogue {
	file, ok := r.record(node, "the catalogue", "currency", "hourly_rate", "opening", "limits", "instruments", "machines", "pads", "liquids", "consumables")
	if !ok {
		return nil
	}
	c := &Catalogue{}
	if code, at := file.text("currency"); at != nil {
		var err error
		if c.currency, err = CurrencyOf(code); err != nil {
			r.refuse(at, fmt.Sprintf("currency is %q", code), ErrCurrency.Error())
		}
	}
	r.currency = c.currency
	c.hourlyRate = file.money("hourly_rate")
	c.opening = r.opening(file)
	c.limits = r.limits(file)
	c.instruments = r.instruments(file)
	c.machines = list(file, "machines", true, r.machine)
	c.pads = list(file, "pads", true, r.pad)
	c.liquids = list(file, "liquids", true, r.liquid)
	c.consumables = list(file, "consumables", false, r.consumable)
	return c
}

// list reads the items under a key. At least one is needed if required.
func list[T any](rec record, key string, required bool, read func(*strictyaml.Node) T) (items []T) {
	node := rec.fields[key]
	switch {
	case node == nil && required:
		rec.missing(key)
	case node.Kind() == strictyaml.Refused: // told already, or not needed
	case node.Kind() != strictyaml.List:
		rec.r.refuse(node, fmt.Sprintf("%s is %s", key, node.Kind()), "write a list of maps, each after a dash")
	case len(node.Items()) == 0 && required:
		rec.r.refuse(node, key+" is empty", "name at least one")
	}
	for _, item := range node.Items() {
		items = append(items, read(item))
	}
	return items
}

func (r *reader) machine(node *strictyaml.Node) (m Machine) {
	rec, ok := r.record(node, "machine", "id", "class", "pad_mm", "orbit_mm", "speed_min_opm", "speed_max_opm",
		"speed_min_rpm", "speed_max_rpm", "vibration_ms2", "vibration_k_ms2", "noise_dba", "mass_kg")
	if !ok {
		return m
	}
	m.ID = rec.id()
	m.Class = word(rec, "class", MachineClasses())
	m.PadMm = rec.number("pad_mm", span{20, 250, "mm"})
	m.OrbitMm = rec.only(m.Class.Orbits(), string(m.Class), "orbit_mm", span{1, 40, "mm"})
	m.SpeedMinOpm = rec.only(m.Class.Orbits(), string(m.Class), "speed_min_opm", span{100, 15_000, "orbits a minute"})
	m.SpeedMaxOpm = rec.only(m.Class.Orbits(), string(m.Class), "speed_max_opm", span{100, 15_000, "orbits a minute"})
	m.SpeedMinRpm = rec.only(m.Class == Rotary, string(m.Class), "speed_min_rpm", span{100, 6_000, "turns a minute"})
	m.SpeedMaxRpm = rec.only(m.Class == Rotary, string(m.Class), "speed_max_rpm", span{100, 6_000, "turns a minute"})
	m.VibrationMs2 = rec.figure("vibration_ms2", span{0.1, 50, "m/s²"})
	m.VibrationKMs2 = rec.figure("vibration_k_ms2", span{0, 25, "m/s²"})
	m.NoiseDba = rec.figure("noise_dba", span{40, 130, "dB"})
	m.MassKg = rec.figure("mass_kg", span{0.01, 20, "kg"})
	rec.rising("speed_min_opm", m.SpeedMinOpm, "speed_max_opm", m.SpeedMaxOpm)
	rec.rising("speed_min_rpm", m.SpeedMinRpm, "speed_max_rpm", m.SpeedMaxRpm)
	if k := rec.fields["vibration_k_ms2"]; k != nil && rec.fields["vibration_ms2"] == nil {
		r.refuse(k, "vibration_k_ms2 says how sure vibration_ms2 is, which is left out", "give both or neither")
	}
	return m
}

func (r *reader) pad(node *strictyaml.Node) (p Pad) {
	rec, ok := r.record(node, "pad", "id", "class", "diameter_mm", "thickness_mm", "price", "life_vehicles")
	if !ok {
		return p
	}
	p.ID = rec.id()
	p.Class = word(rec, "class", PadClasses())
	p.DiameterMm = rec.number("diameter_mm", span{20, 250, "mm"})
	p.ThicknessMm = rec.number("thickness_mm", span{2, 80, "mm"})
	p.Price = rec.money("price")
	p.LifeVehicles = rec.number("life_vehicles", span{0.1, 1_000, ""})
	return p
}

func (r *reader) liquid(node *strictyaml.Node) (l Liquid) {
	rec, ok := r.record(node, "liquid", "id", "class", "abrasive_um", "price", "pack_ml", "per_section_ml", "prime_ml")
	if !ok {
		return l
	}
	l.ID = rec.id()
	l.Class = word(rec, "class", LiquidClasses())
	l.AbrasiveUm = rec.figure("abrasive_um", span{0.01, 50, "µm"})
	l.Price = rec.money("price")
	l.PackMl = rec.number("pack_ml", span{10, 25_000, "ml"})
	l.PerSectionMl = rec.number("per_section_ml", span{0.1, 50, "ml"})
	l.PrimeMl = rec.number("prime_ml", span{0, 100, "ml"})
	return l
}

func (r *reader) consumable(node *strictyaml.Node) (c Consumable) {
	rec, ok := r.record(node, "consumable", "id", "kind", "price", "pack_pieces", "per_panel_pieces", "uses",
		"pack_ml", "per_panel_ml", "pack_m", "per_panel_m")
	if !ok {
		return c
	}
	c.ID = rec.id()
	c.Kind = word(rec, "kind", ConsumableKinds())
	c.Price = rec.money("price")
	c.Uses = 1
	pack, perPanel := Figure{}, Figure{}
	for _, of := range []struct {
		kind           ConsumableKind
		unit           string
		most, perPanel float64
	}{
		{Towel, "pieces", 1_000, 20},
		{PanelWipe, "ml", 25_000, 500},
		{MaskingTape, "m", 1_000, 100},
	} {
		here := c.Kind == of.kind
		p := rec.only(here, string(c.Kind), "pack_"+of.unit, span{1, of.most, of.unit})
		n := rec.only(here, string(c.Kind), "per_panel_"+of.unit, span{0.01, of.perPanel, of.unit})
		if here {
			pack, perPanel = p, n
		}
	}
	c.Pack, c.PerPanel = pack.value, perPanel.value
	if uses := rec.only(c.Kind == Towel, string(c.Kind), "uses", span{1, 1_000, ""}); uses.known {
		c.Uses = uses.value
	}
	return c
}
