package rpc

import (
	"context"
	"errors"
	"unicode/utf8"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/check"
	"github.com/glossladder/glossladder/rules/compare"
	"github.com/glossladder/glossladder/rules/strictyaml"
	"github.com/glossladder/glossladder/service/rulefolder"
)

// ErrShippedRules says that there is no folder to edit.
var ErrShippedRules = errors.New("the rules as shipped cannot be edited; make a copy with glossladder rules copy my-rules, and serve it with --rules my-rules")

// RulesEdit is an edit of the shop's folder.
type RulesEdit struct {
	// Change says what to change, given the files as they are. It is asked once, while nobody else can edit.
	Change func(now rulefolder.Files) ([]rulefolder.Change, error)
	// FolderEtag, unless empty, is that of all files as they were read.
	FolderEtag string
	// AcceptStronger is the code of the stronger answers that are accepted, see [compare.Report.Acceptance].
	AcceptStronger string
	// ValidateOnly does everything but write.
	ValidateOnly bool
}

// RulesEdited is what came of an edit.
type RulesEdited struct {
	RuleSet  string
	Files    rulefolder.Files // all, after the edit
	Changed  []string         // those that the edit speaks of
	Findings []check.Finding
	Effects  *compare.Report // against the set that was in force; nil when no file of it differs
}

// RulesEditor gives and edits the files of the folder.
type RulesEditor interface {
	// Files are those of the folder as they are now.
	Files() (rulefolder.Files, error)
	// Edit does an edit whole or not at all. The error is [rules.Problems] when the set that it would leave does not load,
	// [*StrongerError], [ErrShippedRules], or one of package rulefolder.
	Edit(ctx context.Context, edit RulesEdit) (RulesEdited, error)
}

// ListRuleFiles lists the files of the folder, or of a set in the history.
func (s *RulesServer) ListRuleFiles(_ context.Context, req *glossladderv1.ListRuleFilesRequest) (*glossladderv1.ListRuleFilesResponse, error) {
	files, err := s.filesOf(req.GetRuleSet())
	if err != nil {
		return nil, statusOf(err, "rule_set")
	}
	names, next, err := pageOf(files.Names(), files.Etag(), req)
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.ListRuleFilesResponse{FolderEtag: files.Etag(), NextPageToken: next}
	for _, name := range names {
		out.Files = append(out.Files, fileOut(name, files[name], false))
	}
	return out, nil
}

// GetRuleFile gives one file with its text.
func (s *RulesServer) GetRuleFile(_ context.Context, req *glossladderv1.GetRuleFileRequest) (*glossladderv1.RuleFile, error) {
	files, err := s.filesOf(req.GetRuleSet())
	if err != nil {
		return nil, statusOf(err, "rule_set")
	}
	text, ok := files[req.GetName()]
	switch {
	case !ok:
		return nil, statusOf(&rulefolder.NoFileError{Name: req.GetName(), Near: strictyaml.Nearest(req.GetName(), files.Names())}, "")
	case !utf8.Valid(text):
		return nil, statusOf(&NotTextError{Name: req.GetName()}, "")
	}
	return fileOut(req.GetName(), text, true), nil
}

// CreateRuleFile adds a file.
func (s *RulesServer) CreateRuleFile(ctx context.Context, req *glossladderv1.CreateRuleFileRequest) (*glossladderv1.RulesEdit, error) {
	change, err := creation(req.GetFile(), "file")
	if err != nil {
		return nil, statusOf(err, "")
	}
	return s.edit(ctx, []rulefolder.Change{change}, req)
}

// UpdateRuleFile gives a file another text.
func (s *RulesServer) UpdateRuleFile(ctx context.Context, req *glossladderv1.UpdateRuleFileRequest) (*glossladderv1.RulesEdit, error) {
	change, err := replacement(req.GetFile(), "file")
	if err != nil {
		return nil, statusOf(err, "")
	}
	return s.edit(ctx, []rulefolder.Change{change}, req)
}

// DeleteRuleFile takes a file away.
func (s *RulesServer) DeleteRuleFile(ctx context.Context, req *glossladderv1.DeleteRuleFileRequest) (*glossladderv1.RulesEdit, error) {
	change := rulefolder.Change{Name: req.GetName(), Etag: req.GetEtag(), Delete: true}
	return s.edit(ctx, []rulefolder.Change{change}, req)
}

// BatchUpdateRuleFiles edits several files as one.
func (s *RulesServer) BatchUpdateRuleFiles(ctx context.Context, req *glossladderv1.BatchUpdateRuleFilesRequest) (*glossladderv1.RulesEdit, error) {
	changes, err := changesIn(req.GetEdits())
	if err != nil {
		return nil, statusOf(err, "")
	}
	return s.edit(ctx, changes, req)
}

// editRequest is what all edits of files have in common.
type editRequest interface {
	GetFolderEtag() string
	GetAcceptStronger() string
	GetValidateOnly() bool
}

func (s *RulesServer) edit(ctx context.Context, changes []rulefolder.Change, req editRequest) (*glossladderv1.RulesEdit, error) {
	return s.editBy(ctx, RulesEdit{
		Change:     func(rulefolder.Files) ([]rulefolder.Change, error) { return changes, nil },
		FolderEtag: req.GetFolderEtag(), AcceptStronger: req.GetAcceptStronger(), ValidateOnly: req.GetValidateOnly(),
	})
}

func (s *RulesServer) editBy(ctx context.Context, edit RulesEdit) (*glossladderv1.RulesEdit, error) {
	done, err := s.desk.Edit(ctx, edit)
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.RulesEdit{
		RuleSet: done.RuleSet, FolderEtag: done.Files.Etag(), Findings: findingsOut(done.Findings), ValidatedOnly: edit.ValidateOnly,
		Effects: effectsOut(done.Effects),
	}
	for _, name := range done.Changed {
		if text, ok := done.Files[name]; ok {
			out.Files = append(out.Files, fileOut(name, text, true))
		}
	}
	return out, nil
}

// filesOf are the files of a set in the history, or of the folder as it is now.
func (s *RulesServer) filesOf(ruleSet string) (rulefolder.Files, error) {
	if ruleSet == "" {
		return s.desk.Files()
	}
	_, files, err := s.desk.Archived(ruleSet)
	return files, err
}

func fileOut(name string, text []byte, whole bool) *glossladderv1.RuleFile {
	out := &glossladderv1.RuleFile{Name: name, Etag: rulefolder.Etag(text), SizeBytes: int64(len(text))}
	if whole {
		out.Text = string(text)
	}
	return out
}
