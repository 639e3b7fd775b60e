package paper

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// browsers are the names that Chromium and its kin are installed under.
func browsers() []string {
	return []string{"chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome", "microsoft-edge"}
}

// NoBrowserError says that no browser was found to print with.
type NoBrowserError struct{ Looked []string }

func (e *NoBrowserError) Error() string {
	return "PDF is printed by a browser, and none was found; install Chromium (Debian: apt install chromium), or name one with --browser; " +
		"or take --format html and print it (looked for " + strings.Join(e.Looked, ", ") + ")"
}

// PrintError says that a browser did not print.
type PrintError struct {
	Browser string
	Cause   error
	// Said is the end of what it said.
	Said string
}

func (e *PrintError) Error() string {
	text := fmt.Sprintf("%s did not print the page: %v", e.Browser, e.Cause)
	if e.Said != "" {
		text += "; it said: " + e.Said
	}
	return text
}

func (e *PrintError) Unwrap() error { return e.Cause }

// Browser finds the browser to print with: the one named, or the first that is installed. The error is a [*NoBrowserError] or
// that of the name.
func Browser(named string) (string, error) {
	if named != "" {
		found, err := exec.LookPath(named)
		if err != nil {
			return "", fmt.Errorf("--browser %s: %w", named, err)
		}
		return found, nil
	}
	for _, name := range browsers() {
		if found, err := exec.LookPath(name); err == nil {
			return found, nil
		}
	}
	return "", &NoBrowserError{Looked: browsers()}
}

// printTime is how long a browser may take. A cold start on a slow machine takes seconds.
const printTime = 90 * time.Second

// PDF prints a page. It leaves nothing behind. The error is a [*PrintError], or that of the files it needs meanwhile.
func PDF(ctx context.Context, browser string, page []byte) (pdf []byte, err error) {
	ctx, cancel := context.WithTimeout(ctx, printTime)
	defer cancel()
	folder, err := os.MkdirTemp("", "glossladder-print-")
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	from, to := filepath.Join(folder, "page.html"), filepath.Join(folder, "page.pdf")
	if err := os.WriteFile(from, page, 0o600); err != nil {
		return nil, err
	}
	address := url.URL{Scheme: "file", Path: filepath.ToSlash(from)}
	args := []string{
		"--headless", "--disable-gpu", "--disable-extensions", "--disable-background-networking", "--no-first-run", "--no-pdf-header-footer",
		"--user-data-dir=" + filepath.Join(folder, "profile"), "--print-to-pdf=" + to, address.String(),
	}
	if os.Geteuid() == 0 {
		// Chromium refuses to run in its sandbox as root. The page is our own and has no scripts.
		args = append([]string{"--no-sandbox"}, args...)
	}
	var said bytes.Buffer
	cmd := exec.CommandContext(ctx, browser, args...)
	cmd.Stdout, cmd.Stderr = &said, &said
	cmd.WaitDelay = 5 * time.Second
	if err := cmd.Run(); err != nil {
		return nil, &PrintError{Browser: browser, Cause: err, Said: end(said.String())}
	}
	pdf, err = os.ReadFile(to)
	if err != nil || !bytes.HasPrefix(pdf, []byte("%PDF-")) {
		return nil, &PrintError{Browser: browser, Cause: errors.New("it ended without a PDF"), Said: end(said.String())}
	}
	return pdf, nil
}

// end is the last of what a program said, on one line.
func end(text string) string {
	const most = 300
	text = strings.Join(strings.Fields(text), " ")
	return text[max(0, len(text)-most):]
}
