#!/usr/bin/env bash
# Regenerates what the contract in proto/glossladder needs and gives: the imported .proto files (proto/buf, proto/google),
# the Go beside each .proto file, the meanings of facts and words that people are shown (service/vocabulary), and the OpenAPI
# document of the JSON API (service/httpapi).
#
#   cmd/tools/generate.sh           write them
#   cmd/tools/generate.sh --check   write nothing; show what differs and exit 1 if anything does
set -euo pipefail

case "$*" in
'') check=no ;;
--check) check=yes ;;
*)
	echo 'usage: cmd/tools/generate.sh [--check]' >&2
	exit 2
	;;
esac

cd "$(dirname "${BASH_SOURCE[0]}")/../.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# The generators are pinned apart from the program. Where both name a module of the contract they must name one version,
# or the generated Go and the printed imports would belong to another runtime.
for module in \
	google.golang.org/protobuf \
	google.golang.org/genproto/googleapis/api \
	google.golang.org/genproto/googleapis/rpc \
	buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go; do
	program=$(go list -m -f '{{.Version}}' "$module")
	generator=$(cd cmd/tools/gen && go list -m -f '{{.Version}}' "$module")
	if [ "$program" != "$generator" ]; then
		echo "$module: go.mod has $program, cmd/tools/gen/go.mod has $generator; make them one" >&2
		exit 1
	fi
done

# generator NAME ARGUMENT... runs one of the generators written for this project.
mkdir "$work/bin"
generator() { "$work/bin/$1" "${@:2}"; }
(cd cmd/tools/gen && go build -o "$work/bin/" ./protodeps ./protocomments ./openapi)

buf() { go tool -modfile=cmd/tools/buf/go.mod buf "$@"; }

# settle FIND-ARGUMENT... makes the files that find names be those of $work/new, no more and no fewer; or, in a check,
# says how they differ.
settle() {
	mkdir "$work/now"
	find "$@" | tar -cf - -T - | tar -xf - -C "$work/now"
	if [ "$check" = no ]; then
		find "$@" -delete
		cp -R "$work/new/." .
	elif ! diff -ru "$work/now" "$work/new" >"$work/difference"; then
		head -n 60 "$work/difference" >&2
		echo 'the tree is not what its sources give (- tree, + sources): run cmd/tools/generate.sh' >&2
		exit 1
	fi
	rm -rf "$work/now" "$work/new"
}

generator protodeps -out "$work/new/proto"
buf format -w "$work/new/proto"
settle proto/buf proto/google -name '*.proto'

buf generate --template cmd/tools/buf.gen.go.yaml --output "$work/new"
mkdir -p "$work/new/service/vocabulary"
buf build proto --as-file-descriptor-set --output "$work/contract.binpb"
generator protocomments glossladder/v1/{facts,results,words}.proto \
	<"$work/contract.binpb" >"$work/new/service/vocabulary/comments.json"
settle proto service/vocabulary '(' -name '*.pb.go' -o -name comments.json ')'

# The services in the order in which the document tells of them.
mkdir -p "$work/new/service/httpapi"
generator openapi glossladder.v1.{Plan,Job,Report,Booking,Webhook,Advisor,Rules,History}Service \
	<"$work/contract.binpb" >"$work/new/service/httpapi/openapi.json"
settle service/httpapi -name openapi.json
