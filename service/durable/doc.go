// Package durable writes files so that a crash at any moment leaves the old text or the new one, never half of either, and
// keeps processes that edit the same folder out of each other's way.
//
// It owns the order of write, sync and rename, and locks. It knows nothing of what stands in the files.
package durable
