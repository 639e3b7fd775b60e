package page

import (
	"fmt"
	"io"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Fit sets the best use of fixed hours: what fits, what was left out and what that costs, the trade-off as a chart, and the plan.
func Fit(w io.Writer, label string, f *glossladderv1.FitHoursResponse, style Style) error {
	p := newPaper(style)
	plan := f.GetPlan()
	p.para(0, in(strong, "What fits"), say(fmt.Sprintf("· %s of the result of the full ladders", resultShare(f.GetResultPct()))))
	p.item(titleAt, textAt, say("This"), in(strong, duration(plan.GetWorkMin().GetLikely())+","), say(heldTogether(money(plan.GetCost().GetTotal().GetLikely()))))
	p.item(titleAt, textAt, say("Everything"), say(duration(f.GetFullWorkMin())+","), say(heldTogether(money(f.GetFullTotal().GetLikely()))))
	if most := f.GetMostResultPct(); most > f.GetResultPct()+0.05 {
		p.para(titleAt, say("Not every choice could be looked at: at the very most "+resultShare(most)+" would fit."))
	}
	p.leftOut(f.GetPanels())
	p.curve(f.GetCurve(), plan.GetWorkMin().GetLikely())
	p.blank()
	p.plan(label, plan)
	p.decidedBy(plan.GetRuleSet())
	return p.writeTo(w)
}

func resultShare(pct float64) string { return fmt.Sprintf("%.0f%s%%", pct, nbsp) }

// leftOut names every panel that gets less than it would.
func (p *paper) leftOut(panels []*glossladderv1.FitPanel) {
	var rows [][]span
	for _, panel := range panels {
		if panel.GetLadder() == panel.GetFull() {
			continue
		}
		leaves := panel.GetLeaves()
		if leaves == "" {
			leaves = "nothing more than may stay"
		}
		rows = append(rows, []span{
			in(strong, panel.GetPanelId()), say(ladderWords(panel.GetLadder())), say(ladderWords(panel.GetFull())), say(duration(panel.GetSavesMin())), say(leaves),
		})
	}
	p.blank()
	if len(rows) == 0 {
		p.para(titleAt, say("Nothing is left out."))
		return
	}
	p.heading(titleAt, "Left out")
	p.ledger([]string{"panel", "gets", "instead of", "saves", "what stays"}, rows)
}

// The chart's size in characters, where the page is wide enough.
const (
	curveRows = 8
	curveCols = 56
	curveAxis = 7 // columns before the bars
)

// curve draws the result against the hours: each column is the best result that its hours allow, in eighths of a row.
func (p *paper) curve(points []*glossladderv1.FitPoint, chosen float64) {
	if len(points) < 2 {
		return
	}
	first, last := points[0].GetWorkMin(), points[len(points)-1].GetWorkMin()
	if last <= first {
		return
	}
	cols := min(curveCols, p.style.Width-lineAt-curveAxis)
	heights := make([]int, cols)
	for col := range heights {
		heights[col] = int(bestWithin(points, first+(last-first)*float64(col+1)/float64(cols)) / 100 * curveRows * 8)
	}
	p.blank()
	p.heading(titleAt, "Result against hours")
	for row := curveRows - 1; row >= 0; row-- {
		label := "     "
		if row == curveRows-1 {
			label = "100 %"
		}
		var bars strings.Builder
		for _, h := range heights {
			bars.WriteRune([]rune(" ▁▂▃▄▅▆▇█")[min(max(h-8*row, 0), 8)])
		}
		p.line(lineAt, []span{say(label + " │"), say(strings.TrimRight(bars.String(), " "))})
	}
	p.line(lineAt, []span{say("    0 └" + strings.Repeat("─", cols))})
	at := min(max(int((chosen-first)/(last-first)*float64(cols)), 0), cols-1)
	mark := "▲ this"
	if at+width(mark) > cols {
		at, mark = at-width("this "), "this ▲"
	}
	p.line(lineAt, []span{say(strings.Repeat(" ", curveAxis+at)), in(strong, mark)})
	from, to := duration(first), duration(last)
	p.line(lineAt, []span{say(strings.Repeat(" ", curveAxis) + from + strings.Repeat(" ", max(1, cols-width(from)-width(to))) + to)})
}

// bestWithin is the greatest result of the points that take no longer.
func bestWithin(points []*glossladderv1.FitPoint, minutes float64) (best float64) {
	for _, point := range points {
		if point.GetWorkMin() <= minutes+1e-9 {
			best = max(best, point.GetResultPct())
		}
	}
	return best
}
