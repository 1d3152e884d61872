package photo

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func (f *Folder) file(name string) string { return filepath.Join(f.path, name[:2], name) }

func TestFaultsAreNamed(t *testing.T) {
	sent := asJPEG(noise(200, 100, 20))
	for name, c := range map[string]struct {
		harm func(f *Folder, k Kept) error
		want string
	}{
		"none":              {func(f *Folder, k Kept) error { return nil }, ""},
		"no picture":        {func(f *Folder, k Kept) error { return os.Remove(f.file(PictureName(k.Hash))) }, "its picture is missing"},
		"no thumbnail":      {func(f *Folder, k Kept) error { return os.Remove(f.file(SmallName(k.Hash))) }, "its thumbnail is missing"},
		"half a picture":    {func(f *Folder, k Kept) error { return os.Truncate(f.file(PictureName(k.Hash)), 900) }, "its picture is damaged"},
		"half a thumbnail":  {func(f *Folder, k Kept) error { return os.Truncate(f.file(SmallName(k.Hash)), 900) }, "its thumbnail is damaged"},
		"no folder":         {func(f *Folder, k Kept) error { return os.RemoveAll(f.path) }, "its picture is missing"},
		"another's picture": {func(f *Folder, k Kept) error { return os.WriteFile(f.file(PictureName(k.Hash)), sent, 0o600) }, "its picture is damaged"},
	} {
		t.Run(name, func(t *testing.T) {
			f := newFolder(t)
			k := f.send(t, sent)
			ok(t, c.harm(f, k))
			if got := f.Fault(k.Hash); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
			// Sent again it is whole again.
			if again := f.send(t, sent); again != k || f.Fault(k.Hash) != "" {
				t.Errorf("sent again: %v, %q", again, f.Fault(k.Hash))
			}
		})
	}
}

// Only names of the right form lead to a file, and none out of the folder.
func TestOnlyPhotosAreOpened(t *testing.T) {
	f := newFolder(t)
	k := f.send(t, asJPEG(noise(20, 20, 21)))
	secret := filepath.Join(filepath.Dir(f.path), "secret.jpg")
	ok(t, os.WriteFile(secret, []byte("secret"), 0o600))
	other := strings.Repeat("ab", 32)
	ok(t, os.MkdirAll(filepath.Join(f.path, "ab"), 0o700))
	ok(t, os.Symlink(secret, f.file(PictureName(other))))
	for name, want := range map[string]bool{
		PictureName(k.Hash): true, SmallName(k.Hash): true, strings.ToUpper(PictureName(k.Hash)): false, k.Hash: false, "": false,
		"../secret.jpg": false, "../../secret.jpg": false, PictureName(other): false, strings.Repeat("0", 64) + ".jpg": false,
		PictureName(k.Hash) + "\n": false, k.Hash[:2] + "/" + PictureName(k.Hash): false,
	} {
		file, err := f.Open(name)
		if (err == nil) != want {
			t.Errorf("%q: %v", name, err)
		}
		if err == nil {
			file.Close()
		}
	}
	if _, err := (*Folder)(nil).Open(PictureName(k.Hash)); err == nil {
		t.Error("a folder that is none opens a file")
	}
}

func TestCopiesHoldWhatIsNamed(t *testing.T) {
	f := newFolder(t)
	a, b, lost, c := f.send(t, asJPEG(noise(50, 50, 30))), f.send(t, asJPEG(noise(50, 50, 31))), f.send(t, asJPEG(noise(50, 50, 32))), f.send(t, asJPEG(noise(50, 50, 33)))
	ok(t, os.Truncate(f.file(PictureName(lost.Hash)), 100))
	to := At(filepath.Join(t.TempDir(), "copy.photos"))
	n, missing, err := f.CopyTo(to, []string{a.Hash, lost.Hash, b.Hash})
	ok(t, err)
	if n != 2 || !slices.Equal(missing, []string{lost.Hash}) || to.Fault(a.Hash) != "" || to.Fault(b.Hash) != "" || len(to.files(t)) != 4 {
		t.Errorf("copied %d, missing %v, files %v", n, missing, to.files(t))
	}
	n, missing, err = f.CopyTo(to, []string{a.Hash, b.Hash, c.Hash})
	ok(t, err)
	if n != 1 || missing != nil || to.Fault(c.Hash) != "" {
		t.Errorf("the second time: copied %d, missing %v", n, missing)
	}
	if n, err := to.Strays([]string{a.Hash}); err != nil || n != 2 {
		t.Errorf("%d strays (%v), want 2", n, err)
	}
	none := At(filepath.Join(t.TempDir(), "none.photos"))
	if n, missing, err := none.CopyTo(At(filepath.Join(t.TempDir(), "x.photos")), nil); n != 0 || missing != nil || err != nil {
		t.Errorf("copying nothing: %d, %v, %v", n, missing, err)
	}
}

