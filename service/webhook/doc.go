// Package webhook tells other systems what happened: events as CloudEvents 1.0 in structured JSON, signed by the Standard
// Webhooks scheme, delivered at least once and in order for each job.
//
// It owns the wire (signing, sending, when to try again, where never to send). What is still to be sent lies in a [Queue] that
// somebody else keeps; the package knows no database and nothing of paint.
package webhook
