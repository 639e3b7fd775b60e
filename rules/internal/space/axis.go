package space

// Missing is the code of a fact that nobody gave.
const Missing int32 = -1

// MaxWords is the longest list of words an axis can carry.
const MaxWords = 62

// Kind says what the values of an axis are.
type Kind uint8

// The kinds of axes.
const (
	Number Kind = iota + 1
	Word
	Flag
)

// Axis is one fact as the engine sees it. Axes of one non-empty Scale have the
// same words, so their codes may be compared.
type Axis struct {
	Name    string
	Kind    Kind
	Grid    Grid     // of a Number
	Words   []string // of a Word
	Ordered bool     // the words rise
	Scale   string
}

// Size is the number of codes, Missing not counted.
func (a *Axis) Size() int32 {
	switch a.Kind {
	case Number:
		return a.Grid.Size()
	case Word:
		return int32(len(a.Words))
	}
	return 2
}

// Value is the number arithmetic sees for a code: the value itself for a
// number, the code for a word or a flag.
func (a *Axis) Value(code int32) float64 {
	if a.Kind == Number {
		return a.Grid.Value(code)
	}
	return float64(code)
}

// WordCode finds a word's code, or -1.
func (a *Axis) WordCode(word string) int32 {
	for k, w := range a.Words {
		if w == word {
			return int32(k)
		}
	}
	return -1
}

// Space is an ordered list of axes. It is read-only once made.
type Space struct {
	Axes   []Axis
	byName map[string]int32
}

// New prepares look-ups over axes, whose names must differ.
func New(axes []Axis) *Space {
	s := &Space{Axes: axes, byName: make(map[string]int32, len(axes))}
	for i := range axes {
		s.byName[axes[i].Name] = int32(i)
	}
	return s
}

// Find is the axis of a name.
func (s *Space) Find(name string) (int32, bool) {
	i, ok := s.byName[name]
	return i, ok
}

// Span is a closed interval of codes.
type Span struct{ Lo, Hi int32 }

// Set is some of the codes of one axis, with what it says of a missing value.
// Numbers use Spans (sorted, apart from each other by at least one code), words
// and flags use Mask, bit k for code k.
type Set struct {
	Axis    int32
	Spans   []Span
	Mask    uint64
	Missing Truth
}

// Empty reports whether the set holds no code at all.
func (s *Set) Empty() bool { return len(s.Spans) == 0 && s.Mask == 0 }

// Truth says whether the code is in the set.
func (s *Set) Truth(code int32) Truth {
	if code == Missing {
		return s.Missing
	}
	if s.Mask != 0 {
		return Of(s.Mask>>code&1 == 1)
	}
	for _, p := range s.Spans {
		if p.Lo <= code && code <= p.Hi {
			return True
		}
	}
	return False
}

// Collect builds a set from a yes or no for every code of the axis.
func Collect(axis int32, a *Axis, holds func(code int32) bool) Set {
	out := Set{Axis: axis, Missing: Unknown}
	n := a.Size()
	for k := int32(0); k < n; k++ {
		if !holds(k) {
			continue
		}
		if a.Kind != Number {
			out.Mask |= 1 << k
			continue
		}
		if last := len(out.Spans) - 1; last >= 0 && out.Spans[last].Hi == k-1 {
			out.Spans[last].Hi = k
		} else {
			out.Spans = append(out.Spans, Span{k, k})
		}
	}
	return out
}

// All is the whole axis; a missing value is then unknown.
func All(axis int32, a *Axis) Set {
	if a.Kind == Number {
		return Set{Axis: axis, Spans: []Span{{0, a.Size() - 1}}, Missing: Unknown}
	}
	return Set{Axis: axis, Mask: 1<<a.Size() - 1, Missing: Unknown}
}

// Meet is the codes in both sets; missing is the lesser truth.
func Meet(a, b Set) Set {
	out := Set{Axis: a.Axis, Mask: a.Mask & b.Mask, Missing: min(a.Missing, b.Missing)}
	for i, j := 0, 0; i < len(a.Spans) && j < len(b.Spans); {
		lo, hi := max(a.Spans[i].Lo, b.Spans[j].Lo), min(a.Spans[i].Hi, b.Spans[j].Hi)
		if lo <= hi {
			out.Spans = append(out.Spans, Span{lo, hi})
		}
		if a.Spans[i].Hi < b.Spans[j].Hi {
			i++
		} else {
			j++
		}
	}
	return out
}

// Join is the codes in either set; missing is the greater truth.
func Join(a, b Set) Set {
	out := Set{Axis: a.Axis, Mask: a.Mask | b.Mask, Missing: max(a.Missing, b.Missing)}
	i, j := 0, 0
	for i < len(a.Spans) || j < len(b.Spans) {
		var next Span
		if j == len(b.Spans) || i < len(a.Spans) && a.Spans[i].Lo <= b.Spans[j].Lo {
			next, i = a.Spans[i], i+1
		} else {
			next, j = b.Spans[j], j+1
		}
		if last := len(out.Spans) - 1; last >= 0 && next.Lo <= out.Spans[last].Hi+1 {
			out.Spans[last].Hi = max(out.Spans[last].Hi, next.Hi)
		} else {
			out.Spans = append(out.Spans, next)
		}
	}
	return out
}
