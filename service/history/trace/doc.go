// Package trace writes and reads what a look back needs of an event, in few bytes.
//
// A replay asks what every decision on record was asked; read as JSON, the facts of one decision take longer than asking it again.
// A trace is made from the event when it is stored, is kept beside it and holds nothing that the event does not hold: the event
// stays what counts. The package owns the form of a trace, and leaves storing to the stores and asking to package hindsight.
//
// A trace is the form's version and the kind of event, a byte each, and then its content: counts and whole numbers as varints
// (https://protobuf.dev/programming-guides/encoding#varints), and words as places in the list that package and program share, or
// spelled where the list lacks them. Of the facts of a sheet it has those that differ from the sheet before. Numbers come back to
// the last bit.
package trace
