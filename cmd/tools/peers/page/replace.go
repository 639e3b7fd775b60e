package page

import (
	"fmt"
	"strings"
)

const (
	begin = "<!-- figures: begin; `go run . -page` writes what stands between these marks -->\n"
	end   = "<!-- figures: end -->\n"
)

// Replace puts new figures between the marks of a page.
func Replace(page, figures string) (string, error) {
	before, rest, ok := strings.Cut(page, begin)
	_, after, okEnd := strings.Cut(rest, end)
	if !ok || !okEnd {
		return "", fmt.Errorf("the page needs the lines %q and %q", strings.TrimSpace(begin), strings.TrimSpace(end))
	}
	return before + begin + "\n" + figures + "\n" + end + after, nil
}
