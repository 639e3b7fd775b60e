package intake

import (
	"bytes"

	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Source is a file as it was read. Its name only serves the places.
type Source struct {
	Name string
	Text []byte
}

// Recommend reads an inspection, alone or as the request that holds it under "inspection".
//
// All problems come back at once, by file and place. A request that comes with problems is good for finding further ones
// and for nothing else. Request and places are nil only if the file is no YAML at all.
func Recommend(src Source, bare Bare) (*glossladderv1.RecommendRequest, *Places, strictyaml.Problems) {
	root, problems := parse(src)
	if root == nil {
		return nil, nil, problems
	}
	r := &reader{bare: bare, places: newPlaces(), problems: problems}
	request := &glossladderv1.RecommendRequest{}
	r.inspectionOrRequest(root, request.ProtoReflect())
	return request, r.places, r.found()
}

// inspectionOrRequest tells an inspection from a request around one by the key that only the latter has.
func (r *reader) inspectionOrRequest(root *strictyaml.Node, request protoreflect.Message) {
	field := request.Descriptor().Fields().ByName("inspection")
	for _, entry := range root.Entries() {
		if entry.Key == string(field.Name()) {
			r.message(root, request, "the request", "")
			return
		}
	}
	r.message(root, request.Mutable(field).Message(), "an inspection", string(field.Name()))
}

// Judge reads a request to judge trials: inspection, panel_id, trials. If inspection is not nil it is a file that holds
// the inspection, as for [Recommend], and src need not repeat it. Problems and places are as for [Recommend].
func Judge(src Source, inspection *Source, bare Bare) (*glossladderv1.JudgeTrialRequest, *Places, strictyaml.Problems) {
	request := &glossladderv1.JudgeTrialRequest{}
	r := &reader{bare: bare, places: newPlaces()}
	root, problems := parse(src)
	r.problems = append(r.problems, problems...)
	if root != nil {
		r.message(root, request.ProtoReflect(), "the request", "")
	}
	if inspection == nil {
		if root == nil {
			return nil, nil, r.found()
		}
		return request, r.places, r.found()
	}
	if request.GetInspection() != nil {
		at, _, _ := r.places.Of("inspection")
		r.problems = append(r.problems, strictyaml.Problem{
			File: at.File, Pos: at.Pos, Message: "the inspection is given twice",
			Hint: "take it out here; " + inspection.Name + " has it",
		})
	}
	found, problems := parse(*inspection)
	r.problems = append(r.problems, problems...)
	if root == nil || found == nil {
		return nil, nil, r.found()
	}
	var holder glossladderv1.RecommendRequest
	r.inspectionOrRequest(found, holder.ProtoReflect())
	request.Inspection = holder.GetInspection()
	return request, r.places, r.found()
}

func (r *reader) found() strictyaml.Problems {
	r.problems.Sort()
	return r.problems.Capped()
}

// parse reads YAML, and JSON as the YAML that it is. Only JSON may be indented with tabs; a tab counts as one column, so
// spaces in their place move nothing.
func parse(src Source) (*strictyaml.Node, strictyaml.Problems) {
	text := src.Text
	if start := bytes.TrimLeft(bytes.TrimPrefix(text, []byte("\ufeff")), " \t\r\n"); bytes.HasPrefix(start, []byte("{")) {
		text = indentedWithSpaces(text)
	}
	return strictyaml.Parse(src.Name, text)
}

func indentedWithSpaces(text []byte) []byte {
	lines := bytes.Split(text, []byte("\n"))
	for i, line := range lines {
		indent := line[:len(line)-len(bytes.TrimLeft(line, " \t"))]
		lines[i] = append(bytes.Repeat([]byte(" "), len(indent)), line[len(indent):]...)
	}
	return bytes.Join(lines, []byte("\n"))
}
