package rpc

import (
	"errors"
	"fmt"
	"io"

	"google.golang.org/grpc"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/transcript"
)

// mostImported is how much one job's lines may hold together: many times what a long job does.
const mostImported = 256 << 20

// ExportJob gives a job as it is kept.
func (s *JobServer) ExportJob(req *glossladderv1.ExportJobRequest, stream grpc.ServerStreamingServer[glossladderv1.ExportJobResponse]) error {
	ctx := stream.Context()
	id, store, _, err := s.open(ctx, req.GetName())
	if err != nil {
		return statusOf(err, "")
	}
	told, err := transcript.Of(ctx, store, id)
	if err != nil {
		return statusOf(err, "")
	}
	for line, err := range told.Lines() {
		if err != nil {
			return statusOf(err, "")
		}
		if err := stream.Send(&glossladderv1.ExportJobResponse{Line: string(line)}); err != nil {
			return statusOf(err, "")
		}
	}
	return nil
}

// ImportJob takes the lines of one exported job and keeps it as it was.
func (s *JobServer) ImportJob(stream grpc.ClientStreamingServer[glossladderv1.ImportJobRequest, glossladderv1.ImportJobResponse]) error {
	told, err := readTranscript(stream)
	if err != nil {
		return statusOf(err, "")
	}
	ctx := stream.Context()
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return statusOf(err, "")
	}
	kept, err := told.Keep(ctx, store, s.now())
	if err != nil {
		return statusOf(err, "")
	}
	s.bell.ring(told.Job())
	out := &glossladderv1.ImportJobResponse{AddedEvents: int64(kept.Added), VehicleMade: kept.VehicleMade}
	if out.Job, err = jobOut(ctx, store, kept.Job); err != nil {
		return err
	}
	return stream.SendAndClose(out)
}

// readTranscript reads lines up to the last, and then that every event can be told: what cannot is not taken in.
func readTranscript(stream grpc.ClientStreamingServer[glossladderv1.ImportJobRequest, glossladderv1.ImportJobResponse]) (*transcript.Transcript, error) {
	var lines transcript.Reader
	size := 0
	for {
		m, err := stream.Recv()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		if size += len(m.GetLine()); size > mostImported {
			return nil, &RequestError{"line", "the job's lines hold more than 256 MiB together, which no job does"}
		}
		if err := lines.Add([]byte(m.GetLine())); err != nil {
			return nil, err
		}
	}
	told, err := lines.Transcript()
	if err != nil {
		return nil, err
	}
	for _, set := range told.RuleSets {
		if err := checkSet(&set); err != nil {
			return nil, err
		}
	}
	if _, err := eventsOut(told.Events, told.Events); err != nil {
		return nil, &RequestError{"line", err.Error()}
	}
	return told, nil
}

// checkSet refuses files that are not those of the hash they came under: decisions would be explained by other rules than made
// them.
func checkSet(set *transcript.RuleSet) error {
	files, err := history.UnpackRuleSet(set.Files)
	if err == nil && rules.HashOf(files) != set.Hash {
		err = fmt.Errorf("rule set %s has other files than it had", set.Hash)
	}
	if err != nil {
		return &RequestError{"line", err.Error()}
	}
	return nil
}
