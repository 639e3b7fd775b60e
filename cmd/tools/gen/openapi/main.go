// Command openapi reads a compiled contract with source information (a FileDescriptorSet, as `buf build` writes it) on standard
// input and writes, on standard output, an OpenAPI 3.1 document of the named services: every method that has a path, with the
// bounds and the comments of the contract.
//
// The generators that others keep write one document for each file of a contract, and none carries the bounds that the contract
// states for its fields; those are what somebody who sends a form needs to know.
package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protodesc"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"
	"google.golang.org/protobuf/types/descriptorpb"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("openapi", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() { fmt.Fprintln(stderr, "usage: openapi SERVICE... < compiled.binpb > openapi.json") }
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
		fmt.Fprintf(stderr, "openapi: %v\n", err)
		return 1
	}
	return 0
}

func convert(in io.Reader, out io.Writer, names []string) error {
	files, err := linked(in)
	if err != nil {
		return err
	}
	var services []protoreflect.ServiceDescriptor
	for _, name := range names {
		found, err := files.FindDescriptorByName(protoreflect.FullName(name))
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		service, ok := found.(protoreflect.ServiceDescriptor)
		if !ok {
			return fmt.Errorf("%s is no service", name)
		}
		services = append(services, service)
	}
	document, err := describe(services)
	if err != nil {
		return err
	}
	text, err := plain(document)
	if err != nil {
		return err
	}
	var indented bytes.Buffer
	if err := json.Indent(&indented, text, "", "  "); err != nil {
		return err
	}
	_, err = fmt.Fprintln(out, indented.String())
	return err
}

func linked(in io.Reader) (*protoregistry.Files, error) {
	raw, err := io.ReadAll(in)
	if err != nil {
		return nil, err
	}
	var set descriptorpb.FileDescriptorSet
	if err := proto.Unmarshal(raw, &set); err != nil {
		return nil, fmt.Errorf("read compiled contract: %w", err)
	}
	files, err := protodesc.NewFiles(&set)
	if err != nil {
		return nil, fmt.Errorf("link compiled contract: %w", err)
	}
	return files, nil
}
