module github.com/glossladder/glossladder/cmd/tools/gen

go 1.26.8

tool (
	google.golang.org/grpc/cmd/protoc-gen-go-grpc
	google.golang.org/protobuf/cmd/protoc-gen-go
)

require (
	buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go v1.36.12-20260825204119-511051f7f437.1
	github.com/jhump/protoreflect/v2 v2.0.0
	google.golang.org/genproto/googleapis/api v0.0.0-20261110000943-09e21b237f2c
	google.golang.org/genproto/googleapis/rpc v0.0.0-20261110000943-09e21b237f2c
	google.golang.org/protobuf v1.36.12
)

require google.golang.org/grpc/cmd/protoc-gen-go-grpc v1.6.2 // indirect
