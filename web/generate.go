package web

// The templ tool writes the path it was given into what it generates, so it is
// always run from the module's root.
//go:generate sh -c "cd .. && exec go tool -modfile=internal/tools/go.mod templ generate"
