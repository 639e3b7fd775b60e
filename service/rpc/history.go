package rpc

import (
	"context"
	"errors"
	"fmt"

	"google.golang.org/grpc"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/hindsight"
	"github.com/glossladder/glossladder/service/history/lessons"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// RuleLoader makes rule sets of files.
type RuleLoader interface {
	// LoadSent loads a set that a caller sent, as strictly as one that comes into force. The error is [rules.Problems] when the
	// files are at fault.
	LoadSent(files map[string]string) (*rules.Set, error)
	// LoadKept loads a set that decided once, so that its decisions can be looked at again: tables that it did not have yet are
	// taken from the shipped rules.
	LoadKept(files map[string][]byte) (*rules.Set, error)
	// Keeps says whether a set keeps the safety promises.
	Keeps(set *rules.Set) bool
}

// KeptSetError says that a decision's rule set cannot be had.
type KeptSetError struct {
	RuleSet string
	Cause   error
}

func (e *KeptSetError) Error() string {
	return fmt.Sprintf("the rule set %.12s that made the decision cannot be had: %v", e.RuleSet, e.Cause)
}

func (e *KeptSetError) Unwrap() error { return e.Cause }

// SentRulesError says that a set that was sent does not load.
type SentRulesError struct{ Problems rules.Problems }

func (e *SentRulesError) Error() string {
	says := "the rules that were sent do not load: " + e.Problems[0].Error()
	if more := len(e.Problems) - 1; more > 0 {
		says += fmt.Sprintf(" (and %d more)", more)
	}
	return says
}

// HistoryServer serves HistoryService.
type HistoryServer struct {
	glossladderv1.UnimplementedHistoryServiceServer
	rules  Rulebook
	record JobRecord
	loader RuleLoader
}

// NewHistoryServer serves from the rules in force, a record and a way to load rule sets.
func NewHistoryServer(rules Rulebook, record JobRecord, loader RuleLoader) *HistoryServer {
	return &HistoryServer{rules: rules, record: record, loader: loader}
}

// GetLessons tells what usually works here.
func (s *HistoryServer) GetLessons(ctx context.Context, req *glossladderv1.GetLessonsRequest) (*glossladderv1.GetLessonsResponse, error) {
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	records := lessons.NewRecords()
	if err := records.Read(store.Scan(ctx, history.ScanQuery{Kinds: lessons.Kinds(), Lean: true})); err != nil {
		return nil, statusOf(err, "")
	}
	inForce := s.rules.InForce().Advisor
	asked := lessons.Class{
		Softness: vocabulary.WordOf(req.GetSoftness()), Kind: vocabulary.WordOf(req.GetDefect()), Shade: vocabulary.WordOf(req.GetShade()),
		Band: lessons.BandOf(req.Severity),
	}
	split := lessons.Split{Softness: asked.Softness != "", Band: req.Severity != nil, Kind: asked.Kind != "", Shade: asked.Shade != ""}
	var also []lessons.Class
	if req.GetEveryClass() {
		split.Softness, split.Band, split.Kind = true, true, true
	} else {
		for _, step := range []string{"finish", "polish", "cut"} {
			c := asked
			c.Step = step
			also = append(also, c)
		}
	}
	learned, err := lessons.Learn(records, split, Expecting(inForce), also...)
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.GetLessonsResponse{Jobs: int32(learned.Jobs()), ConfidencePct: 100 * lessons.Confidence}
	for _, lesson := range learned.All() {
		if !asked.Covers(lesson.Class) {
			continue
		}
		usual, err := usualOf(inForce, lesson.Class)
		if err != nil {
			return nil, statusOf(err, "")
		}
		out.Lessons = append(out.Lessons, lessonOut(&lesson, req, usual.Reason))
	}
	for step, panels := range records.Starts(asked) {
		out.Proven = append(out.Proven, &glossladderv1.ProvenStart{Step: word[glossladderv1.Step](step), Panels: int32(panels)})
	}
	return out, nil
}

// ReplayRules asks a set that is sent what every recorded decision was asked.
func (s *HistoryServer) ReplayRules(req *glossladderv1.ReplayRulesRequest, stream grpc.ServerStreamingServer[glossladderv1.ReplayRulesResponse]) error {
	ctx := stream.Context()
	set, err := s.loader.LoadSent(req.GetFiles())
	if problems, ok := errors.AsType[rules.Problems](err); ok {
		err = &SentRulesError{problems}
	}
	if err != nil {
		return statusOf(err, "")
	}
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return statusOf(err, "")
	}
	told := 0
	report, err := hindsight.Replay(ctx, store.Traces(ctx), set, hindsight.Options{
		Kept: func(hash string) (*rules.Set, bool) {
			kept, err := s.kept(ctx, store, hash)
			return kept, err == nil // a set that is not there is counted in the report
		},
		Progress: func(done int) {
			const each = 5000
			if done/each > told/each {
				told = done
				// A caller who is gone is noticed by the context.
				_ = stream.Send(&glossladderv1.ReplayRulesResponse{What: &glossladderv1.ReplayRulesResponse_DecisionsDone{DecisionsDone: int64(done)}})
			}
		},
	})
	if err != nil {
		return statusOf(err, "")
	}
	return stream.Send(&glossladderv1.ReplayRulesResponse{What: &glossladderv1.ReplayRulesResponse_Report{Report: replayOut(report)}})
}

