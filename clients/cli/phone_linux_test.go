package cli_test

import (
	"bufio"
	"bytes"
	"context"
	"crypto/tls"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials"
	"google.golang.org/grpc/credentials/insecure"
	grpcstatus "google.golang.org/grpc/status"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/access"
)

// The bay is a network of two machines that nobody else is in: network namespaces with one cable between them. A test that
// needs it runs in a process of its own, as root of a user namespace, so that it may lay the cable without being anybody here.
const inTheBay = "GLOSSLADDER_TEST_IN_THE_BAY"

const (
	shopIP  = "10.77.0.1"
	phoneIP = "10.77.0.2"
)

// bay runs the rest of the test in the bay, and returns the phone's namespace there. Outside, it returns "".
func bay(t *testing.T) (phone string) {
	t.Helper()
	if os.Getenv(inTheBay) == "" {
		if err := exec.Command("unshare", "-rn", "ip", "link", "add", "bay", "type", "veth", "peer", "name", "phone").Run(); err != nil {
			if os.Getenv("CI") != "" {
				t.Fatalf("this needs unshare and ip, and user namespaces: %v", err)
			}
			t.Skipf("this needs unshare and ip, and user namespaces: %v", err)
		}
		self := exec.Command("unshare", "-rn", os.Args[0], "-test.run", "^"+t.Name()+"$", "-test.v") //nolint:gosec // this very test
		self.Env = append(os.Environ(), inTheBay+"="+build(t))
		said, err := self.CombinedOutput()
		require.NoError(t, err, string(said))
		require.Contains(t, string(said), "--- PASS: "+t.Name(), string(said))
		return ""
	}
	holder := exec.Command("unshare", "-n", "sh", "-c", "echo there; exec sleep 300")
	there, err := holder.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, holder.Start())
	t.Cleanup(func() { _ = holder.Process.Kill() })
	_, err = bufio.NewReader(there).ReadString('\n')
	require.NoError(t, err)
	pid := strconv.Itoa(holder.Process.Pid)
	lay := exec.Command("sh", "-ec", `
ip link set lo up
ip link add bay type veth peer name phone netns $1
ip addr add $2/24 dev bay
ip link set bay up
nsenter -t $1 -n sh -ec "ip link set lo up; ip addr add $3/24 dev phone; ip link set phone up"`, "lay", pid, shopIP, phoneIP)
	said, err := lay.CombinedOutput()
	require.NoError(t, err, string(said))
	return pid
}

// dialPhone connects from the phone's namespace: a socket stays in the one it was made in.
func dialPhone(pid string) func(context.Context, string, string) (net.Conn, error) {
	return func(ctx context.Context, network, address string) (conn net.Conn, err error) {
		done := make(chan struct{})
		go func() {
			defer close(done)
			runtime.LockOSThread() // and never unlocked: the thread ends with the goroutine
			var there *os.File
			if there, err = os.Open("/proc/" + pid + "/ns/net"); err != nil {
				return
			}
			defer func() { _ = there.Close() }()
			if err = unix.Setns(int(there.Fd()), unix.CLONE_NEWNET); err != nil { //nolint:gosec // a descriptor
				return
			}
			conn, err = (&net.Dialer{}).DialContext(ctx, network, address)
		}()
		<-done
		return conn, err
	}
}

// journal is what a process logs, read while it goes on.
type journal struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (j *journal) Write(p []byte) (int, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.text.Write(p)
}

func (j *journal) String() string {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.text.String()
}

// serving is a service process, with all that it says.
type serving struct {
	program string
	state   string
	out     bytes.Buffer
	log     journal
	stop    func()
	port    string
	code    string
}

func serveLAN(t *testing.T) *serving {
	t.Helper()
	s := &serving{program: os.Getenv(inTheBay), state: t.TempDir()}
	serve := exec.Command(s.program, "serve", "--lan", "--listen", ":0", "--state", s.state, "--data", filepath.Join(s.state, "jobs.db"))
	serve.Stderr = &s.log
	out, err := serve.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, serve.Start())
	t.Cleanup(func() { _ = serve.Process.Kill() })
	lines := bufio.NewReader(io.TeeReader(out, &s.out))
	for !strings.Contains(s.out.String(), "key pair.\n") {
		_, err := lines.ReadString('\n')
		require.NoError(t, err, s.log.String())
	}
	s.port = regexp.MustCompile(`127\.0\.0\.1:(\d+)`).FindStringSubmatch(s.out.String())[1]
	s.code = regexp.MustCompile(`the code ([0-9A-Z]{4}-[0-9A-Z]{4})`).FindStringSubmatch(s.out.String())[1]
	s.stop = func() {
		require.NoError(t, serve.Process.Signal(syscall.SIGTERM))
		_, err := io.Copy(io.Discard, lines)
		require.NoError(t, err)
		require.NoError(t, serve.Wait())
	}
	return s
}

// key runs a command about keys beside the service.
func (s *serving) key(t *testing.T, args ...string) string {
	t.Helper()
	said, err := exec.Command(s.program, append([]string{"key", args[0], "--state", s.state}, args[1:]...)...).CombinedOutput() //nolint:gosec // the program under test
	require.NoError(t, err, string(said))
	return string(said)
}

func get(t *testing.T, client *http.Client, target string, header ...string) (*http.Response, string) {
	t.Helper()
	ask, err := http.NewRequestWithContext(t.Context(), http.MethodGet, target, nil)
	require.NoError(t, err)
	for i := 0; i < len(header); i += 2 {
		ask.Header.Set(header[i], header[i+1])
	}
	resp, err := client.Do(ask)
	require.NoError(t, err)
	text, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	return resp, string(text)
}

