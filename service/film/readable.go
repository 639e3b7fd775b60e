package film

import "fmt"

// Substrate is what the paint lies on, in the words of the facts. The zero value means that it is not known.
type Substrate string

// The substrates that a panel is made of.
const (
	Steel      Substrate = "steel"
	Aluminium  Substrate = "aluminium"
	Plastic    Substrate = "plastic"
	Carbon     Substrate = "carbon"
	Fibreglass Substrate = "fibreglass"
)

// Layer is what a reading covers.
type Layer string

const (
	// Total is all layers down to the substrate: what a magnetic or eddy-current gauge reports (ASTM D7091, 1.4).
	// The zero value is read as Total.
	Total Layer = "total"
	// Top is the one layer that may be thinned: the clear coat, or the colour coat of single-stage paint.
	Top Layer = "top"
)

// GaugeKind is the principle a gauge measures by.
type GaugeKind string

const (
	// Magnetic reads on steel (ISO 2178).
	Magnetic GaugeKind = "magnetic"
	// Eddy reads on metal that is not magnetic (ISO 2360).
	Eddy GaugeKind = "eddy-current"
	// Combined has both in one probe and is the ordinary paint gauge; the zero value is read as Combined.
	Combined GaugeKind = "magnetic/eddy-current"
	// Ultrasonic reads on plastic and composites and may tell layers apart (ASTM D6132). That it also reads on metal
	// is common practice, no source.
	Ultrasonic GaugeKind = "ultrasonic"
)

// CannotReadError tells that a gauge of this kind gives no meaningful figure here, whatever its display shows.
type CannotReadError struct {
	Kind      GaugeKind
	Substrate Substrate
	Layer     Layer
}

func (e *CannotReadError) Error() string {
	const remedy = "use an ultrasonic gauge (ASTM D6132), or leave film out and work without a budget"
	switch {
	case e.Substrate == "":
		return fmt.Sprintf("what the panel is made of is not stated, so what a %s gauge shows on it means nothing; state the substrate", e.Kind)
	case e.Layer == Top && e.Kind != Ultrasonic:
		return fmt.Sprintf("a %s gauge reads all layers together, not the top layer alone; give the readings as total film, or use an ultrasonic gauge that tells layers apart (ASTM D6132)", e.Kind)
	case e.Kind == Magnetic && e.Substrate == Aluminium:
		return "a magnetic gauge cannot read film on aluminium; use an eddy-current gauge (ISO 2360)"
	case e.Kind == Eddy && e.Substrate == Steel:
		return "an eddy-current gauge cannot read film on steel; use a magnetic gauge (ISO 2178)"
	}
	return fmt.Sprintf("a %s gauge cannot read film on %s; %s", e.Kind, e.Substrate, remedy)
}

// CanRead returns nil if a gauge of this kind can read this layer on this substrate, otherwise a [*CannotReadError]
// that says what would. Carbon conducts a little and may draw a figure from an eddy-current gauge; it is refused all the
// same. An unknown substrate or kind is refused as well: not known is not permission.
func (k GaugeKind) CanRead(s Substrate, l Layer) error {
	k, l = k.orCombined(), l.orTotal()
	metal := s == Steel && k != Eddy || s == Aluminium && k != Magnetic
	switch k {
	case Ultrasonic:
		if metal || s == Plastic || s == Carbon || s == Fibreglass {
			return nil
		}
	case Magnetic, Eddy, Combined:
		if metal && l == Total {
			return nil
		}
	}
	return &CannotReadError{Kind: k, Substrate: s, Layer: l}
}

func (k GaugeKind) orCombined() GaugeKind {
	if k == "" {
		return Combined
	}
	return k
}

func (l Layer) orTotal() Layer {
	if l == "" {
		return Total
	}
	return l
}
