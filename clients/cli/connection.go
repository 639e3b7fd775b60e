package cli

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

// answerTime is how long a service elsewhere may take.
const answerTime = 30 * time.Second

// reachable adds the flags that say which service answers.
func (p *program) reachable(cmd *cobra.Command) {
	cmd.Flags().StringVar(&p.rulesDir, "rules", "", "folder of the rules to decide by (left out: the rules as shipped)")
	p.serverFlags(cmd, "host:port of a running service, which has its own rules (left out: the service runs inside this command)")
}

// ask calls the adviser: the one at --server, or one made for this call, over a connection in memory.
func (p *program) ask(ctx context.Context, call func(context.Context, glossladderv1.AdvisorServiceClient) error) error {
	return p.reach(ctx, func(ctx context.Context, connection *grpc.ClientConn) error {
		return call(ctx, glossladderv1.NewAdvisorServiceClient(connection))
	})
}

// reach connects to the service at --server, or to one made for this call, and ends the connection afterwards.
func (p *program) reach(ctx context.Context, call func(context.Context, *grpc.ClientConn) error) (err error) {
	ctx, cancel := context.WithTimeout(ctx, answerTime)
	defer cancel()
	connection, end, err := p.connect()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, end()) }()
	return call(ctx, connection)
}

func (p *program) connect() (*grpc.ClientConn, func() error, error) {
	if p.server != "" && p.rulesDir != "" {
		return nil, nil, &usageError{"--rules and --server exclude each other: a service elsewhere decides by its own rules"}
	}
	if p.server != "" {
		options, err := p.dialOptions()
		if err != nil {
			return nil, nil, err
		}
		connection, err := grpc.NewClient(p.server, options...)
		if err != nil {
			return nil, nil, fmt.Errorf("server %s: %w", p.server, err)
		}
		return connection, connection.Close, nil
	}
	service, err := app.New(app.Options{RulesDir: p.rulesDir, StateDir: p.stateDir, Data: p.data})
	if err != nil {
		return nil, nil, err
	}
	connection, err := service.Dial()
	if err != nil {
		return nil, nil, errors.Join(err, service.Close())
	}
	return connection, func() error { return errors.Join(connection.Close(), service.Close()) }, nil
}
