// Package notify tells other systems what happens to jobs: it turns what the record owes to a listener into the events that
// webhooks carry, and keeps the listeners.
//
// It owns what an event says and its name on the way, and how listeners change. What is owed lies in the record
// (service/history); signing, sending and trying again is service/webhook's.
package notify
