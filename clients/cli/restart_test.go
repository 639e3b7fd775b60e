package cli_test

import (
	"bufio"
	"bytes"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shopService is a service process over a rules folder.
type shopService struct {
	process *exec.Cmd
	address string
	welcome string
	metrics string
	log     *bytes.Buffer
	rest    *bufio.Reader
}

func build(t *testing.T) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "glossladder")
	built, err := exec.Command("go", "build", "-o", program, "../../cmd/glossladder").CombinedOutput()
	require.NoError(t, err, "%s", built)
	return program
}

// serve starts a service and reads its welcome, to the line that says how to ask it.
func serve(t *testing.T, program string, args ...string) *shopService {
	t.Helper()
	s := &shopService{process: exec.Command(program, append([]string{"serve", "--listen", "127.0.0.1:0", "--metrics", "127.0.0.1:0"}, args...)...), log: &bytes.Buffer{}}
	s.process.Stderr = s.log
	out, err := s.process.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, s.process.Start())
	t.Cleanup(func() { _ = s.process.Process.Kill() })
	s.rest = bufio.NewReader(out)
	for s.metrics == "" {
		line, err := s.rest.ReadString('\n')
		require.NoError(t, err, "%s", s.log)
		s.welcome += line
		s.metrics = regexp.MustCompile(`http://\S+/metrics`).FindString(line)
	}
	s.address = regexp.MustCompile(`127\.0\.0\.1:\d+`).FindString(s.welcome)
	require.NotEmpty(t, s.address, s.welcome)
	return s
}

// stop ends the service in order and returns what else it printed.
func (s *shopService) stop(t *testing.T) string {
	t.Helper()
	require.NoError(t, s.process.Process.Signal(syscall.SIGTERM))
	rest, err := io.ReadAll(s.rest)
	require.NoError(t, err)
	require.NoError(t, s.process.Wait(), "an orderly end")
	return string(rest)
}

// command runs a command of the program and returns its output and exit code.
func command(t *testing.T, program string, args ...string) (out string, code int) {
	t.Helper()
	said, err := exec.Command(program, args...).CombinedOutput()
	if err != nil {
		var exit *exec.ExitError
		require.ErrorAs(t, err, &exit)
		return string(said), exit.ExitCode()
	}
	return string(said), 0
}

func swap(t *testing.T, path, old, with string) {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Contains(t, string(text), old)
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(text), old, with, 1)), 0o600))
}

// A shop breaks its rules, the machine is started anew, and the service decides by the last good set and says so wherever
// somebody looks. Mended files come into force again.
func TestAServiceComesBackWhileItsRulesAreBroken(t *testing.T) {
	program := build(t)
	rules, state := filepath.Join(t.TempDir(), "mine"), t.TempDir()
	_, code := command(t, program, "rules", "copy", rules)
	require.Zero(t, code)
	start := filepath.Join(rules, "start.yaml")

	// A first start on a broken folder is refused.
	swap(t, start, "paint.softness", "paint.sofness")
	said, code := command(t, program, "serve", "--listen", "127.0.0.1:0", "--rules", rules, "--state", state)
	assert.Equal(t, 3, code)
	assert.Contains(t, said, "did you mean paint.softness?")
	swap(t, start, "paint.sofness", "paint.softness")

	first := serve(t, program, "--rules", rules, "--state", state)
	swap(t, start, "Soft paint corrects with little and hazes with little.", "Our shop has seen that this paint gives readily.")
	said, code = command(t, program, "rules", "reload", "--server", first.address)
	assert.Zero(t, code, said)
	good := regexp.MustCompile(`Rule set (\w{12}) is in force`).FindStringSubmatch(said)
	require.NotNil(t, good, said)
	swap(t, start, "paint.softness", "paint.sofness")
	said, code = command(t, program, "rules", "reload", "--server", first.address)
	assert.Equal(t, 3, code)
	assert.Contains(t, said, "did you mean paint.softness?")
	assert.Contains(t, said, good[1]+" stays in force")
	first.stop(t)

	second := serve(t, program, "--rules", rules, "--state", state)
	said, code = command(t, program, "rules", "status", "--server", second.address)
	assert.Equal(t, 3, code)
	for _, part := range []string{good[1], "the last good set", "did you mean paint.softness?", "wrong since"} {
		assert.Contains(t, said, part)
	}
	template, err := exec.Command(program, "recommend", "--template").Output()
	require.NoError(t, err)
	ask := exec.Command(program, "recommend", "-", "--server", second.address)
	ask.Stdin = bytes.NewReader(template)
	answer, err := ask.CombinedOutput()
	require.NoError(t, err, "%s", answer)
	resp, err := http.Get(second.metrics)
	require.NoError(t, err)
	metrics, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	assert.Contains(t, string(metrics), "\nglossladder_rules_files_in_force 0\n")
	assert.Contains(t, string(metrics), `glossladder_rules_info{rule_set="`+good[1])

	// Commands that answer by themselves go on refusing.
	said, code = command(t, program, "rules", "check", rules)
	assert.Equal(t, 3, code, said)

	swap(t, start, "paint.sofness", "paint.softness")
	said, code = command(t, program, "rules", "reload", "--server", second.address)
	assert.Zero(t, code)
	assert.Contains(t, said, "Nothing changed: rule set "+good[1])
	said, code = command(t, program, "rules", "status", "--server", second.address)
	assert.Zero(t, code, said)
	assert.Contains(t, said, "Last wrong")
	assert.Contains(t, second.stop(t), "ATTENTION: "+rules+" does not load")
	assert.Contains(t, second.log.String(), "starts on the last set")
}

// The folder is gone, as when a disk is not there yet: the last good set of that folder decides.
func TestAServiceComesBackWithoutItsRulesFolder(t *testing.T) {
	program := build(t)
	rules, state := filepath.Join(t.TempDir(), "mine"), t.TempDir()
	_, code := command(t, program, "rules", "copy", rules)
	require.Zero(t, code)
	serve(t, program, "--rules", rules, "--state", state).stop(t)
	require.NoError(t, os.RemoveAll(rules))
	again := serve(t, program, "--rules", rules, "--state", state)
	said, code := command(t, program, "rules", "status", "--server", again.address)
	assert.Equal(t, 3, code)
	assert.Contains(t, said, "no such file or directory")
	again.stop(t)

	said, code = command(t, program, "serve", "--listen", "127.0.0.1:0", "--rules", rules, "--state", t.TempDir())
	assert.Equal(t, 1, code)
	assert.Contains(t, said, "rules folder: ")
}
