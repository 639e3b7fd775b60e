package app

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"path/filepath"
	"sync"
	"sync/atomic"
	"time"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/rpc"
	"github.com/glossladder/glossladder/service/rulefolder"
	"github.com/glossladder/glossladder/service/rulehistory"
)

// rulebookOptions say where rules come from and who is told about them.
type rulebookOptions struct {
	dir     string               // of the shop's own rules; "" for the rules as shipped, which do not change
	history *rulehistory.History // nil: none is kept
	serving bool                 // rules come into force for others; without it a start leaves no trace
	log     *slog.Logger
	onEdit  func(good bool) // told when the files of the folder were taken up or refused
}

// rulebook is the rules in force. A call takes them once; an edit takes their place in one step, or not at all.
type rulebook struct {
	rulebookOptions
	place string // the folder as an absolute path; "" for the rules as shipped

	// recall is what the shop has learned from its record; nil until there is one.
	recall atomic.Pointer[recall]

	inForce atomic.Pointer[rpc.Rules]
	status  atomic.Pointer[rpc.RulesStatus]
	counts  rulebookCounts

	// One build at a time; it owns what stands below, and writes what stands above.
	building sync.Mutex
	seen     string // what the last look at the folder saw
	judged   string // what was last taken up or refused
}

// rulebookCounts count since the start.
type rulebookCounts struct{ takenUp, refused, edits atomic.Int64 }

// openRulebook loads the rules that a start needs. A folder that does not load is refused, unless this is a service that
// knows the last set of it that was in force.
func openRulebook(opts rulebookOptions) (*rulebook, error) {
	b := &rulebook{rulebookOptions: opts}
	if b.dir != "" {
		place, err := filepath.Abs(b.dir)
		if err != nil {
			return nil, fmt.Errorf("rules folder: %w", err)
		}
		b.place = place
	}
	if b.serving {
		b.mendFolder()
	}
	// The look comes before the load: an edit in between is seen by the next look, not missed.
	b.seen = b.fingerprint()
	b.judged = b.seen
	now := time.Now()
	first, err := compileIn(b.dir)
	if err != nil {
		if err := b.openLastGood(err, now); err != nil {
			return nil, err
		}
		return b, nil
	}
	b.status.Store(&rpc.RulesStatus{Folder: b.dir, LastSuccess: now})
	b.putInForce(first, rulehistory.Start, now)
	b.mended()
	return b, nil
}

// InForce is the rules that decide now.
func (b *rulebook) InForce() *rpc.Rules { return b.inForce.Load() }

// Status tells which set decides and what is wrong with the folder.
func (b *rulebook) Status() rpc.RulesStatus { return *b.status.Load() }

// Check looks at a set that is not on disk and puts nothing in force.
func (b *rulebook) Check(files map[string]string, effects bool) (out rpc.RulesChecked, err error) {
	folder, err := folderOf(files)
	if err != nil {
		return out, err
	}
	compiled, err := compile(folder.FS())
	if err != nil {
		return out, err
	}
	out.RuleSet, out.Doubts = compiled.Advisor.RuleSet(), doubtsOf(compiled.Advisor.Set())
	if effects {
		out.Effects, err = b.effects(compiled)
	}
	return out, err
}

// LoadSent loads a set that is not on disk.
func (b *rulebook) LoadSent(files map[string]string) (*rules.Set, error) {
	return ruleLoader{}.LoadSent(files)
}

// putInForce swaps a set in, and keeps it for later when it is another one than before or the service starts.
func (b *rulebook) putInForce(next *rpc.Rules, way rulehistory.Way, now time.Time) {
	before := b.inForce.Load()
	status := b.Status()
	changed := status.RuleSet != next.Advisor.RuleSet()
	if changed || status.HistoryProblem != "" {
		status.HistoryProblem = b.remember(before, next, way, now)
	}
	if changed {
		status.RuleSet, status.Since, status.Way = next.Advisor.RuleSet(), now, way
	}
	next.Instruments.Lessons = b.lessonsFor(next)
	b.inForce.Store(next)
	b.status.Store(&status)
}

// lessonsFor is the way from a set to what the shop has learned, by what the set expects.
func (b *rulebook) lessonsFor(set *rpc.Rules) func() advisor.Lessons {
	return func() advisor.Lessons {
		if recall := b.recall.Load(); recall != nil {
			return recall.lessons(set.Advisor)
		}
		return nil
	}
}

// mendFolder ends an edit that a crash of a service cut short.
func (b *rulebook) mendFolder() {
	if b.dir == "" {
		return
	}
	stuck, err := rulefolder.Folder(b.dir).Mend(context.Background())
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		b.log.Warn("the rules folder cannot be looked after", slog.String("folder", b.dir), slog.String("error", err.Error()))
	}
	if stuck != "" {
		b.log.Error("an edit of the rules was cut short, and a file has been changed since; look whether its files fit together",
			slog.String("folder", b.dir), slog.String("file", stuck))
	}
}

// fingerprint is equal for two looks at the folder that saw the same names and bytes.
func (b *rulebook) fingerprint() string {
	files, err := rulefolder.Read(rulesIn(b.dir))
	if err != nil {
		return "unreadable: " + err.Error()
	}
	return files.Etag()
}

// problemsOf is an error of a load as problems: files that cannot be read at all are one.
func problemsOf(err error) rules.Problems {
	if problems, ok := errors.AsType[rules.Problems](err); ok && len(problems) > 0 {
		return problems
	}
	return rules.Problems{{File: ".", Message: err.Error()}}
}
