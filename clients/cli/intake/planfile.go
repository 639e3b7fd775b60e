package intake

import (
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Plan reads what is to be planned: an inspection, alone or under "inspection" with what is settled beside it. Problems and
// places are as for [Recommend].
func Plan(src Source, bare Bare) (*glossladderv1.PlanJobRequest, *Places, strictyaml.Problems) {
	root, problems := parse(src)
	if root == nil {
		return nil, nil, problems
	}
	r := &reader{bare: bare, places: newPlaces(), problems: problems}
	request := &glossladderv1.PlanJobRequest{}
	r.inspectionOrRequest(root, request.ProtoReflect())
	return request, r.places, r.found()
}

// Estimate reads what is to be estimated: an inspection, which has panels, or what is known of a vehicle that nobody has seen. Problems
// and places are as for [Recommend].
func Estimate(src Source, bare Bare) (*glossladderv1.EstimateJobRequest, *Places, strictyaml.Problems) {
	root, problems := parse(src)
	if root == nil {
		return nil, nil, problems
	}
	r := &reader{bare: bare, places: newPlaces(), problems: problems}
	request := &glossladderv1.EstimateJobRequest{}
	for _, entry := range root.Entries() {
		if entry.Key == "panels" {
			r.inspectionOrRequest(root, request.ProtoReflect())
			return request, r.places, r.found()
		}
	}
	r.message(root, request.ProtoReflect(), "the request", "")
	return request, r.places, r.found()
}

// ToPlan adds the rows to the inspection of a request that [Plan] read, and says how many about trials it left out.
func (rs *Readings) ToPlan(request *glossladderv1.PlanJobRequest, places *Places) (leftOut int, problems strictyaml.Problems) {
	return rs.ToInspection(&glossladderv1.RecommendRequest{Inspection: request.GetInspection()}, places)
}
