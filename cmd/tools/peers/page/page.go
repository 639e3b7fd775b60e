// Package page writes the figures of the peer benchmark as Markdown, for people to read. It measures nothing.
package page

import (
	"fmt"
	"strings"
	"time"

	"github.com/glossladder/glossladder/cmd/tools/peers/bench"
	"github.com/glossladder/glossladder/cmd/tools/peers/engine"
)

// Figures are the results of a whole run.
type Figures struct {
	Peers  []bench.Peer // ours first
	Plan   bench.Plan
	Sizes  []int // rising
	Shapes []Shape
}

// Shape is one shape of table in every size.
type Shape struct {
	Name    string
	Results [][]bench.Result // along Sizes, then along Peers
}

// section is one table of the page for each shape.
type section struct {
	way   engine.Way
	title string
}

func sections() []section {
	return []section{
		{engine.Ready, "A decision, the input ready"},
		{engine.Fresh, "A decision from the host's own values, binding included"},
		{engine.Explained, "A decision with its explanation"},
	}
}

// Write is the whole as Markdown.
func (f Figures) Write() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d points a table, %d rounds, %s each and at least one pass over the points; medians. "+
		"In parentheses: how many times as long as ours in the same round.\n",
		f.Plan.Points, f.Plan.Rounds, f.Plan.Slice)
	for _, s := range sections() {
		for i := range f.Shapes {
			fmt.Fprintf(&b, "\n### %s: %s\n\n", s.title, f.Shapes[i].Name)
			f.times(&b, &f.Shapes[i], s.way)
		}
	}
	b.WriteString("\n### Loading, once\n\n")
	f.loads(&b)
	f.failures(&b)
	b.WriteString("\n### How each was asked\n\n")
	for _, p := range f.Peers {
		fmt.Fprintf(&b, "- **%s**: %s.\n", p.Name, p.How)
	}
	return b.String()
}

func (f Figures) heading(b *strings.Builder, last string) {
	b.WriteString("| engine |")
	for _, n := range f.Sizes {
		fmt.Fprintf(b, " %s rules |", thousands(n))
	}
	fmt.Fprintf(b, " %s |\n| --- |%s\n", last, strings.Repeat(" ---: |", len(f.Sizes)+1))
}

func (f Figures) times(b *strings.Builder, s *Shape, way engine.Way) {
	f.heading(b, fmt.Sprintf("growth %s → %s", thousands(f.Sizes[0]), thousands(f.Sizes[len(f.Sizes)-1])))
	for p := range f.Peers {
		if way == engine.Explained && f.Peers[p].Reference {
			continue
		}
		f.row(b, s, p, way, f.Peers[p].Name)
		if p == 0 && way == engine.Explained {
			f.row(b, s, p, engine.AsData, f.Peers[p].Name+", as data")
		}
	}
	if way != engine.Explained {
		f.best(b, s, way, way, "the best of them against ours")
		return
	}
	f.best(b, s, way, way, "the best of them against our words")
	f.best(b, s, way, engine.AsData, "the best of them against our data")
}

// best tells of the quickest engine that is not ours and no mere mark.
func (f Figures) best(b *strings.Builder, s *Shape, way, ours engine.Way, title string) {
	fmt.Fprintf(b, "| **%s** |", title)
	for _, results := range s.Results {
		found, least := -1, 0.0
		for p := 1; p < len(results); p++ {
			ratio, ok := results[p].Ratio(way, results[0], ours)
			if ok && !f.Peers[p].Reference && (found < 0 || ratio < least) {
				found, least = p, ratio
			}
		}
		if found < 0 {
			b.WriteString(" none |")
			continue
		}
		fmt.Fprintf(b, " **%s** %s |", times(least), f.Peers[found].Name)
	}
	b.WriteString(" |\n")
}

func (f Figures) row(b *strings.Builder, s *Shape, p int, way engine.Way, name string) {
	fmt.Fprintf(b, "| %s |", name)
	for i := range f.Sizes {
		r := s.Results[i][p]
		d, ok := r.Median(way)
		switch {
		case r.Failure != "":
			b.WriteString(" no figure |")
			continue
		case !ok:
			b.WriteString(" none |")
			continue
		}
		fmt.Fprintf(b, " %s%s |", duration(d), f.against(s.Results[i], p, way))
	}
	fmt.Fprintf(b, " %s |\n", growth(s, p, way, len(f.Sizes)))
}

// against is a peer's ratio to ours in parentheses, and nothing for ours.
func (f Figures) against(results []bench.Result, p int, way engine.Way) string {
	ratio, ok := results[p].Ratio(way, results[0], way)
	if p == 0 || !ok {
		return ""
	}
	return " (" + times(ratio) + ")"
}

func growth(s *Shape, p int, way engine.Way, sizes int) string {
	first, ok := s.Results[0][p].Median(way)
	last, okLast := s.Results[sizes-1][p].Median(way)
	if !ok || !okLast {
		return "none"
	}
	return times(float64(last) / float64(first))
}

func (f Figures) loads(b *strings.Builder) {
	for i := range f.Shapes {
		s := &f.Shapes[i]
		fmt.Fprintf(b, "%s:\n\n", s.Name)
		f.heading(b, "a rule of the most")
		for p := range f.Peers {
			if f.Peers[p].Reference {
				continue
			}
			fmt.Fprintf(b, "| %s |", f.Peers[p].Name)
			var each string
			for k, n := range f.Sizes {
				r := s.Results[k][p]
				if r.Failure != "" {
					b.WriteString(" no figure |")
					continue
				}
				fmt.Fprintf(b, " %s |", duration(r.Load))
				each = duration(r.Load / time.Duration(n))
			}
			fmt.Fprintf(b, " %s |\n", each)
		}
		if i < len(f.Shapes)-1 {
			b.WriteString("\n")
		}
	}
}

// failures tells why there is no figure where there is none.
func (f Figures) failures(b *strings.Builder) {
	for i := range f.Shapes {
		for k, n := range f.Sizes {
			for p, r := range f.Shapes[i].Results[k] {
				if r.Failure != "" {
					fmt.Fprintf(b, "\nNo figure for %s with %s rules, %s: %s.\n", f.Peers[p].Name, thousands(n), f.Shapes[i].Name, r.Failure)
				}
			}
		}
	}
}
