// Package booking_test runs the examples for booking systems against a real service: each is a process of its own, in the
// language that it is written in. A language that is not on this machine is skipped, and the test says so.
package booking_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	standardwebhooks "github.com/standard-webhooks/standard-webhooks/libraries/go"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// example is one language.
type example struct {
	name  string
	tests []string // its own tests
	book  []string // the program
	dir   string
}

// examples are the languages that are here; each is built if it has to be.
func examples(t *testing.T) []example {
	t.Helper()
	var all []example
	if python, err := exec.LookPath("python3"); err != nil {
		t.Log("SKIPPED: the Python example, since there is no python3 here")
	} else {
		all = append(all, example{"Python", []string{python, "-B", "-m", "unittest"}, []string{python, "-B", "-u", "book.py"}, "python"})
	}
	compiler := filepath.Join("typescript", "node_modules", ".bin", "tsc")
	node, err := exec.LookPath("node")
	if _, missing := os.Stat(compiler); err != nil || missing != nil {
		t.Log("SKIPPED: the TypeScript example; it needs node, and once: npm ci --prefix clients/booking/typescript")
	} else {
		dist := t.TempDir()
		out, err := exec.Command(compiler, "--project", "typescript", "--outDir", dist).CombinedOutput()
		require.NoError(t, err, string(out))
		// Node takes the compiled files for modules by the package that they lie in.
		require.NoError(t, os.WriteFile(filepath.Join(dist, "package.json"), []byte(`{"type": "module"}`), 0o600))
		all = append(all, example{"TypeScript", []string{node, "--test", dist}, []string{node, filepath.Join(dist, "book.js")}, "typescript"})
	}
	if os.Getenv("CI") != "" {
		require.Len(t, all, 2, "both examples are to be tested here")
	}
	if len(all) == 0 {
		t.Skip("SKIPPED: neither Python nor Node is here")
	}
	return all
}

func (e example) command(program []string, arguments ...string) *exec.Cmd {
	cmd := exec.Command(program[0], append(program[1:len(program):len(program)], arguments...)...)
	cmd.Dir = e.dir
	return cmd
}

func TestTheExamplesHoldTheirOwnTests(t *testing.T) {
	for _, e := range examples(t) {
		t.Run(e.name, func(t *testing.T) {
			out, err := e.command(e.tests).CombinedOutput()
			require.NoError(t, err, string(out))
		})
	}
}

func TestTheExamplesBookAVehicleAndHearOfIt(t *testing.T) {
	all := examples(t)
	base := serve(t)
	for _, e := range all {
		t.Run(e.name, func(t *testing.T) {
			out, err := e.command(e.book, base).CombinedOutput()
			require.NoError(t, err, string(out))
			assert.Regexp(t, `(?i)^estimate: \d+\.\d to \d+\.\d h, likely \d+\.\d h; \d+\.\d\d to \d+\.\d\d [A-Z]{3}
webhook: webhooks/\S+
job: jobs/(\S+) for vehicles/\S+; sent again, the same: true
calendar: 2 entries
event: glossladder\.job\.booked jobs/\S+ JOB_STAGE_BOOKED
event: glossladder\.job\.changed jobs/\S+ JOB_STAGE_BOOKED
$`, string(out))
		})
		t.Run(e.name+" finds another day where a bay is taken", func(t *testing.T) {
			out, err := e.command(e.book, base).CombinedOutput()
			require.NoError(t, err, string(out))
			assert.Regexp(t, `(?m)^taken: bays/bay-[12] by jobs/\S+ until 2027-03-02T11:00:00Z; asking for the day after$`, string(out))
			assert.Contains(t, string(out), "calendar: 2 entries")
		})
		t.Run(e.name+" tells what is wrong with a form", func(t *testing.T) {
			out, err := e.command(e.book, base, "--refuse").CombinedOutput()
			var exit *exec.ExitError
			require.ErrorAs(t, err, &exit, string(out))
			assert.Equal(t, 1, exit.ExitCode())
			assert.Contains(t, string(out), "refused with 400: ")
			assert.Contains(t, string(out), "  inspection.panels[0].panel_c: 300 is not allowed: from -40 to 120 °C\n")
			assert.Contains(t, string(out), `  inspection.panels[0].id: "Front Door" is not allowed`)
		})
	}
}

