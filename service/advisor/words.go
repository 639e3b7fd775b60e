package advisor

import (
	"fmt"
	"strings"
)

// changeInWords is what to do for each change, as an instruction.
var changeInWords = map[string]string{
	"more-passes":   "make more passes over the section",
	"slower-arm":    "move the arm more slowly",
	"less-liquid":   "use less liquid",
	"more-liquid":   "use a little more liquid, or prime the pad again",
	"fresh-pad":     "put on a fresh, primed pad",
	"less-pressure": "press less",
	"lower-speed":   "run the machine more slowly",
	"cool-panel":    "let the panel cool, or move it out of the sun",
	"milder-pad":    "put on a milder pad with the same liquid",
	"stronger-pad":  "put on a stronger pad with the same liquid",
	"more-readings": "take more readings at the same spots",
	"panel-wipe":    "wipe oils away with a panel wipe, then read again",
}

// nextInWords tells what to do next.
func nextInWords(step string, out *Verdict) string {
	change := changeInWords[out.Change]
	switch out.Kind {
	case Repeat:
		return repeatInWords(step, change, out)
	case Adjust:
		if change == "" {
			return "try the " + step + " again with one thing changed"
		}
		return "try the " + step + " again: " + change + ", and change nothing else"
	case StepUp:
		return "try a " + step + " on the spot, or beside it"
	case StepDown:
		return "try a " + step + " on a fresh section beside it"
	case Refine:
		return "work a " + step + " over the same section"
	}
	return "go on with the " + step
}

func repeatInWords(step, change string, out *Verdict) string {
	needed := readingsInWords(out)
	switch {
	case out.Change != "more-readings" && change != "":
		return change
	case needed != "":
		return needed
	case change != "":
		return change
	}
	return "work the " + step + " once more the same way, and read again at the same spots"
}

// readingsInWords is how to settle what the readings left open, as an instruction.
func readingsInWords(out *Verdict) string {
	for _, c := range []*Change{out.Gloss, out.Haze} {
		if c == nil || c.Judgement != "not-conclusive" {
			continue
		}
		switch {
		case c.ReadingsNeeded > mostReadings || c.SpotsNeeded > mostReadings:
			return c.Note
		case c.ReadingsNeeded > 0:
			return fmt.Sprintf("take %d readings at each of the same spots; that should settle it", c.ReadingsNeeded)
		case c.SpotsNeeded > 0:
			return fmt.Sprintf("work another section and read %d spots, each before and after; that should settle it", c.SpotsNeeded)
		case c.Note != "":
			return c.Note
		}
	}
	return ""
}

// verdictHeadline is the verdict in one plain sentence.
func verdictHeadline(out *Verdict) string {
	switch out.Kind {
	case Accept:
		return fmt.Sprintf("Accept: the ladder is proven. Carry %s over the panels of this kind.", LadderInWords(out.Ladder))
	case StopWork:
		if out.Ladder != noStep {
			return fmt.Sprintf("Stop here: %s What was gained stays: %s.", sentence(out.Reason.Because), LadderInWords(out.Ladder))
		}
		return "Stop: " + lowerFirst(sentence(out.Reason.Because))
	case Refine:
		return fmt.Sprintf("Refine: keep the %s, and work a %s over the same section.", strings.Join(out.Kept, " and the "), out.Next.Step)
	case Repeat:
		return "Repeat: " + out.Next.Do + "."
	case Adjust:
		return "Adjust: " + out.Next.Do + "."
	case StepUp:
		return "Step up: " + out.Next.Do + "."
	case StepDown:
		return "Step down: " + out.Next.Do + "."
	}
	return ""
}

func sentence(s string) string {
	if s == "" || strings.HasSuffix(s, ".") {
		return s
	}
	return s + "."
}
