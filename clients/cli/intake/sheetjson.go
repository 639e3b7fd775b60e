package intake

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// jsonSheet reads rows from JSON: objects in a list, one behind another, or in a list inside an object, whose own fields then
// hold for each of them. Fields inside fields are named with points: "meter.gloss60". A list of numbers is as many readings.
type jsonSheet struct {
	t     *table
	text  []byte
	in    *json.Decoder
	sheet *sheet
	// pos is the place of the first seen bytes' end.
	pos  strictyaml.Pos
	seen int
}

// deepest is how far fields may be nested.
const deepest = 8

var errTold = errors.New("told")

func (t *table) readJSON(text []byte) *sheet {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	r := &jsonSheet{t: t, text: text, in: json.NewDecoder(bytes.NewReader(text)), sheet: &sheet{}, pos: strictyaml.Pos{Line: 1, Col: 1}}
	switch {
	case len(text) > strictyaml.MaxBytes:
		r.complain("the file is too big", fmt.Sprintf("at most %d bytes are read; split it", strictyaml.MaxBytes))
		return nil
	case !utf8.Valid(text):
		r.complain("the text is not UTF-8", "save the file as UTF-8")
		return nil
	}
	r.in.UseNumber()
	for {
		err := r.rows(sheetRow{}, 0)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			if !errors.Is(err, errTold) {
				r.complain("this is no JSON: "+err.Error(), "")
			}
			return nil
		}
	}
	if len(r.sheet.rows) == 0 {
		r.complain("the file holds no rows", "a row is an object such as {\"panel\": \"bonnet\", \"spot\": \"a\", \"film_um\": 118}")
		return nil
	}
	return r.sheet
}

// at is the place of what was read last: the end of it. The places only go forward, so that each is found from the one before.
func (r *jsonSheet) at() strictyaml.Pos {
	for offset := min(int(r.in.InputOffset()), len(r.text)); r.seen < offset; {
		c, size := utf8.DecodeRune(r.text[r.seen:])
		r.seen += size
		r.pos.Col++
		if c == '\n' {
			r.pos = strictyaml.Pos{Line: r.pos.Line + 1, Col: 1}
		}
	}
	return r.pos
}

func (r *jsonSheet) complain(message, hint string) { r.t.complain(r.at(), message, hint) }

// rows reads one value that holds rows: a list of objects, or an object.
func (r *jsonSheet) rows(outer sheetRow, depth int) error {
	if depth > deepest {
		r.complain("the rows are nested too deep", "")
		return errTold
	}
	token, err := r.in.Token()
	if err != nil {
		return err
	}
	switch token {
	case json.Delim('['):
		for r.in.More() {
			if err := r.rows(outer, depth+1); err != nil {
				return inside(err)
			}
		}
		_, err := r.in.Token()
		return inside(err)
	case json.Delim('{'):
		return inside(r.object(outer, depth))
	}
	r.complain("a row has to be an object", "write {\"panel\": …}")
	return errTold
}

// object reads an object: a row, or what holds for the rows inside it.
func (r *jsonSheet) object(outer sheetRow, depth int) error {
	row := sheetRow{at: r.at()}
	for i, cells := range outer.cells {
		row.put(i, cells...)
	}
	own := map[int]bool{}
	before := len(r.sheet.rows)
	inner, err := r.fields(&row, own, "", depth)
	if err != nil {
		return err
	}
	if inner == 0 && len(r.sheet.rows) == before && len(own) > 0 {
		r.sheet.rows = append(r.sheet.rows, row)
	}
	if len(r.sheet.rows) > mostRows {
		r.complain(fmt.Sprintf("the file has more than %d rows", mostRows), "split it")
		return errTold
	}
	return nil
}

// fields reads the fields of an object into a row, up to its end. A list of objects among them is rows of its own, that inherit
// what was read before it; inner counts such lists.
func (r *jsonSheet) fields(row *sheetRow, own map[int]bool, prefix string, depth int) (inner int, err error) {
	for r.in.More() {
		key, err := r.in.Token()
		if err != nil {
			return 0, err
		}
		name, _ := key.(string)
		name = prefix + name
		at := r.at()
		token, err := r.in.Token()
		if err != nil {
			return 0, err
		}
		switch token {
		case json.Delim('{'):
			if depth >= deepest {
				r.complain("the fields are nested too deep", "")
				return 0, errTold
			}
			n, err := r.fields(row, own, name+".", depth+1)
			if err != nil {
				return 0, err
			}
			inner += n
			continue
		case json.Delim('['):
			rows, err := r.list(row, own, name, at, depth)
			if err != nil {
				return 0, err
			}
			if rows {
				inner++
			}
			continue
		}
		if text, given := scalar(token); given {
			if err := r.keep(row, own, name, cell{text: text, at: r.at()}); err != nil {
				return 0, err
			}
		}
	}
	_, err = r.in.Token()
	return inner, err
}

// keep puts a value under its name; the same field twice is a mistake, the outer object's field is overruled.
func (r *jsonSheet) keep(row *sheetRow, own map[int]bool, name string, cells ...cell) error {
	if len(cells) == 0 {
		return nil
	}
	i := r.sheet.column(name, cells[0].at)
	if own[i] {
		r.complain("the field "+shown(name)+" is given twice", "keep one")
		return nil
	}
	if i >= mostColumns {
		r.complain(fmt.Sprintf("the rows have more than %d fields", mostColumns), "take out what is no reading")
		return errTold
	}
	own[i] = true
	row.put(i)
	row.cells[i] = nil
	row.put(i, cells...)
	return nil
}

// list reads a list of readings or of rows, up to its end.
func (r *jsonSheet) list(row *sheetRow, own map[int]bool, name string, at strictyaml.Pos, depth int) (rows bool, err error) {
	var cells []cell
	for r.in.More() {
		if next := r.peek(); next == '{' || next == '[' {
			rows = true
			if err := r.rows(*row, depth+1); err != nil {
				return false, err
			}
			continue
		}
		token, err := r.in.Token()
		if err != nil {
			return false, err
		}
		if text, given := scalar(token); given {
			cells = append(cells, cell{text: text, at: r.at()})
		}
	}
	if _, err := r.in.Token(); err != nil {
		return false, err
	}
	if rows && len(cells) > 0 {
		r.t.complain(at, "the list "+shown(name)+" holds both rows and values", "")
	}
	return rows, r.keep(row, own, name, cells...)
}

// peek is the first byte of the next value.
func (r *jsonSheet) peek() byte {
	rest := bytes.TrimLeft(r.text[min(int(r.in.InputOffset()), len(r.text)):], " \t\r\n,:")
	if len(rest) == 0 {
		return 0
	}
	return rest[0]
}

// scalar is a value as text; null and empty text are not given.
func scalar(token json.Token) (text string, given bool) {
	switch v := token.(type) {
	case string:
		text = v
	case json.Number:
		text = v.String()
	case bool:
		text = fmt.Sprint(v)
	}
	return text, text != ""
}

// inside turns an end in the middle into an error of its own: the end of the file is one only between values.
func inside(err error) error {
	if errors.Is(err, io.EOF) {
		return io.ErrUnexpectedEOF
	}
	return err
}
