package server_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/photo"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// sentFile is a file of an upload.
type sentFile struct {
	name string
	body []byte
}

// grey is a JPEG of one shade.
func grey(shade uint8) []byte {
	img := image.NewGray(image.Rect(0, 0, 64, 48))
	for i := range img.Pix {
		img.Pix[i] = shade
	}
	img.SetGray(3, 3, color.Gray{255 - shade})
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		panic(err)
	}
	return b.Bytes()
}

var heic = append([]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), make([]byte, 2000)...)

// formBody writes a post of pictures as a browser does: the last box empty.
func formBody(of string, id any, files ...sentFile) (body *bytes.Buffer, kind string) {
	body = &bytes.Buffer{}
	m := multipart.NewWriter(body)
	m.WriteField("of", of)             //nolint:errcheck // a buffer takes everything
	m.WriteField("id", fmt.Sprint(id)) //nolint:errcheck // likewise
	for _, f := range files {
		part, _ := m.CreateFormFile("photos", f.name)
		part.Write(f.body) //nolint:errcheck // likewise
	}
	m.CreateFormFile("camera", "") //nolint:errcheck // likewise
	m.Close()
	return body, m.FormDataContentType()
}

func (s candleSite) post(body io.Reader, kind string) *httptest.ResponseRecorder {
	s.t.Helper()
	r := httptest.NewRequest(http.MethodPost, "http://127.0.0.1:7373/photos/new", body)
	r.Header.Set("Content-Type", kind)
	w := httptest.NewRecorder()
	s.web.ServeHTTP(w, r)
	return w
}

// upload posts pictures of something.
func (s candleSite) upload(of string, id any, files ...sentFile) *httptest.ResponseRecorder {
	s.t.Helper()
	return s.post(formBody(of, id, files...))
}

// kept counts the files in the folder of photos.
func (s candleSite) kept() int {
	s.t.Helper()
	n := 0
	filepath.WalkDir(s.files, func(path string, d os.DirEntry, err error) error { //nolint:errcheck // a folder that is not there holds nothing
		if err == nil && !d.IsDir() {
			n++
		}
		return nil
	})
	return n
}

// rows are all photos in the journal of one thing.
func (s candleSite) rows(of journal.Noun, id journal.ID) []journal.Photo {
	s.t.Helper()
	list, err := s.store.PhotosOf(context.Background(), of, id)
	if err != nil {
		s.t.Fatal(err)
	}
	return list
}

// checked lights the first candle and checks it twice.
func (s candleSite) checked() (journal.Burn, []journal.Check) {
	s.t.Helper()
	b := testkit.Light(s.t, s.store, 3*time.Hour, s.Candles[0])[0]
	var out []journal.Check
	testkit.Write(s.t, s.store, func(tx *sqlite.Tx) error {
		for h := range 2 {
			c := journal.Check{Burn: b.ID, At: b.LitAt.Add(time.Duration(h+1) * time.Hour), Full: true}
			if err := tx.SaveCheck(&c); err != nil {
				return err
			}
			out = append(out, c)
		}
		return nil
	})
	return b, out
}

