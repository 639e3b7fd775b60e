package page_test

import (
	"flag"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/reflect/protoreflect"

	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Golden texts are rewritten by go test ./clients/cli/page -update, and read by a person before they are kept.
var update = flag.Bool("update", false, "rewrite the golden texts")

// pages are all kinds of page, each with how it is set.
func pages() map[string]func(io.Writer, page.Style) error {
	return map[string]func(io.Writer, page.Style) error{
		"recommendation": func(w io.Writer, s page.Style) error { return page.Recommendation(w, wholeCar(), s) },
		"one-panel": func(w io.Writer, s page.Style) error {
			car := wholeCar()
			car.Panels, car.Groups, car.Cautions = car.GetPanels()[:1], nil, nil
			car.Panels[0].MeasureNext = car.GetMeasureNext()[1:]
			return page.Recommendation(w, car, s)
		},
		"lessons": func(w io.Writer, s page.Style) error {
			asked, said := learned()
			return page.Lessons(w, said, page.AskedWords(asked, said), s)
		},
		"every-lesson": func(w io.Writer, s page.Style) error {
			_, said := learned()
			return page.EveryLesson(w, said, s)
		},
		"replay": func(w io.Writer, s page.Style) error { return page.Replay(w, replayed(), "my-rules", 2, s) },
		"hints":  func(w io.Writer, s page.Style) error { return page.Hints(w, hinted(), 1, s) },
		"told-again": func(w io.Writer, s page.Style) error {
			s.Full = true
			return page.Again(w, toldAgain(), "grey-saloon", 3, s)
		},
		"plan":     func(w io.Writer, s page.Style) error { return page.Plan(w, "invented estate", planned(), s) },
		"estimate": func(w io.Writer, s page.Style) error { return page.Estimate(w, "", estimated(), s) },
		"fit":      func(w io.Writer, s page.Style) error { return page.Fit(w, "", fitted(), s) },
		"verdict":  func(w io.Writer, s page.Style) error { return page.Verdict(w, notSettled(), s) },
		"facts":    func(w io.Writer, s page.Style) error { return page.Facts(w, someFacts(), true, s) },
		"explanation": func(w io.Writer, s page.Style) error {
			return page.Explanation(w, explained(), "", s)
		},
		"failed-rules": func(w io.Writer, s page.Style) error { return page.Explanation(w, notAnswered(), "", s) },
		"pairs":        func(w io.Writer, s page.Style) error { return page.Pairs(w, explained(), "", s) },
		"quiz": func(w io.Writer, s page.Style) error {
			return page.Quiz(w, explained(), inspected(), page.Exam{Questions: 3, Answers: "below"}, s)
		},
		"story": func(w io.Writer, s page.Style) error {
			story := page.NewStory(s)
			story.Chapter("An invented job")
			story.Tell("It begins with an inspection that is long enough to be wrapped on any terminal that somebody still uses.")
			story.Panels(wholeCar())
			story.Advice(wholeCar().GetPanels()[0])
			story.Cautions(wholeCar().GetCautions())
			story.Verdict(notSettled())
			story.Commands("glossladder demo")
			return story.Print(w)
		},
	}
}

func set(t *testing.T, name string, style page.Style) string {
	t.Helper()
	var out strings.Builder
	require.NoError(t, pages()[name](&out, style))
	return out.String()
}

func TestPagesLookAsTheyDid(t *testing.T) {
	for name := range pages() {
		t.Run(name, func(t *testing.T) {
			got, golden := set(t, name, page.Style{}), filepath.Join("testdata", name+".txt")
			if *update {
				require.NoError(t, os.WriteFile(golden, []byte(got), 0o644))
			}
			want, err := os.ReadFile(golden)
			require.NoError(t, err)
			assert.Equal(t, string(want), got)
		})
	}
}

var escape = regexp.MustCompile("\x1b\\[[0-9;]*m")

func TestColorsSayNothingThatTheWordsDoNot(t *testing.T) {
	for name := range pages() {
		plain, colored := set(t, name, page.Style{}), set(t, name, page.Style{Color: true})
		assert.NotContains(t, plain, "\x1b", name)
		assert.Contains(t, colored, "\x1b[1m", name)
		assert.Equal(t, plain, escape.ReplaceAllString(colored, ""), name)
		for line := range strings.Lines(colored) {
			marks := escape.FindAllString(line, -1)
			assert.Zero(t, len(marks)%2, "every colour ends on its line: %q", line)
		}
	}
}

// A line may stand out only where there is nothing to break it at: a rule with its place, a row of the table of panels.
func TestLinesStayWithinTheWidth(t *testing.T) {
	row := regexp.MustCompile(`^ *(panel|bonnet|roof|wing-rear-left)  `)
	for _, width := range []int{60, 72, 88, 100} {
		for name := range pages() {
			for line := range strings.Lines(set(t, name, page.Style{Width: width, Full: true})) {
				line = strings.TrimSuffix(line, "\n")
				assert.Equal(t, strings.TrimRight(line, " "), line, "no spaces at the end")
				if row.MatchString(line) {
					continue
				}
				assert.LessOrEqual(t, utf8.RuneCountInString(line), width, "%s at %d: %q", name, width, line)
			}
		}
	}
}

// Whatever words an answer holds for people must be on the page, however they are wrapped.
func TestNoWordOfAnAnswerIsLost(t *testing.T) {
	for name, answer := range map[string]protoreflect.ProtoMessage{"recommendation": wholeCar(), "verdict": notSettled(), "facts": someFacts()} {
		text := strings.Join(strings.Fields(set(t, name, page.Style{Full: true})), " ")
		checked := 0
		eachText(answer.ProtoReflect(), func(field protoreflect.FieldDescriptor, words string) {
			if field.Name() == "rule_set" || field.Name() == "table" || field.Name() == "file" || field.Name() == "unit" || field.Name() == "judgement" {
				return // shortened, part of a place, or said in other words
			}
			checked++
			assert.Contains(t, strings.ToLower(text), strings.ToLower(strings.TrimSuffix(words, ".")), "%s: %s", name, field.FullName())
		})
		assert.Greater(t, checked, 10, name)
	}
}

func eachText(message protoreflect.Message, visit func(protoreflect.FieldDescriptor, string)) {
	message.Range(func(field protoreflect.FieldDescriptor, value protoreflect.Value) bool {
		values := []protoreflect.Value{value}
		if field.IsList() {
			values = nil
			for i := range value.List().Len() {
				values = append(values, value.List().Get(i))
			}
		}
		for _, v := range values {
			switch {
			case field.Message() != nil:
				eachText(v.Message(), visit)
			case field.Kind() == protoreflect.StringKind:
				visit(field, v.String())
			}
		}
		return true
	})
}

func TestReasonsOfCautionsAreForWhoeverAsks(t *testing.T) {
	assert.NotContains(t, set(t, "verdict", page.Style{}), "It goes wrong quickly.")
	assert.Contains(t, set(t, "verdict", page.Style{Full: true}), "It goes wrong quickly.")
}

func TestAnAnswerWithNothingInItIsStillAPage(t *testing.T) {
	var out strings.Builder
	require.NoError(t, page.Recommendation(&out, &glossladderv1.Recommendation{Panels: []*glossladderv1.PanelAdvice{{PanelId: "roof"}}}, page.Style{}))
	require.NoError(t, page.Verdict(&out, &glossladderv1.Verdict{PanelId: "roof"}, page.Style{}))
	assert.Contains(t, out.String(), "roof · not told")
}
