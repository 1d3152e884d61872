package main

import (
	"os/exec"
	"runtime"
)

// browse opens an address in the person's browser and does not wait for it.
func browse(address string) error {
	name, args := opener(runtime.GOOS, address)
	cmd := exec.Command(name, args...)
	if err := cmd.Start(); err != nil {
		return err
	}
	go func() { _ = cmd.Wait() }() // how the browser ends is not our concern
	return nil
}

// opener is the program that each system opens addresses with.
func opener(system, address string) (string, []string) {
	switch system {
	case "windows":
		return "rundll32", []string{"url.dll,FileProtocolHandler", address}
	case "darwin":
		return "open", []string{address}
	}
	return "xdg-open", []string{address}
}
