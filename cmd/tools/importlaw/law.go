package importlaw

// Project returns the law of this repository. Arrows only run
//
//	cmd → clients/cli → service/app → service/rpc → advisor, plan, history, report → gloss, film, climate, exposure, catalogue
//
// and from advisor to rules, which know nothing of paint and import nothing of service. Only service/vocabulary and
// service/rpc stand between the contract and the domain. To add a package, add its room here with as few arrows as it needs.
func Project() Law {
	rooms := domainRooms()
	rooms = append(rooms, edgeRooms()...)
	rooms = append(rooms, toolRooms()...)
	return Law{Module: "github.com/glossladder/glossladder", Rooms: rooms}
}

// domainRooms decide and reckon.
func domainRooms() []Room {
	return []Room{
		{Path: "rules", Pure: true, Uses: []string{"rules/strictyaml"}, Libraries: []string{"github.com/expr-lang/expr"}},
		{Path: "rules/strictyaml", Pure: true, Libraries: []string{"go.yaml.in/yaml/v4"}},
		{Path: "rules/shipped", Pure: true, Uses: []string{"rules"}},
		{Path: "service/gloss", Pure: true, Libraries: []string{"gonum.org/v1/gonum"}},
		{Path: "service/film", Pure: true, Libraries: []string{"gonum.org/v1/gonum"}},
		{Path: "service/climate", Pure: true},
		{Path: "service/exposure", Pure: true},
		{Path: "service/catalogue", Pure: true, Uses: []string{"rules/strictyaml"}},
		{Path: "service/advisor", Pure: true, Uses: reckoning("rules")},
		{Path: "service/plan", Pure: true, Uses: reckoning()},
		{Path: "service/workplan", Pure: true, Uses: reckoning("rules", "service/advisor", "service/plan")},
		{Path: "service/history", Pure: true, Uses: reckoning()},
		{Path: "service/history/lessons", Pure: true, Uses: []string{"service/history", "service/history/learned"}},
		{Path: "service/history/baytime", Pure: true, Uses: []string{"service/history"}},
		{Path: "service/history/course", Pure: true, Uses: []string{"service/history", "service/history/drift"}},
		{Path: "service/report", Pure: true, Uses: reckoning("service/history", "service/report/chart", "service/report/sheet", "service/report/words")},
		{Path: "service/report/chart", Pure: true},
		{Path: "service/report/sheet", Pure: true, Uses: []string{"service/report/chart"}},
		{Path: "service/report/words", Pure: true, Uses: []string{"service/film"}},
		{Path: "service/history/transcript", Uses: []string{"service/history"}},
		{Path: "service/history/migrations", Pure: true},
		{Path: "service/history/learned", Pure: true, Libraries: []string{"gonum.org/v1/gonum"}},
		{Path: "service/history/drift", Pure: true},
		{
			Path: "service/history/hindsight", Pure: true,
			Uses: reckoning("rules", "service/history", "service/history/lessons"), Libraries: []string{"gonum.org/v1/gonum"},
		},
	}
}

// edgeRooms meet the world: the wire, the database, the terminal.
func edgeRooms() []Room {
	return []Room{
		{Path: "proto", Libraries: []string{"google.golang.org", "buf.build/gen/go/bufbuild/protovalidate"}},
		{
			Path:      "service/vocabulary",
			Uses:      []string{"proto", "rules"},
			Libraries: []string{"google.golang.org/protobuf", "buf.build/gen/go/bufbuild/protovalidate"},
		},
		{Path: "service/durable"},
		{Path: "service/rulefolder", Uses: []string{"rules", "rules/strictyaml", "service/durable"}},
		{Path: "service/rulehistory", Uses: []string{"rules", "service/durable"}},
		{
			Path: "service/history/sqlite", Uses: []string{"service/history", "service/history/migrations"},
			Libraries: []string{"modernc.org/sqlite", "github.com/pressly/goose/v3"},
		},
		{
			Path: "service/history/postgres", Uses: []string{"service/history", "service/history/migrations"},
			Libraries: []string{"github.com/jackc/pgx/v5", "github.com/pressly/goose/v3"},
		},
		{Path: "service/history/storetest", Uses: reckoning("service/history"), Libraries: []string{"github.com/stretchr/testify"}},
		{Path: "service/oneport"},
		{Path: "service/access", Uses: []string{"service/durable"}, Libraries: []string{"google.golang.org/grpc", "golang.org/x/text/language"}},
		{Path: "service/httpapi", Uses: []string{"proto"}, Libraries: []string{"google.golang.org", "connectrpc.com/vanguard", "connectrpc.com/connect", "github.com/klauspost/compress/gzhttp"}},
		{Path: "service/webhook", Libraries: []string{"github.com/standard-webhooks/standard-webhooks"}},
		{Path: "service/notify", Uses: []string{"service/history", "service/webhook"}},
		{Path: "service/calendar", Pure: true, Libraries: []string{"github.com/arran4/golang-ical"}},
		{
			Path: "service/rpc",
			Uses: reckoning("proto", "rules", "rules/strictyaml", "service/vocabulary", "service/advisor", "service/plan", "service/history",
				"service/report", "service/report/sheet", "service/report/words", "service/rulefolder", "service/rulehistory", "service/workplan", "service/calendar", "service/history/baytime", "service/notify", "service/webhook", "service/history/course", "service/history/transcript",
				"service/history/lessons", "service/history/hindsight"),
			Libraries: []string{"google.golang.org", "buf.build/go/protovalidate", "buf.build/gen/go/bufbuild/protovalidate"},
		},
		{
			Path: "service/app",
			Uses: []string{
				"proto", "rules", "rules/shipped", "service/vocabulary", "service/rpc", "service/advisor", "service/catalogue",
				"service/film", "service/history", "service/history/lessons", "service/history/sqlite", "service/history/postgres", "service/rulefolder",
				"service/rulehistory", "service/oneport", "service/access", "service/httpapi", "service/webhook", "service/notify", "clients/web",
			},
			Libraries: []string{
				"google.golang.org", "buf.build/go/protovalidate", "github.com/prometheus/client_golang",
				"github.com/grpc-ecosystem/go-grpc-middleware",
			},
		},
		{Path: "clients/web"},
		{
			Path:      "clients/cli",
			Uses:      []string{"proto", "rules", "rules/strictyaml", "rules/shipped", "service/vocabulary", "service/catalogue", "service/app", "service/access"},
			Libraries: []string{"google.golang.org", "github.com/spf13/cobra", "github.com/spf13/pflag", "rsc.io/qr"},
		},
		{Path: "cmd/glossladder", Uses: []string{"clients/cli", "service/app"}},
	}
}

// toolRooms serve those who build the project and are no part of the program.
func toolRooms() []Room {
	return []Room{
		{Path: "cmd/tools/importlaw", Pure: true},
		{Path: "cmd/tools/gen", Libraries: []string{"google.golang.org", "buf.build/gen/go", "github.com/jhump/protoreflect/v2"}},
		{
			Path: "cmd/tools/peers",
			Uses: []string{"rules"},
			Libraries: []string{
				"cel.dev/cel-go", "github.com/expr-lang/expr", "github.com/hyperjumptech/grule-rule-engine", "github.com/open-policy-agent/opa",
			},
		},
	}
}

// reckoning returns the rooms that turn readings into facts, and also others.
func reckoning(others ...string) []string {
	return append(others, "service/gloss", "service/film", "service/climate", "service/exposure", "service/catalogue")
}
