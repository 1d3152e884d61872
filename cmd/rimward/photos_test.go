package main

import (
	"bytes"
	"context"
	"database/sql"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io/fs"
	"mime/multipart"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"rimward/internal/journal"
	"rimward/internal/photo"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// poolPicture is a drawn JPEG of 1200 × 900: a pool of the given width in the
// middle of a round vessel.
func poolPicture(width float64) []byte {
	img := image.NewRGBA(image.Rect(0, 0, 1200, 900))
	for y := range 900 {
		for x := range 1200 {
			c := color.RGBA{110, 92, 74, 255}
			switch d := float64((x-600)*(x-600) + (y-450)*(y-450)); {
			case d < 16*16:
				c = color.RGBA{50, 40, 36, 255}
			case d < width*width/4:
				c = color.RGBA{226, 160, 62, 255}
			case d < 400*400:
				c = color.RGBA{238, 228, 206, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// upload posts one picture as a browser would.
func (s *studio) upload(of string, id journal.ID, picture []byte) {
	s.tb.Helper()
	var body bytes.Buffer
	m := multipart.NewWriter(&body)
	m.WriteField("of", of)             //nolint:errcheck // a buffer takes everything
	m.WriteField("id", fmt.Sprint(id)) //nolint:errcheck // likewise
	part, _ := m.CreateFormFile("photos", "a.jpg")
	part.Write(picture) //nolint:errcheck // likewise
	m.Close()
	client := http.Client{Timeout: 20 * time.Second, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	resp, err := client.Post(s.base()+"/photos/new", m.FormDataContentType(), &body)
	if err != nil {
		s.tb.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != http.StatusSeeOther {
		s.tb.Fatalf("the upload answers %s", resp.Status)
	}
}

func jpegsIn(t *testing.T, folder string) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(folder, "*", "*.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// A backup holds the photos that it names, again and again; verify names what
// is missing, and remarks on what nobody names.
func TestPhotosAreBackedUpAndVerified(t *testing.T) {
	s := emptyStudio(t)
	s.shelved(2)
	s.upload("candle", 1, poolPicture(300))
	s.upload("candle", 2, poolPicture(400))
	err := s.store.Write(t.Context(), func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPhoto, 2, "may come back") })
	if err != nil {
		t.Fatal(err)
	}
	data, copies := filepath.Dir(s.path), t.TempDir()
	rimward := func(want int, says string, args ...string) {
		t.Helper()
		if code, out, errs := within(t, t.Context(), nil, args...); code != want || !strings.Contains(out+errs, says) {
			t.Errorf("%v ends with %d and says\n%s%s\nwant %d and %q", args, code, out, errs, want, says)
		}
	}
	rimward(0, "is sound", "verify", "--data", data)
	copied := filepath.Join(copies, "journal.db")
	rimward(0, "Copied 2 photos to "+copied+".photos", "backup", copied, "--data", data)
	rimward(0, "every photo", "verify", "--data", copies)
	if got := len(jpegsIn(t, copied+".photos")); got != 4 {
		t.Errorf("the copy has %d files, want 4", got)
	}

	s.upload("candle", 1, poolPicture(500))
	if err := os.Remove(copied); err != nil {
		t.Fatal(err)
	}
	rimward(0, "Copied one photo to", "backup", copied, "--data", data)
	rimward(1, "is there already", "backup", copied, "--data", data)

	before := jpegsIn(t, copied+".photos")
	stray := filepath.Join(filepath.Dir(before[0]), strings.Repeat("f", 64)+".jpg")
	if err := os.WriteFile(stray, poolPicture(10), 0o600); err != nil {
		t.Fatal(err)
	}
	rimward(0, "also holds one photo that no record names", "verify", "--data", copies)
	lost := ""
	for _, path := range before {
		if !strings.HasSuffix(path, "-small.jpg") {
			lost = path
		}
	}
	if err := os.Remove(lost); err != nil {
		t.Fatal(err)
	}
	rimward(1, "its picture is missing ("+filepath.Base(lost)+")", "verify", "--data", copies)
	second, third := filepath.Join(copies, "second.db"), filepath.Join(copies, "third.db")
	rimward(1, "one photo could not be", "backup", second, "--data", copies)
	rimward(1, "delete "+third+" and run the same command again", "backup", third, "--data", copies)
	if code, _, errs := within(t, t.Context(), nil, "verify", "--data", copies); code != 1 || !strings.Contains(errs, "every record in") {
		t.Errorf("a missing photo is called %q", errs)
	}
}

// A copy whose photos found no place says how to go on, and that works.
func TestABackupGoesOnAfterItsPhotosFailed(t *testing.T) {
	s := emptyStudio(t)
	s.shelved(1)
	s.upload("candle", 1, poolPicture(300))
	data, copied := filepath.Dir(s.path), filepath.Join(t.TempDir(), "copy.db")
	if err := os.WriteFile(copied+".photos", []byte("in the way"), 0o600); err != nil {
		t.Fatal(err)
	}
	code, _, errs := within(t, t.Context(), nil, "backup", copied, "--data", data)
	if code != 1 || !strings.Contains(errs, "not all of its photos") || !strings.Contains(errs, "delete "+copied+" and run the same command again") {
		t.Errorf("ends with %d and says %s", code, errs)
	}
	for _, path := range []string{copied + ".photos", copied} {
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	}
	if code, out, errs := within(t, t.Context(), nil, "backup", copied, "--data", data); code != 0 || !strings.Contains(out, "Copied one photo") {
		t.Errorf("ends with %d and says %s%s", code, out, errs)
	}
}

// A journal from before there were photos is copied, and that is all.
func TestAJournalWithoutPhotosIsBackedUp(t *testing.T) {
	s := emptyStudio(t)
	data, copied := t.TempDir(), filepath.Join(t.TempDir(), "copy.db")
	old := filepath.Join(data, "journal.db")
	if err := sqlite.Backup(t.Context(), s.path, old); err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("sqlite", old)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []string{"DROP TABLE photo", "PRAGMA user_version = 3"} {
		if _, err := db.ExecContext(t.Context(), x); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	code, out, errs := within(t, t.Context(), nil, "backup", copied, "--data", data)
	if code != 0 || errs != "" || !strings.Contains(out, "Copied "+old) {
		t.Errorf("ends with %d and says %s%s", code, out, errs)
	}
	if _, err := os.Stat(copied + ".photos"); !os.IsNotExist(err) {
		t.Errorf("there is a folder of photos: %v", err)
	}
}

// What an upload that was cut off left is swept at the next start.
func TestStartSweepsUnfinishedPhotos(t *testing.T) {
	data := t.TempDir()
	folder := filepath.Join(data, "journal.db.photos", "ab")
	if err := os.MkdirAll(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{filepath.Join(folder, "1.part"), filepath.Join(filepath.Dir(folder), "sent-1.part")} {
		if err := os.WriteFile(path, []byte("half"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
	defer cancel()
	if code, _, errs := within(t, ctx, func(string) error { cancel(); return nil }, "serve", "--addr", "127.0.0.1:0", "--data", data); code != 0 {
		t.Fatalf("code %d: %s", code, errs)
	}
	err := filepath.WalkDir(filepath.Dir(folder), func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			t.Errorf("%s is left", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// Pages that show photos have no finding of axe-core, and nothing sticks out.
func TestPagesWithPhotos(t *testing.T) {
	s := emptyStudio(t)
	burns := s.lit(3*time.Hour, s.shelved(1)...)
	for h := range 3 {
		s.seen(burns[0], s.now().Add(time.Duration(h-2)*time.Hour), quantity.Millimetres(30+15*h))
		s.upload("check", journal.ID(h+1), poolPicture(float64(300+100*h)))
	}
	for _, of := range []string{"candle", "burn", "pour"} {
		s.upload(of, 1, poolPicture(200))
	}
	lookAt(t, s, "photos", []string{"/candles/1", "/pours/1", "/checks/1/edit", "/photos/1", "/photos/1/edit", "/photos/new?of=check&id=1", "/withdraw/photo/1"})
}

// chooseFiles puts files into a box of the page.
func (t *tab) chooseFiles(name string, files ...string) {
	t.tb.Helper()
	t.must(chromedp.Do(t.ctx, chromedp.SetUploadFiles(chromedp.CSS(field(name)), files)))
}

// Two photos of a check come into the strip of its burn; a picture that cannot
// be opened gets its sentence, and the others stay kept.
func TestJourneyPhotos(t *testing.T) {
	s := emptyStudio(t)
	burns := s.lit(2*time.Hour, s.shelved(1)...)
	s.seen(burns[0], s.now().Add(-time.Hour), 40)
	s.seen(burns[0], s.now(), 57)
	folder := t.TempDir()
	file := func(name string, body []byte) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, body, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	first, second, third := file("IMG_1.jpg", poolPicture(420)), file("IMG_2.jpg", poolPicture(430)), file("IMG_3.jpg", poolPicture(600))
	heic := file("IMG_4.heic", append([]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), make([]byte, 4000)...))

	on := phone
	on.noScript = true
	b := newTab(t, s.base(), on)
	b.open("/candles/1")
	b.click("Photos")
	b.see("Photos of candle 1-A, burn 1, at 2 h 00", "the burn as a whole")
	b.click("1 h 00")
	b.chooseFiles("photos", first, second)
	b.click("Add photos")
	b.see("Two photos are kept.")
	shown := `[...document.querySelectorAll(".burn .photo-strip img")].map(i => { i.loading = "eager"; return i })`
	js[bool](b, `Promise.all(`+shown+`.map(i => i.decode())).then(() => true)`)
	if got := js[string](b, shown+`.map(i => i.alt + " " + i.naturalWidth + "x" + i.naturalHeight + " " + i.closest("li").innerText.trim()).join("|")`); got != "Candle 1-A, burn 1, at 1 h 00 320x240 1 h 00|Candle 1-A, burn 1, at 1 h 00 320x240 1 h 00" {
		t.Errorf("the strip shows %s", got)
	}
	b.shot("photos-strip")

	b.open("/photos/new?of=check&id=2")
	b.chooseFiles("photos", third, heic)
	b.chooseFiles("camera", first)
	b.click("Add photos")
	b.see("Two photos are kept.", "IMG_4.heic was not kept. It is a HEIC picture", "Most Compatible")
	b.shot("photos-refused")
	if got := js[string](b, `document.getElementById(document.querySelector("[name=photos]").getAttribute("aria-describedby")).innerText`); !strings.HasPrefix(got, "IMG_4.heic") {
		t.Errorf("beside the box stands %q", got)
	}
	b.open("/candles/1")
	js[bool](b, `(document.querySelectorAll(".burn .photo-strip a")[3].click(), true)`)
	b.see("Candle 1-A, burn 1, at 2 h 00", "Earlier photo")
	b.shot("photo")
	b.click("Add a note")
	b.fill("note", "the pool has met the wall at the back")
	b.click("Save the note")
	b.see("The note is saved.", "the pool has met the wall at the back")
	b.click("Withdraw")
	b.click("Withdraw it")
	b.see("The photo is withdrawn.", "Bring it back")
	list, err := s.store.CandlePhotos(t.Context(), 1)
	if err != nil || len(list) != 3 {
		t.Fatalf("%d photos count (%v), want 3", len(list), err)
	}
	for _, p := range list {
		if fault := photo.At(photo.Beside(s.path)).Fault(p.Hash); fault != "" {
			t.Errorf("photo %d: %s", p.ID, fault)
		}
	}
}
