package advisor

import (
	"fmt"
	"strconv"
	"strings"
)

// stateOf is whether the panel can be worked.
func stateOf(out *PanelAdvice) string {
	switch worstEffect(out.Readiness) {
	case "stop":
		return Stop
	case "refer":
		return Refer
	}
	if out.Start != noStep && out.Limit == noStep {
		return Stop
	}
	if out.Ladder == noStep {
		return NothingToDo
	}
	switch worstEffect(out.Readiness) {
	case "wait":
		return Wait
	case "prepare":
		return Prepare
	}
	return Ready
}

// headline is the answer in one plain sentence.
func headline(out *PanelAdvice) string {
	switch out.State {
	case Stop:
		if len(out.Readiness) > 0 && out.Readiness[0].Effect == "stop" {
			return "No machine step on this panel: " + lowerFirst(out.Readiness[0].Reason.Because)
		}
		return "No machine step on this panel: " + lowerFirst(out.LimitReason.Because)
	case Refer:
		return "Not for polishing: " + lowerFirst(out.Readiness[0].Reason.Because)
	case NothingToDo:
		return "Nothing on this panel asks for a machine step."
	case Wait:
		return fmt.Sprintf("Wait first: %s. Then %s", lowerFirst(trimStop(out.Readiness[0].Do)), lowerFirst(proveInWords(out)))
	case Prepare:
		return fmt.Sprintf("First %s. Then %s", lowerFirst(trimStop(out.Readiness[0].Do)), lowerFirst(proveInWords(out)))
	}
	return proveInWords(out)
}

// proveInWords says what to try on the test spot.
func proveInWords(out *PanelAdvice) string {
	first := out.Steps[0].Step
	if len(out.Steps) == 1 {
		return fmt.Sprintf("Prove a %s on a test spot.", first)
	}
	return fmt.Sprintf("Prove %s on a test spot, starting with the %s.", LadderInWords(out.Ladder), first)
}

// LadderInWords is a ladder as the trade says it: "cut, then polish, then finish".
func LadderInWords(ladder string) string {
	steps := stepsOf(ladder)
	if len(steps) == 0 {
		return "no step"
	}
	return strings.Join(steps, ", then ")
}

func plainDefect(d DefectAdvice) string {
	words := strings.ReplaceAll(d.Kind, "-", " ")
	if d.Severity == nil {
		return words
	}
	return words + " " + strconv.FormatFloat(*d.Severity, 'f', -1, 64)
}

func allowance(limit string) string {
	if limit == noStep {
		return "no step"
	}
	return "at most a " + limit
}

func lowerFirst(s string) string {
	if len(s) > 1 && s[1] >= 'a' && s[1] <= 'z' || strings.HasPrefix(s, "A ") {
		return strings.ToLower(s[:1]) + s[1:]
	}
	return s
}

func trimStop(s string) string { return strings.TrimSuffix(s, ".") }
