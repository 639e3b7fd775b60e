// Package oneport lets two servers share one TCP port: connections that speak HTTP/2 from their first byte go to one, all
// others to the other.
//
// That is how gRPC comes over a plain connection, and how no browser does. So a gRPC server keeps its own transport, which
// carries several times as many calls as the same server behind net/http, and net/http serves the rest. The package
// owns the look at the first bytes; it knows no service and no message.
package oneport