// A folder of photos may be a link to another disk, empty or full: it stays.
func TestALinkedFolderStays(t *testing.T) {
	real, sub := t.TempDir(), t.TempDir()
	f := At(filepath.Join(t.TempDir(), "journal.db.photos"))
	ok(t, os.Symlink(real, f.path))
	sent := asJPEG(noise(40, 30, 60))
	refused := func() {
		t.Helper()
		if _, err := f.Keep(t.Context(), strings.NewReader("no picture"), fine); err == nil {
			t.Error("a text is kept")
		}
		if _, err := f.Keep(t.Context(), bytes.NewReader(sent), func(Kept) error { return errors.New("full") }); err == nil {
			t.Error("a picture without a record is kept")
		}
		if to, err := os.Readlink(f.path); err != nil || to != real {
			t.Fatalf("the link leads to %q: %v", to, err)
		}
	}
	refused()
	k := f.send(t, asJPEG(noise(40, 30, 61)))
	refused()
	if fault := f.Fault(k.Hash); fault != "" {
		t.Error(fault)
	}
	hash := f.send(t, sent).Hash
	ok(t, os.RemoveAll(filepath.Join(real, hash[:2])))
	ok(t, os.Symlink(sub, filepath.Join(real, hash[:2])))
	refused()
	if _, err := os.Readlink(filepath.Join(real, hash[:2])); err != nil {
		t.Error(err)
	}
}

// Before a record is written the names of the picture, of its folder and of
// the folder of all have reached the disk; when they cannot, it is not kept.
func TestNamesReachTheDisk(t *testing.T) {
	f := newFolder(t)
	var settled []string
	f.settle = func(folders ...string) error { settled = append(settled, folders...); return nil }
	k, err := f.Keep(t.Context(), bytes.NewReader(asJPEG(noise(40, 30, 62))), func(k Kept) error {
		for _, want := range []string{filepath.Dir(f.file(PictureName(k.Hash))), f.path, filepath.Dir(f.path)} {
			if !slices.Contains(settled, want) {
				t.Errorf("%s is not among %v", want, settled)
			}
		}
		return nil
	})
	ok(t, err)
	to := newFolder(t)
	settled, to.settle = nil, f.settle
	_, _, err = f.CopyTo(to, []string{k.Hash})
	ok(t, err)
	if !slices.Contains(settled, filepath.Dir(to.path)) {
		t.Errorf("the copy's folder may be lost: %v", settled)
	}
	none := newFolder(t)
	none.settle = func(...string) error { return errors.New("disk gone") }
	if _, err := none.Keep(t.Context(), bytes.NewReader(asJPEG(noise(40, 30, 63))), fine); err == nil || len(none.files(t)) != 0 {
		t.Errorf("%v, left %v", err, none.files(t))
	}
}

// doomed names the folder that the child process below writes to.
const doomed = "RIMWARD_TEST_DOOMED_PHOTOS"

func TestMain(m *testing.M) {
	if path := os.Getenv(doomed); path != "" {
		keepUntilKilled(path)
	}
	os.Exit(m.Run())
}

// keepUntilKilled is cut off while one picture is being received and another
// waits for its record.
func keepUntilKilled(path string) {
	f := At(path)
	never := make(chan struct{})
	go f.Keep(context.Background(), io.MultiReader(strings.NewReader("\xff\xd8\xff"), waiting{never}), fine) //nolint:errcheck // it is killed
	_, err := f.Keep(context.Background(), strings.NewReader(string(asJPEG(noise(80, 60, 40)))), func(k Kept) error {
		fmt.Println("kept", k.Hash)
		<-never
		return nil
	})
	fmt.Println("error", err)
	os.Exit(1)
}

// waiting is a connection on which nothing comes.
type waiting struct{ never chan struct{} }

func (w waiting) Read([]byte) (int, error) { <-w.never; return 0, io.EOF }

// A program that is killed between picture and record leaves a stray picture
// that is counted, does no harm and is used when it is sent again; what was
// not finished is swept.
func TestAKillLeavesOnlyAStray(t *testing.T) {
	f := newFolder(t)
	self, err := os.Executable()
	ok(t, err)
	cmd := exec.CommandContext(t.Context(), self, "-test.run=^$")
	cmd.Env = append(os.Environ(), doomed+"="+f.path)
	out, err := cmd.StdoutPipe()
	ok(t, err)
	ok(t, cmd.Start())
	line, err := bufio.NewReader(out).ReadString('\n')
	ok(t, err)
	ok(t, cmd.Process.Kill())
	if err := cmd.Wait(); err == nil {
		t.Error("the child ended by itself")
	}
	hash, is := strings.CutPrefix(strings.TrimSpace(line), "kept ")
	if !is {
		t.Fatalf("the child says %q", line)
	}
	if got := len(f.files(t)); got < 3 {
		t.Errorf("the kill left %v: nothing was unfinished", f.files(t))
	}
	ok(t, f.Tidy())
	if n, err := f.Strays(nil); err != nil || n != 1 || len(f.files(t)) != 2 || f.Fault(hash) != "" {
		t.Errorf("%d strays (%v) among %v: %s", n, err, f.files(t), f.Fault(hash))
	}
	if k := f.send(t, asJPEG(noise(80, 60, 40))); k.Hash != hash || len(f.files(t)) != 2 {
		t.Errorf("sent again it is %s among %v", k.Hash, f.files(t))
	}
	if n, err := f.Strays([]string{hash}); err != nil || n != 0 {
		t.Errorf("%d strays (%v) once a record names it", n, err)
	}
}

// A phone's picture of twelve megapixels.
func BenchmarkKeepTwelveMegapixels(b *testing.B) {
	sent := string(asJPEG(corners(4000, 3000)))
	for b.Loop() {
		f := newFolder(b)
		if _, err := f.Keep(b.Context(), strings.NewReader(sent), fine); err != nil {
			b.Fatal(err)
		}
	}
}
