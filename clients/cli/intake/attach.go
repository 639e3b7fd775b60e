package intake

import (
	"fmt"
	"strconv"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// ToInspection adds the rows of the inspection to a recommend request, and their places to places. A spot that the request
// has already gets the readings too; another is put behind. Rows about trials are left out and counted. The request
// changes even if there are problems.
func (rs *Readings) ToInspection(request *glossladderv1.RecommendRequest, places *Places) (leftOut int, problems strictyaml.Problems) {
	a := &attaching{readings: rs, places: places, inspection: request.GetInspection()}
	for _, r := range rs.rows {
		if r.when.phase != found {
			leftOut++
			continue
		}
		a.toPanel(r)
	}
	return leftOut, a.problems.Capped()
}

// ToTrials adds the rows of the inspection and of the trials to a judge request, and their places to places.
func (rs *Readings) ToTrials(request *glossladderv1.JudgeTrialRequest, places *Places) strictyaml.Problems {
	a := &attaching{readings: rs, places: places, inspection: request.GetInspection()}
	for _, r := range rs.rows {
		if r.when.phase == found {
			a.toPanel(r)
		} else {
			a.toTrial(r, request)
		}
	}
	return a.problems.Capped()
}

// attaching is a table on its way into a request.
type attaching struct {
	readings   *Readings
	places     *Places
	inspection *glossladderv1.Inspection
	problems   strictyaml.Problems
}

func (a *attaching) complain(at strictyaml.Pos, message, hint string) {
	a.problems = append(a.problems, strictyaml.Problem{File: a.readings.file, Pos: at, Message: message, Hint: hint})
}

func (a *attaching) toPanel(r row) {
	index, ok := a.panel(r.panel)
	if !ok {
		return
	}
	panel := a.inspection.GetPanels()[index].ProtoReflect()
	a.put(r, panel, "inspection.panels["+strconv.Itoa(index)+"]", "film", "gloss")
}

func (a *attaching) panel(c cell) (int, bool) {
	var ids []string
	for i, panel := range a.inspection.GetPanels() {
		if panel.GetId() == c.text {
			return i, true
		}
		ids = append(ids, panel.GetId())
	}
	hint := "the inspection has " + strings.Join(ids, ", ")
	if near := strictyaml.Nearest(c.text, ids); near != "" {
		hint = "did you mean " + near + "?"
	}
	a.complain(c.at, fmt.Sprintf("%s is not a panel of the inspection", shown(c.text)), hint)
	return 0, false
}

func (a *attaching) toTrial(r row, request *glossladderv1.JudgeTrialRequest) {
	if _, ok := a.panel(r.panel); !ok {
		return
	}
	if r.panel.text != request.GetPanelId() {
		a.complain(r.panel.at, fmt.Sprintf("the trials are about %s, not %s", request.GetPanelId(), r.panel.text), "leave the row out")
		return
	}
	number := r.when.trial
	if number == 0 {
		number = len(request.GetTrials())
	}
	if number == 0 || number > len(request.GetTrials()) {
		a.complain(r.whenAt, fmt.Sprintf("there are %d trials, and none is number %d", len(request.GetTrials()), number), "")
		return
	}
	trial := request.GetTrials()[number-1].ProtoReflect()
	path := "trials[" + strconv.Itoa(number-1) + "]"
	if r.when.phase == beforeTrial {
		a.put(r, trial, path, "film_before", "before")
	} else {
		a.put(r, trial, path, "film_after", "after")
	}
}

// put adds a row's readings to the spots of a panel or a trial, which stand in two of its fields.
func (a *attaching) put(r row, into protoreflect.Message, path string, filmField, glossField protoreflect.Name) {
	for _, reading := range r.readings {
		field := glossField
		if reading.column.film() {
			field = filmField
		}
		spot, at := a.spot(r, into, path, field)
		fields := spot.Descriptor().Fields()
		list := spot.Mutable(fields.ByName(protoreflect.Name(reading.column.field))).List()
		a.places.put(fmt.Sprintf("%s.%s[%d]", at, reading.column.field, list.Len()), Place{File: a.readings.file, Pos: reading.at})
		list.Append(protoreflect.ValueOfFloat64(reading.value))
		if reading.column.film() && r.nearEdge {
			spot.Set(fields.ByName("near_edge"), protoreflect.ValueOfBool(true))
		}
	}
}

// spot finds the spot of a row by its name, or puts a new one behind the others.
func (a *attaching) spot(r row, into protoreflect.Message, path string, field protoreflect.Name) (spot protoreflect.Message, at string) {
	list := into.Mutable(into.Descriptor().Fields().ByName(field)).List()
	path += "." + string(field)
	for i := range list.Len() {
		spot := list.Get(i).Message()
		if spot.Get(spot.Descriptor().Fields().ByName("spot")).String() == r.spot.text {
			return spot, path + "[" + strconv.Itoa(i) + "]"
		}
	}
	path += "[" + strconv.Itoa(list.Len()) + "]"
	added := list.AppendMutable().Message()
	added.Set(added.Descriptor().Fields().ByName("spot"), protoreflect.ValueOfString(r.spot.text))
	a.places.put(path, Place{File: a.readings.file, Pos: r.spot.at})
	a.places.put(path+".spot", Place{File: a.readings.file, Pos: r.spot.at})
	return added, path
}