func TestPhotosAreAttachedAndShown(t *testing.T) {
	s := newCandleSite(t)
	burn, checks := s.checked()
	for _, c := range []struct {
		of    string
		id    journal.ID
		back  string
		files []sentFile
	}{
		{"check", checks[1].ID, "/candles/1", []sentFile{{"a.jpg", grey(20)}, {"b.jpg", grey(40)}}},
		{"check", checks[0].ID, "/candles/1", []sentFile{{"c.png", grey(60)}}},
		{"burn", burn.ID, "/candles/1", []sentFile{{"", grey(1)}, {"d.jpg", grey(80)}}},
		{"candle", 1, "/candles/1", []sentFile{{"e.jpg", grey(100)}}},
		{"pour", 1, "/pours/1", []sentFile{{"f.jpg", grey(100)}}},
	} {
		if w := s.upload(c.of, c.id, c.files...); w.Code != http.StatusSeeOther || w.Header().Get("Location") != c.back {
			t.Errorf("%s: %d to %q\n%s", c.of, w.Code, w.Header().Get("Location"), w.Body)
		}
	}
	if got := s.kept(); got != 10 {
		t.Errorf("%d files for five pictures, each with a thumbnail", got)
	}
	s.shows("/candles/1", 200, `alt="Candle 1-A, burn 1, at 1 h 00"`, `alt="Candle 1-A, burn 1, at 2 h 00"`, `alt="Candle 1-A, burn 1"`, `alt="Candle 1-A"`,
		"whole burn", `loading="lazy"`, `width="64" height="48"`, "Photo of check at 1 h 00 of burn 1 attached", `action="/photos/new"`, `href="/photos/new?of=check&amp;id=2"`)
	s.shows("/pours/1", 200, `alt="Pour 1"`)
	s.shows("/checks/1/edit", 200, `alt="Candle 1-A, burn 1, at 1 h 00"`, "Add photos of candle 1-A, burn 1, at 1 h 00")
	s.shows("/photos/1", 200, "Candle 1-A, burn 1, at 2 h 00", "64 × 48", `href="/candles/1"`, "Earlier photo", "Later photo", `href="/withdraw/photo/1"`)
	s.shows("/photos/new?of=burn&id=1", 200, "something else of this burn", `href="/photos/new?of=check&amp;id=1"`, `capture="environment"`, "multiple", `accept="image/jpeg,image/png,image/webp"`)
	for _, path := range []string{"/photos/99", "/photos/x", "/photos/new", "/photos/new?of=wax&id=1", "/photos/new?of=candle&id=99", "/photos/99/edit", "/withdraw/photo/99"} {
		s.shows(path, 404)
	}
}

// Each picture is kept or refused by itself; what was refused leaves nothing.
func TestPhotosAreRefusedOneByOne(t *testing.T) {
	s := newCandleSite(t)
	w := s.upload("candle", 1, sentFile{"IMG_1.jpg", grey(10)}, sentFile{"IMG_4.heic", heic}, sentFile{"IMG_2.jpg", grey(30)}, sentFile{"half.jpg", grey(50)[:200]}, sentFile{"<b>.pdf", []byte("%PDF-1.7")})
	s.hold("two of five", w, http.StatusUnprocessableEntity, []string{"Two photos are kept.", "IMG_4.heic was not kept. It is a HEIC picture", "Most Compatible", "half.jpg was not kept. It is damaged or incomplete",
		"&lt;b&gt;.pdf was not kept. It is a PDF", `aria-describedby="f-photos-problem"`, `aria-invalid="true"`, `alt="Candle 1-A"`})
	if n, rows := s.kept(), len(s.rows("candle", 1)); n != 4 || rows != 2 {
		t.Errorf("%d files and %d records, want 4 and 2", n, rows)
	}
	s = newCandleSite(t)
	s.hold("none of one", s.upload("candle", 1, sentFile{"a.heic", heic}), 422, []string{"a.heic was not kept"})
	s.hold("nothing chosen", s.upload("candle", 1), 422, []string{"Choose a picture first."})
	s.hold("what is not there", s.upload("candle", 99, sentFile{"a.jpg", grey(1)}), 404, nil)
	s.hold("what has no photos", s.upload("wax", 1, sentFile{"a.jpg", grey(1)}), 404, nil)
	s.hold("no number", s.upload("candle", "x", sentFile{"a.jpg", grey(1)}), 400, nil)
	s.hold("no pictures form", s.ask("/photos/new", candleForm()), 400, nil)
	body, kind := formBody("candle", 1, sentFile{"a.jpg", grey(1)})
	s.hold("cut off", s.post(bytes.NewReader(body.Bytes()[:body.Len()/2]), kind), 400, nil)
	if err := s.store.Write(t.Context(), func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCandle, 1, "dropped") }); err != nil {
		t.Fatal(err)
	}
	s.hold("withdrawn", s.upload("candle", 1, sentFile{"a.jpg", grey(1)}), 422, []string{"It was withdrawn. Bring it back before you add photos to it."})
	if _, err := os.Stat(s.files); !os.IsNotExist(err) {
		t.Errorf("refusals left %d files", s.kept())
	}
}

// filler is what a picture of so many bytes goes on with after its end.
func filler(n int) io.Reader { return io.LimitReader(zeros{}, int64(n)) }

type zeros struct{}

func (zeros) Read(p []byte) (int, error) { clear(p); return len(p), nil }

