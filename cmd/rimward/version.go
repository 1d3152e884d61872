package main

import (
	"context"
	"fmt"
	"runtime"
	"runtime/debug"
)

var versionCommand = command{
	name: "version", about: "says which version this is", do: sayVersion,
	usage: "rimward version",
}

// stamped is the version that a release build sets with -ldflags -X.
var stamped string

func sayVersion(_ context.Context, args []string, around surroundings) error {
	if _, err := parse(newFlags("version"), args); err != nil {
		return err
	}
	fmt.Fprintf(around.out, "rimward %s (%s, %s/%s)\n", version(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
	return nil
}

// version is the release's number, or the commit that was built.
func version() string {
	if stamped != "" {
		return stamped
	}
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 12 {
			return "commit " + s.Value[:12]
		}
	}
	return "development build"
}
