// Package importlaw keeps the shape of the source tree: which room may import which, what a domain room must not know,
// and which names say nothing.
//
// It owns the table of rooms ([Project]) and a checker that reads the source files themselves through an [io/fs.FS]. The
// go command is never asked: a check that runs it in a subprocess is answered from the test cache while the tree is
// broken, whereas files opened by the test are noticed when they change. Test files may import what they like; only
// their names are checked.
//
// It imports nothing but the standard library and obeys its own law.
package importlaw