// When a post is longer than it may be, what was kept by then is named, and so
// is where it broke off; the form is there to go on.
func TestWhatWasKeptOfTooMuchIsSaid(t *testing.T) {
	s := newCandleSite(t)
	var files []sentFile
	for i := range 12 {
		files = append(files, sentFile{fmt.Sprintf("IMG_%02d.jpg", i), append(grey(uint8(100+i)), "goes on"...)})
	}
	body, kind := formBody("candle", 1, files...)
	var all []io.Reader
	for _, part := range strings.SplitAfter(body.String(), "goes on") {
		all = append(all, strings.NewReader(part), filler(23<<20))
	}
	s.hold("too much", s.post(io.MultiReader(all...), kind), http.StatusRequestEntityTooLarge, []string{"Ten photos are kept.", "IMG_10.jpg was not kept. At most 10",
		"The rest was not kept: together", `action="/photos/new"`, `alt="Candle 1-A"`})
	if n := len(s.rows("candle", 1)); n != 10 {
		t.Errorf("%d are kept", n)
	}
	// It breaks off within a picture that would have been kept.
	s = newCandleSite(t)
	body, kind = formBody("candle", 1, sentFile{"a.jpg", grey(10)}, sentFile{"long.pdf", []byte("%PDF-1.7 goes on")}, sentFile{"b.jpg", append(grey(30), "goes on"...)})
	head := strings.SplitAfter(body.String(), "goes on")
	s.hold("within a picture", s.post(io.MultiReader(strings.NewReader(head[0]), filler(230<<20), strings.NewReader(head[1]), filler(23<<20)), kind), http.StatusRequestEntityTooLarge,
		[]string{"One photo is kept.", "long.pdf was not kept. It is larger", "b.jpg and what comes after it were not kept: together"})
	if n, rows := s.kept(), len(s.rows("candle", 1)); n != 2 || rows != 1 {
		t.Errorf("%d files and %d records", n, rows)
	}
	// Of what nobody knows there is no page to show.
	s.hold("of nothing", s.post(io.MultiReader(strings.NewReader(strings.Replace(head[0], `name="id"`, `name="no"`, 1)), filler(250<<20)), kind), 400, nil)
}

func TestTheSamePhotoTwiceInOnePostIsSaid(t *testing.T) {
	s := newCandleSite(t)
	a, b := sentFile{"a.jpg", grey(10)}, sentFile{"b.jpg", grey(20)}
	s.hold("twice in one", s.upload("candle", 1, a, a, b, sentFile{"c.heic", heic}), 422, []string{"Two photos are kept. One photo was there already.", "c.heic was not kept"})
	w := s.upload("candle", 1, a, b)
	if w.Code != http.StatusSeeOther {
		t.Fatalf("answers %d", w.Code)
	}
	r := httptest.NewRequest(http.MethodGet, "http://127.0.0.1:7373"+w.Header().Get("Location"), nil)
	for _, c := range w.Result().Cookies() {
		r.AddCookie(c)
	}
	page := httptest.NewRecorder()
	s.web.ServeHTTP(page, r)
	if !strings.Contains(page.Body.String(), "Two photos were there already.") || strings.Contains(page.Body.String(), "photos are kept") {
		t.Error("sent again they are not said to be there")
	}
}

func TestTheSamePhotoTwiceIsAttachedOnce(t *testing.T) {
	s := newCandleSite(t)
	for range 2 {
		if w := s.upload("candle", 1, sentFile{"a.jpg", grey(10)}); w.Code != http.StatusSeeOther {
			t.Errorf("answers %d", w.Code)
		}
	}
	s.upload("candle", 2, sentFile{"a.jpg", grey(10)})
	if n, one, two := s.kept(), len(s.rows("candle", 1)), len(s.rows("candle", 2)); n != 2 || one != 1 || two != 1 {
		t.Errorf("%d files, %d and %d records", n, one, two)
	}
}

