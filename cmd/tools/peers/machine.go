package main

import (
	"bufio"
	"fmt"
	"os"
	"runtime"
	"runtime/debug"
	"strings"

	"github.com/glossladder/glossladder/cmd/tools/peers/page"
)

// conditions tells on what and with which versions it was measured.
func conditions(f page.Figures) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, %d processors, %s/%s, %s", processor(), runtime.NumCPU(), runtime.GOOS, runtime.GOARCH, runtime.Version())
	for _, r := range f.Shapes[0].Results[0] {
		if r.Version != "" {
			b.WriteString(", " + r.Version)
		}
	}
	b.WriteString(". ")
	b.WriteString(strings.Join(versions(), ", ") + ".\n\n")
	return b.String()
}

// versions are those of the engines linked in, as go.mod fixes them.
func versions() []string {
	engines := []string{"cel.dev/cel-go", "github.com/expr-lang/expr", "github.com/hyperjumptech/grule-rule-engine", "github.com/open-policy-agent/opa"}
	var out []string
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return nil
	}
	for _, d := range info.Deps {
		for _, e := range engines {
			if d.Path == e {
				out = append(out, e+" "+d.Version)
			}
		}
	}
	return append(out, "json-rules-engine as node/package.json fixes it")
}

// processor is its name as Linux tells it.
func processor() string {
	file, err := os.Open("/proc/cpuinfo")
	if err != nil {
		return "an unnamed processor"
	}
	defer func() { _ = file.Close() }() // only read
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		if name, value, ok := strings.Cut(lines.Text(), ":"); ok && strings.TrimSpace(name) == "model name" {
			return strings.TrimSpace(value)
		}
	}
	return "an unnamed processor"
}