// Two machines, real processes, a browser and a gRPC client.
func TestAPhoneReachesTheServiceSafely(t *testing.T) {
	phone := bay(t)
	if phone == "" {
		return
	}
	s := serveLAN(t)
	assert.Contains(t, s.out.String(), "https://"+shopIP+":"+s.port+"/pair")
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	browser := &http.Client{Jar: jar, Transport: &http.Transport{
		DialContext: dialPhone(phone), TLSClientConfig: &tls.Config{InsecureSkipVerify: true}, //nolint:gosec // somebody who went on at the warning
	}}
	base := "https://" + shopIP + ":" + s.port

	for _, path := range []string{"/v1/jobs", "/v1/facts", "/healthz", "/openapi.json", "/reports", "/r/abc", "/calendar/x.ics", "/sw.js", "/manifest.webmanifest", "/metrics", "/none"} {
		resp, text := get(t, browser, base+path)
		assert.Equal(t, http.StatusUnauthorized, resp.StatusCode, "%s: %s", path, text)
	}
	resp, text := get(t, browser, base+"/", "Sec-Fetch-Mode", "navigate")
	assert.Equal(t, "/pair", resp.Request.URL.Path)
	assert.Contains(t, text, "Pair this device")
	resp, text = get(t, browser, "http://"+shopIP+":"+s.port+"/", "Accept", "text/html")
	assert.Equal(t, base+"/pair", resp.Request.URL.String(), "who types the address gets to the protected page")
	assert.Contains(t, text, "Pair this device")
	for name, security := range map[string]credentials.TransportCredentials{
		"plain": insecure.NewCredentials(), "TLS": credentials.NewTLS(&tls.Config{InsecureSkipVerify: true}), //nolint:gosec // a stranger does not mind
	} {
		assert.Equal(t, codes.Unauthenticated, grpcstatus.Code(callFrom(t, phone, s, grpc.WithTransportCredentials(security))), name)
	}

	resp, err = browser.PostForm(base+"/pair", url.Values{"code": {s.code}, "name": {"phone in bay 2"}})
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	assert.Equal(t, base+"/", resp.Request.URL.String(), "paired, and in")
	resp, text = get(t, browser, base+"/v1/jobs")
	assert.Equal(t, http.StatusOK, resp.StatusCode, text)
	resp, text = get(t, browser, base+"/", "Accept", "text/html")
	assert.Equal(t, base+"/", resp.Request.URL.String())
	assert.Contains(t, text, "<html")

	key := regexp.MustCompile(`gl_\S+`).FindString(s.key(t, "add", "office laptop"))
	proof, err := access.NewCredentials(key, "", shopIP, func(why error) { t.Error(why) })
	require.NoError(t, err)
	require.NoError(t, callFrom(t, phone, s, grpc.WithTransportCredentials(credentials.NewTLS(proof.TLS)), grpc.WithPerRPCCredentials(proof)))
	there := exec.Command("nsenter", "-t", phone, "-n", s.program, "job", "list", "--server", net.JoinHostPort(shopIP, s.port)) //nolint:gosec // the program under test
	there.Env = append(os.Environ(), "GLOSSLADDER_KEY="+key)
	said, err := there.CombinedOutput()
	require.NoError(t, err, string(said))

	list := s.key(t, "list")
	assert.Contains(t, list, "phone in bay 2")
	s.key(t, "revoke", regexp.MustCompile(`(?m)^(\S+) .*phone in bay 2$`).FindStringSubmatch(list)[1])
	s.key(t, "revoke", strings.Split(key, "_")[1])
	start := time.Now()
	for {
		resp, _ := get(t, browser, base+"/v1/jobs")
		if resp.StatusCode == http.StatusUnauthorized {
			break
		}
		require.Less(t, time.Since(start), time.Second, "a revoked key stops within a second")
	}
	assert.Equal(t, codes.Unauthenticated, grpcstatus.Code(callFrom(t, phone, s, grpc.WithTransportCredentials(credentials.NewTLS(proof.TLS)), grpc.WithPerRPCCredentials(proof))))

	s.stop()
	where, err := url.Parse(base)
	require.NoError(t, err)
	cookies := jar.Cookies(where)
	require.Len(t, cookies, 1)
	for name, secret := range map[string]string{"the laptop's": strings.Split(key, "_")[2], "the phone's": strings.Split(cookies[0].Value, "_")[2]} {
		assert.NotContains(t, s.log.String(), secret, name)
		assert.NotContains(t, s.out.String(), secret, name)
	}
	assert.NotContains(t, s.log.String(), s.code)
	assert.Contains(t, s.log.String(), "msg=paired")
	assert.Contains(t, s.log.String(), phoneIP)
}

// callFrom calls the service once from the phone's namespace.
func callFrom(t *testing.T, phone string, s *serving, options ...grpc.DialOption) error {
	t.Helper()
	dial := dialPhone(phone)
	conn, err := grpc.NewClient("passthrough:"+net.JoinHostPort(shopIP, s.port), append(options,
		grpc.WithContextDialer(func(ctx context.Context, address string) (net.Conn, error) { return dial(ctx, "tcp", address) }))...)
	require.NoError(t, err)
	defer func() { require.NoError(t, conn.Close()) }()
	_, err = glossladderv1.NewAdvisorServiceClient(conn).ListFacts(t.Context(), &glossladderv1.ListFactsRequest{})
	return err
}
