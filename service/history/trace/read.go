package trace

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"

	"github.com/glossladder/glossladder/service/history"
)

var (
	errShort = errors.New("the trace breaks off")
	errLater = errors.New("the trace has what only a later program writes; use a later program")
	errMany  = errors.New("the record has more names of facts than can be read")
)

// Reader reads traces one after another with the room of the one before. It is for one goroutine.
type Reader struct {
	words   *Words
	data    []byte
	spelled []name
	err     error
	sheets  int
	answers []history.TableAnswer
	panel   history.PanelFound
}

// NewReader reads with words.
func NewReader(words *Words) *Reader { return &Reader{words: words} }

// Err is what was wrong with the trace that is being read; after it, what was read counts for nothing.
func (r *Reader) Err() error { return r.err }

// begin reads the head of a trace.
func (r *Reader) begin(data []byte) byte {
	r.data, r.spelled, r.err, r.sheets = data, r.spelled[:0], nil, 0
	if v := r.byte(); v != version && r.err == nil {
		r.err = fmt.Errorf("the trace is of version %d, and this program reads %d; use a later program", v, version)
	}
	return r.byte()
}

// KindOf is the kind of event that a trace is of; "" for one that this program does not know. It looks at no more than the head.
func KindOf(data []byte) history.Kind {
	if len(data) < 2 || data[0] != version {
		return ""
	}
	switch data[1] {
	case inspection:
		return history.KindInspection
	case readings:
		return history.KindReadings
	case trial:
		return history.KindTrial
	case decision:
		return history.KindDecision
	case correction:
		return history.KindCorrection
	}
	return ""
}

func (r *Reader) fail(err error) {
	if r.err == nil {
		r.err = err
	}
	r.data = nil
}

func (r *Reader) byte() byte {
	if len(r.data) == 0 {
		r.fail(errShort)
		return 0
	}
	b := r.data[0]
	r.data = r.data[1:]
	return b
}

func (r *Reader) uvarint() uint64 {
	// One byte and two are nearly all there are.
	if len(r.data) > 0 && r.data[0] < 0x80 {
		n := uint64(r.data[0])
		r.data = r.data[1:]
		return n
	}
	if len(r.data) > 1 && r.data[1] < 0x80 {
		n := uint64(r.data[0]&0x7f) | uint64(r.data[1])<<7
		r.data = r.data[2:]
		return n
	}
	n, size := binary.Uvarint(r.data)
	if size <= 0 {
		r.fail(errShort)
		return 0
	}
	r.data = r.data[size:]
	return n
}

func (r *Reader) varint() int64 {
	u := r.uvarint()
	return int64(u>>1) ^ -int64(u&1)
}

// count is a number of things that take so many bytes each at least, so that no count asks for more room than there can be.
func (r *Reader) count(each int) int {
	n := r.uvarint()
	if n > uint64(len(r.data)/each) {
		r.fail(errShort)
		return 0
	}
	return int(n)
}

func (r *Reader) name() name {
	n := r.uvarint()
	if n&1 == 0 {
		if n/2 >= uint64(len(listed)) {
			r.fail(errLater)
			return name{}
		}
		return name{listed[n/2], uint32(n / 2), true}
	}
	if n > 1 {
		at := (n - 3) / 2
		if at >= uint64(len(r.spelled)) {
			r.fail(errors.New("the trace names a word that it does not spell"))
			return name{}
		}
		return r.spelled[at]
	}
	size := r.count(1)
	word := r.words.spelled(r.data[:size])
	r.data = r.data[size:]
	r.spelled = append(r.spelled, word)
	return word
}

func (r *Reader) word() string { return r.name().text }

func (r *Reader) value() Value {
	switch kind := r.byte(); kind {
	case isGone:
		return Value{}
	case isFalse, isTrue:
		return Value{Kind: Flag, Flag: kind == isTrue}
	case isWord:
		return Value{Kind: Word, Word: r.word()}
	case isWhole, isTenths, isHundredths, isThousandths:
		return Value{Kind: Number, Number: float64(r.varint()) / scales[kind-isWhole]}
	case isBits:
		if len(r.data) < 8 {
			r.fail(errShort)
			return Value{}
		}
		bits := binary.LittleEndian.Uint64(r.data)
		r.data = r.data[8:]
		return Value{Kind: Number, Number: math.Float64frombits(bits)}
	}
	r.fail(errLater)
	return Value{}
}

func (r *Reader) optional() *float64 {
	if v := r.value(); v.Kind == Number {
		return &v.Number
	}
	return nil
}
