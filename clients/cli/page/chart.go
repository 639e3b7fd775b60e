package page

import (
	"fmt"
	"math"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// axis maps values onto columns of a chart.
type axis struct {
	low, high float64
	columns   int
}

const axisColumns = 41

// newAxis spans values with a little room around them.
func newAxis(columns int, values ...float64) axis {
	a := axis{low: math.Inf(1), high: math.Inf(-1), columns: columns}
	for _, v := range values {
		a.low, a.high = min(a.low, v), max(a.high, v)
	}
	room := (a.high - a.low) * 0.04
	if room == 0 {
		room = 1
	}
	a.low, a.high = a.low-room, a.high+room
	return a
}

func (a axis) at(v float64) int {
	return min(max(int(math.Round((v-a.low)/(a.high-a.low)*float64(a.columns-1))), 0), a.columns-1)
}

// row is one line of a chart, blank at first.
func (a axis) row() []rune { return []rune(strings.Repeat(" ", a.columns)) }

// gain draws the measured gains of a verdict as dots with their intervals, and nought as a line.
func (p *paper) gain(v *glossladderv1.Verdict) {
	for _, c := range []*glossladderv1.MeasuredChange{v.GetGloss(), v.GetHaze()} {
		if c == nil || c.GetConfidencePct() == 0 {
			continue
		}
		lead := "haze, change"
		if c.GetAngle() > 0 {
			lead = fmt.Sprintf("gain at %d°", c.GetAngle())
		}
		a := newAxis(axisColumns, 0, c.GetLow(), c.GetHigh())
		line := a.row()
		line[a.at(0)] = '│'
		for i := a.at(c.GetLow()); i <= a.at(c.GetHigh()); i++ {
			line[i] = '─'
		}
		line[a.at(c.GetMean())] = '●'
		p.line(titleAt, []span{
			say(pad(lead, textAt-titleAt)), say(string(line)),
			say(fmt.Sprintf("  %s%s%s (%s to %s)", signed(c.GetMean()), nbsp, c.GetUnit(), signed(c.GetLow()), signed(c.GetHigh()))),
		})
	}
}

func pad(text string, to int) string { return text + strings.Repeat(" ", max(to-width(text), 1)) }

// courses draws readings during the work beside what the trial promised, one line a spot from above downwards.
func (p *paper) courses(all []*glossladderv1.WorkCourse) {
	for _, c := range all {
		p.blank()
		p.course(c)
	}
}

// mostPoints is how many of the last readings a chart shows.
const mostPoints = 20

func (p *paper) course(c *glossladderv1.WorkCourse) {
	scale := "haze"
	if c.GetAngle() > 0 {
		scale = fmt.Sprintf("gloss at %d°", c.GetAngle())
	}
	p.heading(0, fmt.Sprintf("During the work: %s, %s, beside the trial on %s", stepWord(c.GetStep()), scale, c.GetPanelId()))
	says := in(plain, stopped(upperFirst(c.GetSays())))
	switch c.GetState() {
	case glossladderv1.WorkCourseState_WORK_COURSE_STATE_FALLING_BEHIND:
		says.role = grave
	case glossladderv1.WorkCourseState_WORK_COURSE_STATE_AS_PROMISED, glossladderv1.WorkCourseState_WORK_COURSE_STATE_BETTER:
		says.role = good
	}
	p.para(titleAt, says)
	if c.SectionsOnPad != nil {
		p.item(titleAt, textAt, say("pad"), say(plural(int(c.GetSectionsOnPad()), "section", "sections")+" since a fresh or cleaned one"))
	}
	p.controlChart(c)
}

func (p *paper) controlChart(c *glossladderv1.WorkCourse) {
	values := []float64{c.GetPromised()}
	for _, point := range c.GetPoints() {
		values = append(values, point.GetValue())
	}
	if c.Lower != nil {
		values = append(values, c.GetLower(), c.GetUpper())
	}
	a := newAxis(axisColumns, values...)
	signals := map[int32]*glossladderv1.WorkSignal{}
	for _, s := range c.GetSignals() {
		signals[s.GetPoint()] = s
	}
	if c.Lower != nil {
		p.line(titleAt, []span{say(pad("", textAt-titleAt)), in(faint, string(a.labels(c)))})
	}
	first := max(len(c.GetPoints())-mostPoints, 0)
	if first > 0 {
		p.para(textAt, in(faint, plural(first, "earlier spot is not shown", "earlier spots are not shown")))
	}
	for i := first; i < len(c.GetPoints()); i++ {
		point := c.GetPoints()[i]
		line := a.row()
		line[a.at(c.GetPromised())] = '│'
		if c.Lower != nil {
			line[a.at(c.GetLower())], line[a.at(c.GetUpper())] = '┊', '┊'
		}
		mark, role := '●', plain
		tail := ""
		if s := signals[int32(i)]; s != nil { //nolint:gosec // a place among points
			mark, tail = '◆', "  "+s.GetSays()
			if role = good; s.GetWorse() {
				role = grave
			}
		}
		line[a.at(point.GetValue())] = mark
		lead := fmt.Sprintf("%s %s", point.GetPanelId(), point.GetSpot())
		p.line(titleAt, []span{say(pad(lead, textAt-titleAt)), say(string(line)), say("  " + tenths(point.GetValue())), in(role, tail)})
	}
}

// labels name the promise and the limits above their lines, where there is room.
func (a axis) labels(c *glossladderv1.WorkCourse) []rune {
	line := a.row()
	for _, v := range []float64{c.GetPromised(), c.GetLower(), c.GetUpper()} {
		text := []rune(tenths(v))
		from := min(max(a.at(v)-len(text)/2, 0), a.columns-len(text))
		if strings.TrimSpace(string(line[max(from-1, 0):min(from+len(text)+1, a.columns)])) == "" {
			copy(line[from:], text)
		}
	}
	return line
}
