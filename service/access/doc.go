// Package access keeps a service that other machines can reach for those who hold a key.
//
// Whoever calls from the machine itself needs none. Everybody else comes over TLS and shows a key, or has nothing but the page
// where a one-time pairing code is traded for one. The package owns keys, pairing codes, the service's own certificate, the look
// at each connection and each call, and what a client needs to trust that certificate. It knows no message of the contract and
// decides nothing about what is behind.
package access
