package cli

import (
	"io"
	"os"
	"strconv"

	"github.com/glossladder/glossladder/clients/cli/page"
)

// The widths that text is set in. Wider lines are hard to read, narrower ones break the columns.
const (
	narrowest = 60
	usual     = 88
	widest    = 100
)

// style says how text is set on the output.
func (p *program) style() page.Style {
	return page.Style{Width: textWidth(os.Getenv("COLUMNS")), Color: p.wantsColor(), Full: p.full}
}

func textWidth(columns string) int {
	n, err := strconv.Atoi(columns)
	if err != nil {
		return usual
	}
	return min(max(n, narrowest), widest)
}

func (p *program) wantsColor() bool {
	switch p.color.value {
	case "always":
		return true
	case "never":
		return false
	}
	return os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb" && isTerminal(p.out)
}

func isTerminal(w io.Writer) bool {
	file, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
