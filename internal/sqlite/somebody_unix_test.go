//go:build unix

package sqlite

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// asSomebodyElse runs a test of this package once more as a user who owns
// nothing. Only the administrator can do that.
func asSomebodyElse(t *testing.T, test string) {
	t.Helper()
	dir, err := os.MkdirTemp("", "rimward-somebody-*")
	ok(t, err)
	defer os.RemoveAll(dir)
	ok(t, os.Chmod(dir, 0o777))
	program := filepath.Join(dir, "tests")
	ok(t, copyProgram(program))
	cmd := exec.CommandContext(t.Context(), program, "-test.run", test, "-test.count=1", "-test.v")
	cmd.Dir, cmd.Env = dir, append(os.Environ(), "TMPDIR="+dir, "GOCOVERDIR=")
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
	out, err := cmd.CombinedOutput()
	if err != nil || !strings.Contains(string(out), "--- PASS: TestWhatCannotBeWrittenIsRefused/file_or_folder") {
		t.Errorf("as somebody else: %v\n%s", err, out)
	}
}

// copyProgram copies the running test program to where anybody may run it.
func copyProgram(to string) error {
	self, err := os.Executable()
	if err != nil {
		return err
	}
	in, err := os.Open(self)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_CREATE|os.O_WRONLY, 0o755)
	if err != nil {
		return err
	}
	if _, err := io.Copy(out, in); err != nil {
		return err
	}
	return out.Close()
}
