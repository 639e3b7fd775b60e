package intake

import (
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Explain reads what is to be explained: trials, as for [Judge], or an inspection alone, as for [Recommend]; then the
// request holds no trials and no panel. Problems and places are as for them.
func Explain(src Source, inspection *Source, bare Bare) (*glossladderv1.JudgeTrialRequest, *Places, strictyaml.Problems) {
	if inspection != nil || hasTrials(src) {
		return Judge(src, inspection, bare)
	}
	request, places, problems := Recommend(src, bare)
	if request == nil {
		return nil, nil, problems
	}
	return &glossladderv1.JudgeTrialRequest{Inspection: request.GetInspection()}, places, problems
}

// hasTrials tells a file of trials from one that holds an inspection only.
func hasTrials(src Source) bool {
	root, _ := parse(src)
	if root == nil {
		return false
	}
	for _, entry := range root.Entries() {
		if entry.Key == "trials" {
			return true
		}
	}
	return false
}

// ToExplain adds the rows to a request that [Explain] read: all of them where there are trials, and otherwise those of the
// inspection.
func (rs *Readings) ToExplain(request *glossladderv1.JudgeTrialRequest, places *Places) strictyaml.Problems {
	if len(request.GetTrials()) > 0 {
		return rs.ToTrials(request, places)
	}
	_, problems := rs.ToInspection(&glossladderv1.RecommendRequest{Inspection: request.GetInspection()}, places)
	return problems
}
