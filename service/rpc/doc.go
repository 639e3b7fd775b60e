// Package rpc is the door of the service: it validates requests, turns messages of the contract into the adviser's own
// terms and back, and maps every error to a status in one place.
//
// It owns no decision and no number. Handlers convert, call and convert. It never imports storage or the command line.
package rpc
