package bench

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"strings"
	"time"

	"github.com/glossladder/glossladder/cmd/tools/peers/serve"
)

// ErrLimit says that an engine was ended because it took too long.
var ErrLimit = errors.New("took too long")

// process is an engine that runs in a process of its own.
type process struct {
	cancel context.CancelFunc
	cmd    *exec.Cmd
	in     io.WriteCloser
	to     *json.Encoder
	from   *json.Decoder
	said   bytes.Buffer // on its standard error
}

func start(ctx context.Context, command []string) (*process, error) {
	ctx, cancel := context.WithCancel(ctx)
	p := &process{cancel: cancel, cmd: exec.CommandContext(ctx, command[0], command[1:]...)}
	p.cmd.Stderr = &p.said
	in, errIn := p.cmd.StdinPipe()
	out, errOut := p.cmd.StdoutPipe()
	if err := errors.Join(errIn, errOut); err != nil {
		cancel()
		return nil, fmt.Errorf("open pipes: %w", err)
	}
	if err := p.cmd.Start(); err != nil {
		cancel()
		return nil, fmt.Errorf("start %s: %w", command[0], err)
	}
	p.in, p.to, p.from = in, json.NewEncoder(in), json.NewDecoder(out)
	return p, nil
}

// call sends one request. After an error the process is of no use.
func (p *process) call(q serve.Request, limit time.Duration) (serve.Reply, error) {
	late := time.AfterFunc(limit, p.cancel)
	var reply serve.Reply
	err := p.to.Encode(q)
	if err == nil {
		err = p.from.Decode(&reply)
	}
	switch {
	case !late.Stop():
		return reply, fmt.Errorf("%w: more than %s", ErrLimit, limit)
	case err != nil:
		return reply, fmt.Errorf("talk to the engine: %w; it said %q", err, p.lastWords())
	case reply.Error != "":
		return reply, errors.New(reply.Error)
	}
	return reply, nil
}

// stop ends the process and waits for it.
func (p *process) stop() {
	_ = p.in.Close() // it ends by itself when there are no more requests
	p.cancel()
	_ = p.cmd.Wait() // ended by us: how it went does not matter
}

// lastWords is the last line that a broken process wrote to its standard error. It waits for the process to end, a moment
// at most.
func (p *process) lastWords() string {
	late := time.AfterFunc(time.Second, p.cancel)
	defer late.Stop()
	_ = p.in.Close()
	_ = p.cmd.Wait() // broken: how it went is what it said
	lines := strings.Split(strings.TrimSpace(p.said.String()), "\n")
	return lines[len(lines)-1]
}
