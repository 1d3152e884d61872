package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// The commands that README.md and DEVELOPERS.md show exist.
func TestDocumentedCommandsExist(t *testing.T) {
	shown := regexp.MustCompile(`(?m)(?:go run \./cmd/rimward|\brimward) ([a-z]+)\b`)
	for _, name := range []string{"README.md", "DEVELOPERS.md"} {
		text, err := os.ReadFile(filepath.Join("..", "..", name))
		if err != nil {
			t.Fatal(err)
		}
		blocks := strings.Split(string(text), "```")
		found := 0
		for i := 1; i < len(blocks); i += 2 { // what stands between fences
			for _, m := range shown.FindAllStringSubmatch(blocks[i], -1) {
				found++
				if _, ok := named(m[1]); !ok {
					t.Errorf("%s shows rimward %s, which does not exist", name, m[1])
				}
			}
		}
		if found == 0 {
			t.Errorf("%s shows no command", name)
		}
	}
}

// The pages that DEVELOPERS.md maps are there.
func TestMappedRoomsExist(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	rooms := regexp.MustCompile("(?m)^\\| `([a-z/]+)` \\|").FindAllStringSubmatch(string(text), -1)
	if len(rooms) < 15 {
		t.Fatalf("the map has %d rooms", len(rooms))
	}
	for _, r := range rooms {
		if _, err := os.Stat(filepath.Join("..", "..", r[1])); err != nil {
			t.Errorf("the map has a room that is not there: %v", err)
		}
	}
}
