package cli

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/protobuf/types/known/timestamppb"

	"github.com/glossladder/glossladder/clients/cli/intake"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// kept is the flags of commands about vehicles and jobs: where they are kept, and what comes with what is recorded.
type kept struct {
	requestID string
	by        string
	happened  string
	tryOnly   bool
}

// keeps adds the flags that say where vehicles and jobs are kept.
func (p *program) keeps(cmd *cobra.Command) {
	p.reachable(cmd)
	p.dataFlag(cmd)
	p.outputFlag(cmd)
}

func (p *program) dataFlag(cmd *cobra.Command) {
	cmd.Flags().StringVar(&p.data, "data", "", "file to keep vehicles and jobs in, or postgres:// and a database (left out: jobs.db in the user's data folder)")
}

// once adds the flag that makes a call safe to repeat.
func (k *kept) once(cmd *cobra.Command) {
	cmd.Flags().StringVar(&k.requestID, "request-id", "", "id of the request, to run a command again that may have been recorded already (left out: a new one)")
}

// entries adds the flags of what comes with everything that is recorded.
func (k *kept) entries(cmd *cobra.Command) {
	k.once(cmd)
	cmd.Flags().StringVar(&k.by, "by", "", "who records it, as the shop says it: a station, a role, initials")
	cmd.Flags().StringVar(&k.happened, "happened", "", "when it happened, as 2026-11-25 14:30 (left out: now)")
	cmd.Flags().BoolVar(&k.tryOnly, "try", false, "check everything and record nothing")
}

// id is the request's id: the one that was told, or a new one.
func (k *kept) id() string {
	if k.requestID == "" {
		k.requestID = strings.ToLower(rand.Text())
	}
	return k.requestID
}

func (k *kept) entry() (*glossladderv1.Entry, error) {
	out := &glossladderv1.Entry{RequestId: k.id(), RecordedBy: k.by, ValidateOnly: k.tryOnly}
	if k.happened != "" {
		at, err := intake.Time(k.happened)
		if err != nil {
			return nil, &usageError{"--happened " + err.Error()}
		}
		out.HappenTime = timestamppb.New(at)
	}
	return out, nil
}

// defaultData is the file that vehicles and jobs are kept in unless the command line says another.
func defaultData() (string, error) {
	folder, err := stateFolder()
	if err != nil {
		return "", errors.New("this user has no home folder to keep jobs in; name a file with --data")
	}
	return filepath.Join(folder, "jobs.db"), nil
}

// settle fills in where vehicles and jobs are kept.
func (p *program) settle() error {
	if p.server != "" {
		if p.data != "" {
			return &usageError{"--data and --server exclude each other: a service elsewhere keeps jobs where it was told to"}
		}
		return nil
	}
	if p.data == "" {
		file, err := defaultData()
		if err != nil {
			return err
		}
		p.data = file
		if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
			return fmt.Errorf("keep jobs in %s: %w", file, err)
		}
	}
	return nil
}

// isDatabase tells a database from a file.
func isDatabase(data string) bool { return strings.Contains(data, "://") }

// jobs calls the keeper of vehicles and jobs.
func (p *program) jobs(ctx context.Context, call func(context.Context, glossladderv1.JobServiceClient) error) error {
	if err := p.settle(); err != nil {
		return err
	}
	return p.reach(ctx, func(ctx context.Context, connection *grpc.ClientConn) error {
		return call(ctx, glossladderv1.NewJobServiceClient(connection))
	})
}

// carry calls the keeper without a limit of time, for what is as long as a shop's past.
func (p *program) carry(ctx context.Context, call func(context.Context, glossladderv1.JobServiceClient) error) (err error) {
	if err := p.settle(); err != nil {
		return err
	}
	connection, end, err := p.connect()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, end()) }()
	return call(ctx, glossladderv1.NewJobServiceClient(connection))
}

// record makes a call that records something, and says how to repeat it safely when it is not known whether it was done.
func (p *program) record(ctx context.Context, k *kept, call func(context.Context, glossladderv1.JobServiceClient) error) error {
	err := p.jobs(ctx, call)
	if st, ok := statusIn(err); ok && unsure(st.Code()) && !k.tryOnly {
		fmt.Fprintf(p.err, "glossladder: it may have been recorded. Run again with --request-id %s: what was recorded is not recorded twice\n", k.id())
	}
	return err
}

// unsure says whether a call that ended so may have done its work, or may do it when it is sent again.
func unsure(code codes.Code) bool {
	switch code {
	case codes.Unavailable, codes.DeadlineExceeded, codes.Canceled, codes.Unknown, codes.Internal, codes.ResourceExhausted, codes.Aborted:
		return true
	}
	return false
}

// named is a resource name from a name or from its id alone.
func named(collection, word string) string {
	if strings.HasPrefix(word, collection+"/") {
		return word
	}
	return collection + "/" + word
}

// idOf is the id of a resource name.
func idOf(name string) string { return name[strings.LastIndexByte(name, '/')+1:] }

// oneNamed accepts one name, such as that of a job.
func oneNamed(what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return &usageError{fmt.Sprintf("name one %s: %s", what, cmd.Use)}
		}
		return nil
	}
}

// group makes a command that holds others.
func group(use, short, long string, commands ...*cobra.Command) *cobra.Command {
	cmd := &cobra.Command{
		Use: use, Short: short, Long: long, Args: noArguments,
		RunE: func(cmd *cobra.Command, _ []string) error {
			var names []string
			for _, c := range cmd.Commands() {
				names = append(names, c.Name())
			}
			return &usageError{"say what to do: " + strings.Join(names, ", ")}
		},
	}
	cmd.AddCommand(commands...)
	return cmd
}

func timeFlag(flag, text string) (*timestamppb.Timestamp, error) {
	if text == "" {
		return nil, nil
	}
	at, err := intake.Time(text)
	if err != nil {
		return nil, &usageError{flag + " " + err.Error()}
	}
	return timestamppb.New(at), nil
}

// zone is how times are shown: by this machine's clock.
func zone() *time.Location { return time.Local } //nolint:gosmopolitan // people read the time of their clock
