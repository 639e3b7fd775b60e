package webhook

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strconv"
	"time"
)

// outcome is what came of one try.
type outcome struct {
	delivered bool
	gone      bool          // the receiver wants no more
	wait      time.Duration // what the receiver asked to wait; 0 for nothing
	why       string        // what went wrong, for people
}

// wire sends deliveries.
type wire struct {
	open, private *http.Client
	timeout       time.Duration // how long a receiver may take to answer
}

func newWire(timeout time.Duration) wire {
	return wire{open: client(false, timeout), private: client(true, timeout), timeout: timeout}
}

func client(allowPrivate bool, timeout time.Duration) *http.Client {
	dialer := &net.Dialer{Timeout: timeout, Control: guard(allowPrivate)}
	return &http.Client{
		Timeout: timeout,
		// No proxy from the environment: it would connect for us, past the guard.
		Transport: &http.Transport{DialContext: dialer.DialContext, TLSHandshakeTimeout: timeout, ForceAttemptHTTP2: true, MaxIdleConnsPerHost: 2},
		CheckRedirect: func(*http.Request, []*http.Request) error {
			return http.ErrUseLastResponse // a redirect is an answer like any other, and no success
		},
	}
}

// send tries once. It never fails by itself: what goes wrong is an outcome.
func (w wire) send(ctx context.Context, d Delivery, now time.Time) outcome {
	if err := CheckURL(d.Endpoint.URL, d.Endpoint.AllowPrivate); err != nil {
		return outcome{why: err.Error()}
	}
	request, err := signed(ctx, d, now)
	if err != nil {
		return outcome{why: err.Error()}
	}
	sender := w.open
	if d.Endpoint.AllowPrivate {
		sender = w.private
	}
	answer, err := sender.Do(request)
	if err != nil {
		return outcome{why: w.plain(err)}
	}
	defer func() { _ = answer.Body.Close() }()
	const enough = 64 << 10 // read a little, so that the connection can be used again
	_, _ = io.Copy(io.Discard, io.LimitReader(answer.Body, enough))
	return judge(answer, now)
}

func signed(ctx context.Context, d Delivery, now time.Time) (*http.Request, error) {
	signature, err := signatures(d.Endpoint.Secrets, d.ID, now, d.Body)
	if err != nil {
		return nil, err
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodPost, d.Endpoint.URL, bytes.NewReader(d.Body))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", d.Endpoint.URL, ErrTarget)
	}
	request.Header.Set("Content-Type", ContentType)
	request.Header.Set("User-Agent", "glossladder-webhook/1")
	request.Header.Set("Webhook-Id", d.ID)
	request.Header.Set("Webhook-Timestamp", strconv.FormatInt(now.Unix(), 10))
	request.Header.Set("Webhook-Signature", signature)
	return request, nil
}

// judge reads an answer: any 2xx is success, 410 ends the service to the endpoint, 429 and 503 may say how long to wait. Anything
// else, redirects too, is tried again.
func judge(answer *http.Response, now time.Time) outcome {
	code := answer.StatusCode
	switch {
	case code >= 200 && code < 300:
		return outcome{delivered: true}
	case code == http.StatusGone:
		return outcome{gone: true, why: "the receiver answered 410 and wants no more"}
	case code >= 300 && code < 400:
		return outcome{why: fmt.Sprintf("answered %d, a redirect; redirects are not followed, put the final address in", code)}
	}
	out := outcome{why: fmt.Sprintf("answered %d", code)}
	if code == http.StatusTooManyRequests || code == http.StatusServiceUnavailable {
		out.wait = retryAfter(answer.Header.Get("Retry-After"), now)
	}
	return out
}

// retryAfter reads seconds or a date, RFC 9110 10.2.3, up to a day; 0 for anything else.
func retryAfter(text string, now time.Time) time.Duration {
	const most = 24 * time.Hour
	if seconds, err := strconv.Atoi(text); err == nil && seconds > 0 {
		return min(time.Duration(min(seconds, int(most/time.Second)))*time.Second, most)
	}
	if at, err := http.ParseTime(text); err == nil && at.After(now) {
		return min(at.Sub(now), most)
	}
	return 0
}

// plain is a failure to reach somebody, in a few words and without the URL, which may carry a token.
func (w wire) plain(err error) string {
	var timedOut net.Error
	switch {
	case errors.Is(err, ErrTarget):
		return "its name leads to a private or local address"
	case errors.As(err, &timedOut) && timedOut.Timeout():
		return fmt.Sprintf("did not answer within %v", w.timeout)
	}
	var op *net.OpError
	if errors.As(err, &op) {
		return "could not be reached: " + op.Err.Error()
	}
	var name *net.DNSError
	if errors.As(err, &name) {
		return "could not be reached: its name is not known"
	}
	return "could not be reached"
}
