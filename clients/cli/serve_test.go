package cli_test

import (
	"bufio"
	"bytes"
	"io"
	"os/exec"
	"regexp"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A real service process, a real client process, and an orderly end by a signal.
func TestServeAnswersAnotherProcessAndStopsOnASignal(t *testing.T) {
	program := build(t)
	serve := exec.Command(program, "serve", "--listen", "127.0.0.1:0", "--state", t.TempDir())
	var log bytes.Buffer
	serve.Stderr = &log
	out, err := serve.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, serve.Start())
	t.Cleanup(func() { _ = serve.Process.Kill() })
	lines := bufio.NewReader(out)
	welcome, err := lines.ReadString('\n')
	require.NoError(t, err)
	address := regexp.MustCompile(`127\.0\.0\.1:\d+`).FindString(welcome)
	require.NotEmpty(t, address, welcome)

	template, err := exec.Command(program, "recommend", "--template").Output()
	require.NoError(t, err)
	ask := exec.Command(program, "recommend", "-", "--server", address)
	ask.Stdin = bytes.NewReader(template)
	answer, err := ask.Output()
	require.NoError(t, err)
	here := exec.Command(program, "recommend", "-")
	here.Stdin = bytes.NewReader(template)
	same, err := here.Output()
	require.NoError(t, err)
	assert.Equal(t, string(same), string(answer), "the service and the program itself answer alike")

	require.NoError(t, serve.Process.Signal(syscall.SIGTERM))
	rest, err := io.ReadAll(lines)
	require.NoError(t, err)
	require.NoError(t, serve.Wait(), "an orderly end")
	assert.Contains(t, string(rest), "Stopped.")
	assert.Contains(t, log.String(), "code=OK")

	ask = exec.Command(program, "recommend", "-", "--server", address)
	ask.Stdin = bytes.NewReader(template)
	said, err := ask.CombinedOutput()
	var exit *exec.ExitError
	require.ErrorAs(t, err, &exit)
	assert.Equal(t, 1, exit.ExitCode())
	assert.Contains(t, string(said), "no service answers at "+address)
}
