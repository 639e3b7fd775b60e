package advisor

import (
	"fmt"
	"strings"
)

// aStep is a step with its article: "a polish", "no step".
func aStep(step string) string {
	if said, ok := steps[step]; ok {
		return said
	}
	return "a " + step
}

// saidInWords is an answer as an instruction: "Start with a polish", "Nothing stronger than a finish is allowed".
func saidInWords(table string, f *finding) string {
	switch table {
	case "start":
		return [...]string{"Start with " + aStep(f.answer), "No step helps here", "No rule says where to start"}[noneOrUnsaid(f.answer)]
	case "limit":
		return [...]string{upTo(f.answer) + " is allowed", "No machine step is allowed", "No rule says what is allowed"}[noneOrUnsaid(f.answer)]
	case "ladder":
		return [...]string{alone(f.answer), "No step is worked here", "No rule says what follows"}[noneOrUnsaid(f.answer)]
	case "readiness":
		if f.key == "begin" {
			return "Work may begin"
		}
		return readinessHeads[f.answer]
	case "settings":
		return "Run the " + f.step.Step + " with " + settingsInWords(f.step)
	case "cautions":
		return fmt.Sprintf("%s can hurt someone here, or take off paint for good", thingsIn(len(f.watch)))
	}
	return upperFirst(plainWord(f.answer))
}

var readinessHeads = map[string]string{
	"prepare": "Something has to be done first", "wait": "Work has to wait", "refer": "This is for another trade", "stop": "Polishing is ruled out",
}

func upTo(step string) string {
	if step == cutStep {
		return "A cut"
	}
	return "Nothing stronger than " + aStep(step)
}

func noneOrUnsaid(answer string) int {
	switch answer {
	case noStep:
		return 1
	case "":
		return 2
	}
	return 0
}

func thingsIn(n int) string {
	switch n {
	case 0:
		return "Nothing"
	case 1:
		return "One thing"
	}
	return fmt.Sprintf("%d things", n)
}

// alone is a ladder as an instruction: "A polish, then a finish", "A finish alone".
func alone(ladder string) string {
	return upperFirst(ladderWithArticles(ladder))
}

func ladderWithArticles(ladder string) string {
	if len(stepsOf(ladder)) == 1 {
		return aStep(ladder) + " alone"
	}
	var said []string
	for _, step := range stepsOf(ladder) {
		said = append(said, aStep(step))
	}
	return strings.Join(said, ", then ")
}

func withDo(do string) string {
	if do == "" {
		return ""
	}
	return ": " + do
}

// wouldInWords is what another answer would mean, beside the present one: "you would start with a polish".
func wouldInWords(table string, then, now *finding) string {
	switch table {
	case "start":
		return [...]string{"you would start with " + aStep(then.answer), "no step would help", "no rule would say where to start"}[noneOrUnsaid(then.answer)]
	case "limit":
		return limitThen(then, now)
	case "ladder":
		return [...]string{"the ladder would be " + ladderWithArticles(then.answer), "no step would be worked", "no rule would say what follows"}[noneOrUnsaid(then.answer)]
	case "readiness":
		return readinessThen(then)
	case "settings":
		return "the " + now.step.Step + " would be run with " + inAnd(firstFew(settingsChanges(then.step, now.step)))
	case "cautions":
		return cautionsThen(then, now)
	case "verdict":
		return verdictThen(then, now)
	}
	return "the answer would be " + plainWord(then.answer)
}

func limitThen(then, now *finding) string {
	switch {
	case then.answer == "":
		return "no rule would say what is allowed"
	case then.answer == noStep:
		return "no machine step would be allowed"
	case strength(then.answer) > strength(now.answer):
		return aStep(then.answer) + " would be allowed"
	}
	return "nothing stronger than " + aStep(then.answer) + " would be allowed"
}

func readinessThen(then *finding) string {
	switch then.answer {
	case "prepare":
		return "something would have to be done first" + withDo(then.do)
	case "wait":
		return "work would have to wait" + withDo(then.do)
	case "refer":
		return "it would be for another trade" + withDo(then.do)
	case "stop":
		return "polishing would be ruled out" + withDo(then.do)
	}
	return "nothing would stand in the way of the work"
}

func verdictThen(then, now *finding) string {
	if then.answer == now.answer {
		return "it would still be " + plainWord(then.answer) + ", but otherwise" + withDo(then.do)
	}
	said := map[string]string{
		Accept: "you would accept it", Adjust: "you would adjust", StepUp: "you would step up", StepDown: "you would step down",
		Refine: "you would keep it and put a milder step after it", Repeat: "you would repeat it", StopWork: "you would stop",
	}[then.answer]
	return said + withDo(then.do)
}

func inAnd(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
