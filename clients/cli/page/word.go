package page

import (
	"strings"
	"unicode/utf8"

	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// plainWord is a word of a closed list as people say it: "wash marks". It is "" when not given.
func plainWord(value protoreflect.Enum) string {
	return strings.ReplaceAll(vocabulary.WordOf(value), "-", " ")
}

// ladderWords is a ladder in the order of work: "cut → polish → finish".
func ladderWords(ladder glossladderv1.Ladder) string {
	switch ladder {
	case glossladderv1.Ladder_LADDER_UNSPECIFIED, glossladderv1.Ladder_LADDER_NONE:
		return "no step"
	}
	return strings.ReplaceAll(vocabulary.WordOf(ladder), "-", " → ")
}

func stepWord(step glossladderv1.Step) string {
	switch step {
	case glossladderv1.Step_STEP_UNSPECIFIED:
		return "not told"
	case glossladderv1.Step_STEP_NONE:
		return "no step"
	}
	return vocabulary.WordOf(step)
}

// stateWords says whether a panel can be worked, and how good that is.
func stateWords(state glossladderv1.PanelState) span {
	switch state {
	case glossladderv1.PanelState_PANEL_STATE_READY:
		return in(good, "ready")
	case glossladderv1.PanelState_PANEL_STATE_PREPARE:
		return in(wary, "prepare first")
	case glossladderv1.PanelState_PANEL_STATE_WAIT:
		return in(wary, "wait")
	case glossladderv1.PanelState_PANEL_STATE_NOTHING_TO_DO:
		return in(good, "nothing to do")
	case glossladderv1.PanelState_PANEL_STATE_REFER:
		return in(grave, "refer")
	case glossladderv1.PanelState_PANEL_STATE_STOP:
		return in(grave, "stop")
	}
	return say("not told")
}

// listed joins with commas and a last "and".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// upperFirst begins a sentence.
func upperFirst(text string) string {
	_, size := utf8.DecodeRuneInString(text)
	return strings.ToUpper(text[:size]) + text[size:]
}

func stopped(text string) string {
	if text == "" || strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}