// kept is the set of a hash out of the archive. The error is a [*KeptSetError] or that of the store.
func (s *HistoryServer) kept(ctx context.Context, store history.Store, hash string) (*rules.Set, error) {
	document, err := store.RuleSet(ctx, hash)
	if _, missing := errors.AsType[*history.NotFoundError](err); missing {
		return nil, &KeptSetError{hash, err}
	}
	if err != nil {
		return nil, err
	}
	files, err := history.UnpackRuleSet(document)
	if err != nil {
		return nil, &KeptSetError{hash, err}
	}
	set, err := s.loader.LoadKept(files)
	if err != nil {
		return nil, &KeptSetError{hash, err}
	}
	return set, nil
}

// ListRuleHints names bounds that outcomes on record speak against.
func (s *HistoryServer) ListRuleHints(ctx context.Context, req *glossladderv1.ListRuleHintsRequest) (*glossladderv1.ListRuleHintsResponse, error) {
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	set := s.rules.InForce().Advisor.Set()
	hints, err := hindsight.Hints(ctx, store.Traces(ctx), set, hindsight.Weigh{
		Least: int(req.GetLeastOutcomes()), Surely: req.GetSurelyPct() / 100, Keeps: s.loader.Keeps,
	})
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.ListRuleHintsResponse{RuleSet: set.Hash(), Limits: hindsight.HintLimits()}
	for i := range hints {
		out.Hints = append(out.Hints, hintOut(&hints[i]))
	}
	return out, nil
}

// ExplainDecision puts a recorded decision into words again.
func (s *HistoryServer) ExplainDecision(ctx context.Context, req *glossladderv1.ExplainDecisionRequest) (*glossladderv1.ExplainDecisionResponse, error) {
	var wrong faults
	id := wrong.id("job", jobs, req.GetJob())
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	events, err := store.Events(ctx, id, req.GetSequence()-1, 1)
	if err != nil {
		return nil, statusOf(err, "")
	}
	if len(events) == 0 {
		return nil, statusOf(&history.NotFoundError{What: "event", ID: fmt.Sprintf("%d of job %s", req.GetSequence(), id)}, "")
	}
	decision, ok := events[0].Body.(*history.Decision)
	if !ok {
		return nil, statusOf(&history.InputError{
			Field: "sequence", Says: fmt.Sprintf("is %d, which is of kind %s; name an event of kind decision", req.GetSequence(), events[0].Body.Kind()),
		}, "")
	}
	set, err := s.kept(ctx, store, decision.RuleSet)
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.ExplainDecisionResponse{RuleSet: decision.RuleSet, Trial: decision.Trial}
	for _, e := range hindsight.Explain(set, decision) {
		if (req.GetPanelId() == "" || e.Panel == req.GetPanelId()) && (req.GetTable() == "" || e.Explanation.Table == req.GetTable()) {
			out.Questions = append(out.Questions, questionOut(&e, set.Schema()))
		}
	}
	return out, nil
}
