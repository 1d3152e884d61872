package main

import (
	"os"
	"strings"
	"time"
)

// localZone is the machine's time zone under a name that can be loaded again;
// UTC where the machine does not say.
func localZone(env func(string) string) *time.Location {
	names := []string{strings.TrimPrefix(env("TZ"), ":")}
	if link, err := os.Readlink("/etc/localtime"); err == nil {
		if _, name, ok := strings.Cut(link, "zoneinfo/"); ok {
			names = append(names, name)
		}
	}
	if b, err := os.ReadFile("/etc/timezone"); err == nil {
		names = append(names, strings.TrimSpace(string(b)))
	}
	for _, name := range names {
		if z, err := time.LoadLocation(name); name != "" && name != "Local" && err == nil {
			return z
		}
	}
	return time.UTC
}
