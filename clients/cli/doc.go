// Package cli is the command line: words to calls, answers to text.
//
// It owns the commands, their flags and exit codes, and where files are opened. Reading them is package intake's, setting
// answers as text is package page's. It decides nothing and reckons nothing: what it prints of the trade comes from the
// service, which it reaches over gRPC only, in this process or elsewhere. It never imports the domain rooms.
package cli
