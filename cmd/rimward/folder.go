package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
)

// journalFile is the journal's name within its folder.
const journalFile = "journal.db"

// dataFlag adds --data to a command.
func dataFlag(fs *flag.FlagSet) *string { return fs.String("data", "", "") }

// journalPath is where the journal lies: in the given folder, or in the
// person's own data folder.
func journalPath(given string, env func(string) string) (string, error) {
	if given == "" {
		var err error
		if given, err = dataFolder(runtime.GOOS, env); err != nil {
			return "", err
		}
	}
	folder, err := filepath.Abs(given)
	if err != nil {
		return "", fmt.Errorf("find folder: %w", err)
	}
	return filepath.Join(folder, journalFile), nil
}

// dataFolder is where a system keeps the data of a person's programs. On Unix
// it follows the XDG Base Directory Specification, which says to ignore a
// relative path.
func dataFolder(system string, env func(string) string) (string, error) {
	home := env("HOME")
	switch system {
	case "windows":
		if local := env("LocalAppData"); local != "" {
			return filepath.Join(local, "Rimward"), nil
		}
	case "darwin":
		if home != "" {
			return filepath.Join(home, "Library", "Application Support", "Rimward"), nil
		}
	default:
		if data := env("XDG_DATA_HOME"); filepath.IsAbs(data) {
			return filepath.Join(data, "rimward"), nil
		}
		if home != "" {
			return filepath.Join(home, ".local", "share", "rimward"), nil
		}
	}
	return "", misused("Your data folder is not known here. Say where the journal is to be kept with --data DIR.")
}

// makeFolder makes the journal's folder when it is missing, for its owner
// alone.
func makeFolder(path string) error {
	folder := filepath.Dir(path)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return fmt.Errorf("the folder %s for the journal cannot be made: %w", folder, cause(err))
	}
	return nil
}
