// Command protocomments reads a compiled contract with source information (a FileDescriptorSet, as `buf build` writes
// it) on standard input and writes the comment of every message, field and enum value of the named files as JSON on
// standard output, keyed by full name and sorted.
//
// Generated Go code carries no comments, yet the meaning of a fact is written only there. This keeps the comment the one
// place where it is written.
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protodesc"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/descriptorpb"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("protocomments", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() { fmt.Fprintln(stderr, "usage: protocomments FILE.proto... < compiled.binpb > comments.json") }
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	if flags.NArg() == 0 {
		flags.Usage()
		return 2
	}
	if err := convert(stdin, stdout, flags.Args()); err != nil {
		fmt.Fprintf(stderr, "protocomments: %v\n", err)
		return 1
	}
	return 0
}

func convert(in io.Reader, out io.Writer, names []string) error {
	raw, err := io.ReadAll(in)
	if err != nil {
		return err
	}
	var set descriptorpb.FileDescriptorSet
	if err := proto.Unmarshal(raw, &set); err != nil {
		return fmt.Errorf("read compiled contract: %w", err)
	}
	files, err := protodesc.NewFiles(&set)
	if err != nil {
		return fmt.Errorf("link compiled contract: %w", err)
	}
	comments := map[string]string{}
	for _, name := range names {
		file, err := files.FindFileByPath(name)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		before := len(comments)
		collect(file, comments)
		if len(comments) == before {
			return fmt.Errorf("%s has no comments; was the contract built with source information?", name)
		}
	}
	text, err := json.MarshalIndent(comments, "", "  ")
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(out, "%s\n", text)
	return err
}

func collect(file protoreflect.FileDescriptor, into map[string]string) {
	note := func(d protoreflect.Descriptor) {
		comment := file.SourceLocations().ByDescriptor(d).LeadingComments
		if comment = strings.Join(strings.Fields(comment), " "); comment != "" {
			into[string(d.FullName())] = comment
		}
	}
	for i := range file.Messages().Len() {
		message := file.Messages().Get(i)
		note(message)
		for k := range message.Fields().Len() {
			note(message.Fields().Get(k))
		}
	}
	for i := range file.Enums().Len() {
		enum := file.Enums().Get(i)
		note(enum)
		for k := range enum.Values().Len() {
			note(enum.Values().Get(k))
		}
	}
}
