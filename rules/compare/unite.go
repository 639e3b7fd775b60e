package compare

import (
	"encoding/binary"
	"slices"

	"github.com/glossladder/glossladder/rules/internal/region"
)

// unite joins neighbouring parts in which the tables say the same two things.
func (f *finder) unite() []finding {
	if len(f.found) < 2 {
		return f.found
	}
	var axes []int // those that some part bounds
	whole := f.whole()
	for a := range whole {
		if slices.ContainsFunc(f.found, func(p finding) bool { return p.cells[a] != whole[a] }) {
			axes = append(axes, a)
		}
	}
	parts := f.found
	for again := true; again; {
		again = false
		for _, a := range axes {
			before := len(parts)
			parts = uniteAlong(parts, a, axes)
			again = again || len(parts) < before
		}
	}
	return parts
}

// uniteAlong joins parts that differ on one axis alone and together are one cell of it.
func uniteAlong(parts []finding, axis int, axes []int) []finding {
	groups := map[string][]int{} // what all but the axis is -> places in out
	var out []finding
	var room []byte
	for _, p := range parts {
		room = keyBut(room[:0], &p, axis, axes)
		key := string(room)
		at := slices.IndexFunc(groups[key], func(i int) bool {
			_, ok := joined(out[i].cells[axis], p.cells[axis])
			return ok
		})
		if at < 0 {
			groups[key] = append(groups[key], len(out))
			out = append(out, p)
			continue
		}
		i := groups[key][at]
		out[i].cells[axis], _ = joined(out[i].cells[axis], p.cells[axis])
	}
	return out
}

// joined is two cells that have nothing in common as one, if they are one.
func joined(a, b region.Cell) (region.Cell, bool) {
	out := region.Cell{Lo: 1, Mask: a.Mask | b.Mask, Missing: a.Missing || b.Missing}
	switch {
	case a.Lo > a.Hi:
		out.Lo, out.Hi = b.Lo, b.Hi
	case b.Lo > b.Hi:
		out.Lo, out.Hi = a.Lo, a.Hi
	case a.Hi+1 == b.Lo:
		out.Lo, out.Hi = a.Lo, b.Hi
	case b.Hi+1 == a.Lo:
		out.Lo, out.Hi = b.Lo, a.Hi
	default:
		return out, false
	}
	return out, true
}

// keyBut tells parts apart by what they say and by all cells but one.
func keyBut(key []byte, p *finding, axis int, axes []int) []byte {
	for _, s := range p.says {
		key = binary.LittleEndian.AppendUint32(append(key, byte(s.outcome)), uint32(len(s.classes)))
		for _, c := range s.classes {
			key = binary.LittleEndian.AppendUint32(key, uint32(c))
		}
	}
	for _, a := range axes {
		if a == axis {
			continue
		}
		c := &p.cells[a]
		key = binary.LittleEndian.AppendUint32(key, uint32(c.Lo))
		key = binary.LittleEndian.AppendUint32(key, uint32(c.Hi))
		key = binary.LittleEndian.AppendUint64(key, c.Mask)
		missing := byte(0)
		if c.Missing {
			missing = 1
		}
		key = append(key, missing)
	}
	return key
}
