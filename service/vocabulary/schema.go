package vocabulary

import (
	"errors"
	"fmt"
	"strings"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
)

// Schema is every fact of the contract and the result of every table. An error means that the contract itself
// is at fault; it names every declaration that is.
func Schema() (*rules.Schema, error) {
	texts, err := readMeanings()
	if err != nil {
		return nil, err
	}
	facts, factsErr := factsOf((&glossladderv1.Facts{}).ProtoReflect().Descriptor(), texts)
	results, resultsErr := resultsOf(glossladderv1.File_glossladder_v1_results_proto, texts)
	if err := errors.Join(factsErr, resultsErr); err != nil {
		return nil, err
	}
	schema, err := rules.NewSchema(facts, results)
	if err != nil {
		return nil, err
	}
	return schema.LetOwn(OwnGroup)
}

// OwnGroup is the group of the facts that a shop declares itself, in the file facts.yaml of its rule folder.
const OwnGroup = "shop"

// factsOf walks the groups of the Facts message: a fact's name is its path, "film.usable_um".
func factsOf(root protoreflect.MessageDescriptor, texts meanings) ([]rules.Fact, error) {
	var facts []rules.Fact
	var complaints []error
	for i := range root.Fields().Len() {
		group := root.Fields().Get(i)
		for k := range group.Message().Fields().Len() {
			field := group.Message().Fields().Get(k)
			fact, err := factOf(string(group.Name())+"."+string(field.Name()), field, texts)
			complaints = append(complaints, err)
			facts = append(facts, fact)
		}
	}
	return facts, errors.Join(complaints...)
}

func factOf(name string, field protoreflect.FieldDescriptor, texts meanings) (rules.Fact, error) {
	options := notesOf(field).GetFact()
	fact := rules.Fact{Name: name, Label: label(field, options), Meaning: texts.ofNumber(field, options.GetUnit()), Unit: options.GetUnit(), Step: options.GetStep(), Learn: options.GetLearn()}
	var err error
	if fact.Class, err = classOf(options.GetClass()); err != nil {
		return fact, fmt.Errorf("%s: %w", field.FullName(), err)
	}
	switch field.Kind() {
	case protoreflect.DoubleKind:
		fact.Kind = rules.Number
		fact.Min, fact.Max, err = bounds(field)
	case protoreflect.EnumKind:
		fact.Kind, fact.Words, fact.Ordered = rules.Word, Words(field.Enum()), ordered(field.Enum())
		fact.Scale = string(field.Enum().Name())
	case protoreflect.BoolKind:
		fact.Kind = rules.Flag
	default:
		err = fmt.Errorf("%s: a fact is a double, an enum or a bool, not %s", field.FullName(), field.Kind())
	}
	return fact, err
}

// resultsOf finds the messages that are result types of tables, in the order of declaration, which is the order
// in which the tables are asked.
func resultsOf(file protoreflect.FileDescriptor, texts meanings) ([]rules.ResultType, error) {
	var results []rules.ResultType
	var complaints []error
	for i := range file.Messages().Len() {
		message := file.Messages().Get(i)
		table, _ := proto.GetExtension(message.Options(), glossladderv1.E_Table).(*glossladderv1.TableOptions)
		if table.GetName() == "" {
			continue
		}
		result := rules.ResultType{
			Table: table.GetName(), Meaning: texts.ofMessage(message),
			Priority: table.GetPriorityField(), HighestWins: table.GetHighestWins(),
		}
		for _, hit := range table.GetHits() {
			policy, err := hitOf(hit)
			complaints = append(complaints, err)
			result.Hits = append(result.Hits, policy)
		}
		for k := range message.Fields().Len() {
			field, err := resultField(message.Fields().Get(k), texts)
			complaints = append(complaints, err)
			result.Fields = append(result.Fields, field)
		}
		results = append(results, result)
	}
	return results, errors.Join(complaints...)
}

func resultField(field protoreflect.FieldDescriptor, texts meanings) (rules.Field, error) {
	notes := notesOf(field)
	out := rules.Field{
		Name: string(field.Name()), Meaning: texts.ofNumber(field, notes.GetFact().GetUnit()), Unit: notes.GetFact().GetUnit(), Step: notes.GetFact().GetStep(),
		Required: notes.GetRequired(), List: field.IsList(),
	}
	var err error
	switch field.Kind() {
	case protoreflect.DoubleKind:
		out.Kind = rules.Number
		out.Min, out.Max, err = bounds(field)
	case protoreflect.EnumKind:
		out.Kind, out.Words, out.Ordered = rules.Word, Words(field.Enum()), ordered(field.Enum())
	case protoreflect.BoolKind:
		out.Kind = rules.Flag
	case protoreflect.StringKind:
		out.Kind = rules.Text
	default:
		err = fmt.Errorf("%s: a result is a double, an enum, a bool or a string, not %s", field.FullName(), field.Kind())
	}
	return out, err
}

// bounds reads a number's range from its validation constraints, so that requests and rules share one.
func bounds(field protoreflect.FieldDescriptor) (least, most float64, err error) {
	constraints, _ := proto.GetExtension(field.Options(), validate.E_Field).(*validate.FieldRules)
	number := constraints.GetDouble()
	if number.GetGreaterThan() == nil || number.GetLessThan() == nil {
		return 0, 0, fmt.Errorf("%s: a number needs both gte and lte", field.FullName())
	}
	return number.GetGte(), number.GetLte(), nil
}

func notesOf(field protoreflect.FieldDescriptor) *glossladderv1.FieldNotes {
	notes, _ := proto.GetExtension(field.Options(), glossladderv1.E_Notes).(*glossladderv1.FieldNotes)
	return notes
}

func label(field protoreflect.FieldDescriptor, options *glossladderv1.FactOptions) string {
	if options.GetLabel() != "" {
		return options.GetLabel()
	}
	return strings.ReplaceAll(string(field.Name()), "_", " ")
}

func classOf(class glossladderv1.FactClass) (rules.Class, error) {
	switch class {
	case glossladderv1.FactClass_FACT_CLASS_GIVEN:
		return rules.Given, nil
	case glossladderv1.FactClass_FACT_CLASS_MEASURED:
		return rules.Measurable, nil
	case glossladderv1.FactClass_FACT_CLASS_CHOSEN:
		return rules.Choosable, nil
	}
	return 0, errors.New("a fact needs a class")
}

func hitOf(policy glossladderv1.HitPolicy) (rules.Hit, error) {
	switch policy {
	case glossladderv1.HitPolicy_HIT_POLICY_UNIQUE:
		return rules.Unique, nil
	case glossladderv1.HitPolicy_HIT_POLICY_ANY:
		return rules.Any, nil
	case glossladderv1.HitPolicy_HIT_POLICY_PRIORITY:
		return rules.Priority, nil
	case glossladderv1.HitPolicy_HIT_POLICY_FIRST:
		return rules.First, nil
	case glossladderv1.HitPolicy_HIT_POLICY_COLLECT:
		return rules.Collect, nil
	}
	return "", fmt.Errorf("hit policy %s is not one", policy)
}
