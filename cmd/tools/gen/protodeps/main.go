// Command protodeps writes the .proto sources that the contract imports: the validation rules of buf/validate and the
// annotations and error details of google/api and google/rpc.
//
// It prints them from the descriptors compiled into Go modules whose versions are pinned in the go.mod beside it, so no
// registry of schemas is needed and the printed text always matches the code that runs. Descriptors carry no comments;
// the published sources do, and are the place to read about these files. Well-known types (google/protobuf) are not
// printed: every protobuf compiler brings its own.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"github.com/jhump/protoreflect/v2/protoprint"
	"google.golang.org/genproto/googleapis/api/annotations"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/genproto/googleapis/rpc/status"
	"google.golang.org/protobuf/reflect/protoreflect"
)

func main() { os.Exit(run(os.Args[1:], os.Stderr)) }

func run(args []string, stderr io.Writer) int {
	flags := flag.NewFlagSet("protodeps", flag.ContinueOnError)
	flags.SetOutput(stderr)
	out := flags.String("out", "", "`folder` to write the .proto files into (required)")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	if *out == "" || flags.NArg() > 0 {
		fmt.Fprintln(stderr, "protodeps: name the folder to write into with -out, and nothing else")
		return 2
	}
	if err := printTo(*out); err != nil {
		fmt.Fprintf(stderr, "protodeps: %v\n", err)
		return 1
	}
	return 0
}

// printTo writes each imported file under folder, at the path other files import it by.
func printTo(folder string) error {
	var printer protoprint.Printer
	if err := printer.PrintProtosToFileSystem(imported(), folder); err != nil {
		return fmt.Errorf("print imported protos to %s: %w", folder, err)
	}
	return nil
}

// imported lists the files that the contract may import.
func imported() []protoreflect.FileDescriptor {
	return []protoreflect.FileDescriptor{
		validate.File_buf_validate_validate_proto,
		annotations.File_google_api_annotations_proto,
		annotations.File_google_api_field_behavior_proto,
		annotations.File_google_api_http_proto,
		annotations.File_google_api_resource_proto,
		errdetails.File_google_rpc_error_details_proto,
		status.File_google_rpc_status_proto,
	}
}