// Pictures may be large and many, everything else stays short.
func TestOnlyPhotosMayBeLarge(t *testing.T) {
	s := newCandleSite(t)
	long := append(grey(10), make([]byte, 2<<20)...)
	if w := s.upload("candle", 1, sentFile{"a.jpg", long}, sentFile{"b.jpg", append(grey(20), make([]byte, photo.MaxBytes)...)}); w.Code != 422 || !strings.Contains(w.Body.String(), "b.jpg was not kept. It is larger than 24 MB") || strings.Contains(w.Body.String(), "a.jpg was") {
		t.Errorf("answers %d:\n%s", w.Code, w.Body)
	}
	var many []sentFile
	for i := range 12 {
		many = append(many, sentFile{fmt.Sprintf("%d.jpg", i), grey(uint8(100 + i))})
	}
	w := s.upload("candle", 2, many...)
	s.hold("twelve", w, 422, []string{"Ten photos are kept.", "10.jpg was not kept. At most 10 can be added at once.", "11.jpg was not kept."})
	body, kind := formBody("candle", 1, sentFile{"c.jpg", []byte("from here on")})
	head, _, _ := strings.Cut(body.String(), "from here on")
	endless := io.MultiReader(strings.NewReader(head), strings.NewReader(strings.Repeat("x", 64<<20)), strings.NewReader(strings.Repeat("x", 200<<20)))
	s.hold("264 MB", s.post(endless, kind), http.StatusRequestEntityTooLarge, []string{"c.jpg was not kept. It is larger than 24 MB", "The rest was not kept: together",
		"larger than the 241 MB that can be sent at once. Send fewer at a time.", `action="/photos/new"`, `name="id" value="1"`})
	if got := s.kept(); got != 22 {
		t.Errorf("%d files", got)
	}
}

func TestPicturesAreSentAsPictures(t *testing.T) {
	s := newCandleSite(t)
	s.upload("candle", 1, sentFile{"a.jpg", grey(10)})
	hash := s.rows("candle", 1)[0].Hash
	for _, name := range []string{hash + ".jpg", hash + "-small.jpg"} {
		w := s.ask("/photos/files/"+name, nil)
		img, err := jpeg.Decode(bytes.NewReader(w.Body.Bytes()))
		if w.Code != 200 || err != nil || img.Bounds().Dx() != 64 {
			t.Errorf("%s: %d, %v", name, w.Code, err)
		}
		for header, want := range map[string]string{"Content-Type": "image/jpeg", "X-Content-Type-Options": "nosniff", "Cache-Control": "public, max-age=31536000, immutable", "Content-Security-Policy": "default-src 'self'"} {
			if got := w.Header().Get(header); !strings.HasPrefix(got, want) {
				t.Errorf("%s: %s is %q", name, header, got)
			}
		}
	}
	for _, name := range []string{strings.Repeat("0", 64) + ".jpg", hash, hash + ".png", strings.ToUpper(hash) + ".jpg", "..%2f..%2fjournal.db", "..", hash[:2] + "%2f" + hash + ".jpg"} {
		if w := s.ask("/photos/files/"+name, nil); w.Code != 404 || strings.Contains(w.Header().Get("Cache-Control"), "immutable") {
			t.Errorf("%s answers %d, %v", name, w.Code, w.Header())
		}
	}
}

func TestAPhotosNoteAndItsWithdrawal(t *testing.T) {
	s := newCandleSite(t)
	s.upload("candle", 1, sentFile{"a.jpg", grey(10)})
	s.shows("/photos/1/edit", 200, "Note on a photo of candle 1-A")
	s.sendsOn("/photos/1/edit", formOf(nil, "token", "n", "version", "1", "note", "top after a day"), "/photos/1")
	s.shows("/photos/1", 200, "top after a day", "Correct the note", "not noted")
	s.shows("/candles/1", 200, `alt="Candle 1-A: top after a day"`, "Photo of candle 1-A corrected")
	s.sendsBack("/photos/1/edit", formOf(nil, "token", "m", "version", "2", "note", strings.Repeat("x", 2001)), 422, "At most 2,000 characters.", "xxxx")
	s.sendsBack("/photos/1/edit", formOf(nil, "token", "o", "version", "1", "note", "late"), 409, "changed meanwhile", "late")
	s.shows("/withdraw/photo/1", 200, "Withdraw this photo of candle 1-A?")
	s.sendsOn("/withdraw/photo/1", formOf(nil, "token", "w", "why", "blurred"), "/photos/1")
	s.shows("/photos/1", 200, "blurred", "Bring it back")
	if w := s.ask("/candles/1", nil); regexp.MustCompile(`<img`).Match(w.Body.Bytes()) {
		t.Error("a withdrawn photo is shown")
	}
	s.sendsOn("/restore/photo/1", formOf(nil, "token", "r"), "/photos/1")
	s.shows("/candles/1", 200, `alt="Candle 1-A: top after a day"`)
}
