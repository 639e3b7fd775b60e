package page

import (
	"fmt"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// change sets after less before: both means, the difference with its interval, and what that proves.
func (p *paper) change(indent int, lead string, c *glossladderv1.MeasuredChange) {
	if c == nil {
		return
	}
	p.item(indent, textAt, say(lead), say(fmt.Sprintf("%s before, %s after:", tenths(c.GetBefore()), reading(c.GetAfter(), c.GetUnit()))),
		in(strong, signed(c.GetMean())+nbsp+c.GetUnit()), say(interval(c)+","), judged(c.GetJudgement()))
	p.para(textAt, in(faint, compared(c)))
	if c.GetNote() != "" {
		p.para(textAt, in(strong, stopped(upperFirst(c.GetNote()))))
	} else if needed := needs(c); needed != "" {
		p.para(textAt, in(strong, needed))
	}
}

func interval(c *glossladderv1.MeasuredChange) string {
	if c.GetConfidencePct() == 0 {
		return ""
	}
	return fmt.Sprintf("(%s to %s with %s confidence)", signed(c.GetLow()), signed(c.GetHigh()), with(c.GetConfidencePct(), "%"))
}

func judged(word string) span {
	text := strings.ReplaceAll(word, "-", " ")
	switch word {
	case "worthwhile", "better":
		return in(good, text)
	case "loss", "worse":
		return in(grave, text)
	case "not-conclusive":
		return in(wary, "the readings cannot tell")
	}
	return say(text)
}

func compared(c *glossladderv1.MeasuredChange) string {
	worth := fmt.Sprintf("; a change counts from %s", with(c.GetWorth(), c.GetUnit()))
	switch c.GetMethod() {
	case glossladderv1.ChangeMethod_CHANGE_METHOD_PAIRED:
		return fmt.Sprintf("%s paired, Student's t%s", plural(int(c.GetCompared()), "spot", "spots"), worth)
	case glossladderv1.ChangeMethod_CHANGE_METHOD_WELCH:
		return fmt.Sprintf("%s compared, Welch's t%s", plural(int(c.GetCompared()), "spot", "spots"), worth)
	}
	return strings.TrimPrefix(worth, "; ")
}

func needs(c *glossladderv1.MeasuredChange) string {
	var parts []string
	if c.ReadingsNeeded != nil {
		parts = append(parts, plural(int(c.GetReadingsNeeded()), "reading a spot, before and after,", "readings a spot, before and after,"))
	}
	if c.SpotsNeeded != nil {
		parts = append(parts, plural(int(c.GetSpotsNeeded()), "spot", "spots"))
	}
	if len(parts) == 0 {
		return ""
	}
	return "Would settle it: " + strings.Join(parts, " or ") + "."
}
