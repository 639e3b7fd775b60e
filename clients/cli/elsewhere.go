package cli

import (
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials"
	"google.golang.org/grpc/credentials/insecure"

	"github.com/glossladder/glossladder/service/access"
)

// keyVariable is where a key may stand instead of in a file.
const keyVariable = "GLOSSLADDER_KEY"

// elsewhere says which running service answers, and how to get in.
type elsewhere struct {
	// keyFile and trusted are files, "" if none is named.
	keyFile, trusted string
	// stranger is why the service was not trusted, nil if it was.
	stranger chan error
}

// serverFlags adds the flags that say which running service answers.
func (p *program) serverFlags(cmd *cobra.Command, usage string) {
	cmd.Flags().StringVar(&p.server, "server", "", usage)
	cmd.Flags().StringVar(&p.at.keyFile, "key-file", "", "file with the access key for a --server on another machine (or GLOSSLADDER_KEY)")
	cmd.Flags().StringVar(&p.at.trusted, "ca", "", "certificates to trust for it, PEM (left out: the service that made the key, and no other)")
}

// dialOptions are plain and without a key on this machine, TLS and with one anywhere else.
func (p *program) dialOptions() ([]grpc.DialOption, error) {
	if onlyHere(p.server) && p.at.trusted == "" {
		return []grpc.DialOption{grpc.WithTransportCredentials(insecure.NewCredentials())}, nil
	}
	key, err := p.key()
	if err != nil {
		return nil, err
	}
	p.at.stranger = make(chan error, 1)
	proof, err := access.NewCredentials(key, p.at.trusted, p.server, func(why error) {
		select {
		case p.at.stranger <- why:
		default: // told already
		}
	})
	if err != nil {
		return nil, err
	}
	return []grpc.DialOption{grpc.WithTransportCredentials(credentials.NewTLS(proof.TLS)), grpc.WithPerRPCCredentials(proof)}, nil
}

// key reads the access key.
func (p *program) key() (string, error) {
	if p.at.keyFile == "" {
		if key := os.Getenv(keyVariable); key != "" {
			return key, nil
		}
		return "", &usageError{fmt.Sprintf("%s is another machine, where an access key is needed; make one there with: glossladder key add NAME, and name its file with --key-file, or put it into %s", p.server, keyVariable)}
	}
	text, err := os.ReadFile(p.at.keyFile)
	if err != nil {
		return "", fmt.Errorf("access key: %w", err)
	}
	return strings.TrimSpace(string(text)), nil
}

// distrusted is why the service was not called, nil if there was no reason.
func (p *program) distrusted() error {
	select {
	case why := <-p.at.stranger:
		return why
	default:
		return nil
	}
}
