// Package climate says whether air and panel suit the work: the dew point, how far the panel stands above it, and
// how warm the panel is in words.
//
// It owns the physics only. Which margin is enough and where a panel becomes warm or hot are judgements, so they
// arrive as parameters from the rule files. The package imports no proto, SQL, HTTP, os, clock or log, keeps no state,
// and every function may be called from several goroutines at once.
package climate