// The messages are signed by the Standard Webhooks library, which neither the service nor the examples verify with.
func TestTheReceiversTakeOnlyWhatIsProven(t *testing.T) {
	const secret, event = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw", `{"specversion": "1.0", "id": "7/1", "source": "/", "type": "glossladder.job.booked", "subject": "jobs/7"}`
	for _, e := range examples(t) {
		t.Run(e.name, func(t *testing.T) {
			port := freePort(t)
			receiver := e.command(e.book, "--receive", port, secret)
			receiver.Stderr = t.Output()
			out, err := receiver.StdoutPipe()
			require.NoError(t, err)
			require.NoError(t, receiver.Start())
			t.Cleanup(func() { _ = receiver.Process.Kill() })
			lines := bufio.NewReader(out)
			up, err := lines.ReadString('\n')
			require.NoError(t, err)
			url := strings.TrimSpace(strings.TrimPrefix(up, "taking events at "))

			sign := func(id string, at time.Time, body string) http.Header {
				signer, err := standardwebhooks.NewWebhook(secret)
				require.NoError(t, err)
				signature, err := signer.Sign(id, at, []byte(body))
				require.NoError(t, err)
				return http.Header{
					"Webhook-Id": {id}, "Webhook-Timestamp": {fmt.Sprint(at.Unix())}, "Webhook-Signature": {signature}, "Content-Type": {"application/cloudevents+json"},
				}
			}
			now := time.Now()
			for _, row := range []struct {
				name    string
				headers http.Header
				body    string
				want    int
			}{
				{"changed on the way", sign("m1", now, event), strings.Replace(event, "booked", "cancelled", 1), http.StatusUnauthorized},
				{"an old one again", sign("m1", now.Add(-time.Hour), event), event, http.StatusUnauthorized},
				{"without a signature", http.Header{}, event, http.StatusUnauthorized},
				{"proven", sign("m1", now, event), event, http.StatusNoContent},
				{"the same again", sign("m1", now, event), event, http.StatusNoContent},
				{"the next", sign("m2", now, event), strings.Clone(event), http.StatusNoContent},
				{"too large", sign("m3", now, event), strings.Repeat(" ", 2<<20), refused},
			} {
				assert.Equal(t, row.want, post(t, url, row.headers, row.body), row.name)
			}
			require.NoError(t, receiver.Process.Kill())
			rest, err := io.ReadAll(lines)
			require.NoError(t, err)
			assert.Equal(t, strings.Repeat("event: glossladder.job.booked jobs/7\n", 2), string(rest), "each once")
			_ = receiver.Wait()
		})
	}
}

// refused stands for any answer that is no success, and for a connection that the receiver cuts.
const refused = -1

func post(t *testing.T, url string, headers http.Header, body string) int {
	t.Helper()
	request, err := http.NewRequest(http.MethodPost, url, strings.NewReader(body))
	require.NoError(t, err)
	request.Header = headers
	request.Close = true
	answer, err := http.DefaultClient.Do(request)
	if err != nil {
		return refused
	}
	require.NoError(t, answer.Body.Close())
	if answer.StatusCode == http.StatusRequestEntityTooLarge {
		return refused
	}
	return answer.StatusCode
}

// serve starts the program as a process of its own and returns its base URL.
func serve(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	program := filepath.Join(dir, "glossladder")
	built, err := exec.Command("go", "build", "-buildvcs=false", "-o", program, "../../cmd/glossladder").CombinedOutput()
	require.NoError(t, err, string(built))
	service := exec.Command(program, "serve", "--listen", "127.0.0.1:0", "--state", dir, "--data", filepath.Join(dir, "jobs.db"))
	var log bytes.Buffer
	service.Stderr = &log
	out, err := service.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, service.Start())
	t.Cleanup(func() {
		_ = service.Process.Signal(os.Interrupt)
		if err := service.Wait(); err != nil || t.Failed() {
			t.Log(err, log.String())
		}
	})
	lines := bufio.NewReader(out)
	welcome, err := lines.ReadString('\n')
	require.NoError(t, err)
	go func() { _, _ = io.Copy(io.Discard, lines) }()
	address := regexp.MustCompile(`127\.0\.0\.1:\d+`).FindString(welcome)
	require.NotEmpty(t, address, welcome)
	answer, err := http.Get("http://" + address + "/healthz")
	require.NoError(t, err)
	var health struct{ Status string }
	require.NoError(t, json.NewDecoder(answer.Body).Decode(&health))
	require.NoError(t, answer.Body.Close())
	require.Equal(t, "SERVING", health.Status)
	return "http://" + address
}

// freePort is a port that nobody listens on at the moment.
func freePort(t *testing.T) string {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	_, port, err := net.SplitHostPort(listener.Addr().String())
	require.NoError(t, err)
	require.NoError(t, listener.Close())
	return port
}
