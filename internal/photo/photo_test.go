package photo

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"rimward/internal/journal"
)

// The table of tag 274 in CIPA DC-008 (Exif), "Orientation": where the stored
// picture's first row and first column are seen.
var seenAt = map[uint16][2]string{
	1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
	5: {"left", "top"}, 6: {"right", "top"}, 7: {"right", "bottom"}, 8: {"left", "bottom"},
}

var opposite = map[string]string{"top": "bottom", "bottom": "top", "left": "right", "right": "left"}

// place is a pixel near the corner where two sides meet.
func corner(b image.Rectangle, one, other string) (x, y int) {
	x, y = b.Dx()/8, b.Dy()/8
	for _, side := range []string{one, other} {
		switch side {
		case "right":
			x = b.Dx() - 1 - b.Dx()/8
		case "bottom":
			y = b.Dy() - 1 - b.Dy()/8
		}
	}
	return x, y
}

func TestEveryOrientationStandsUpright(t *testing.T) {
	jpg, pn := asJPEG(corners(320, 160)), asPNG(corners(320, 160))
	for o, seen := range seenAt {
		for name, sent := range map[string][]byte{
			"JPEG, big end first":    withExif(jpg, tiff(binary.BigEndian, o)),
			"JPEG, little end first": withExif(jpg, tiff(binary.LittleEndian, o)),
			"PNG":                    withChunk(pn, "eXIf", tiff(binary.BigEndian, o)),
		} {
			f := newFolder(t)
			k := f.send(t, sent)
			img, _ := f.picture(t, PictureName(k.Hash))
			small, _ := f.picture(t, SmallName(k.Hash))
			row, column := seen[0], seen[1]
			for _, c := range []struct{ row, column, paint string }{
				{row, column, "red"}, {row, opposite[column], "green"}, {opposite[row], column, "blue"}, {opposite[row], opposite[column], "cream"},
			} {
				for _, picture := range []image.Image{img, small} {
					x, y := corner(picture.Bounds(), c.row, c.column)
					if got := paintAt(picture, x, y); got != c.paint {
						t.Errorf("%s, orientation %d: %s at the %s %s, want %s", name, o, got, c.row, c.column, c.paint)
					}
				}
			}
			if wide := k.Width > k.Height; wide != (o <= 4) || img.Bounds().Dx() != k.Width || img.Bounds().Dy() != k.Height {
				t.Errorf("%s, orientation %d: kept as %d × %d, drawn as %v", name, o, k.Width, k.Height, img.Bounds())
			}
		}
	}
}

// Nothing but the pixels survives.
func TestNothingButThePictureIsKept(t *testing.T) {
	secret := []string{"GPSSECRET", "MADE HERE", "Exif", "<script>", "PK\x03\x04", "comment within"}
	jpg := withExif(asJPEG(corners(300, 200)), tiff(binary.BigEndian, 1))
	jpg = append(jpg, "<script>alert(1)</script>PK\x03\x04 a whole archive"...)
	pn := withChunk(asPNG(corners(300, 200)), "tEXt", []byte("Comment\x00comment within GPSSECRET"))
	pn = append(pn, "<script>alert(1)</script>"...)
	for name, sent := range map[string][]byte{"JPEG": jpg, "PNG": pn} {
		f := newFolder(t)
		k := f.send(t, sent)
		for _, file := range []string{PictureName(k.Hash), SmallName(k.Hash)} {
			_, b := f.picture(t, file)
			for _, s := range secret {
				if bytes.Contains(b, []byte(s)) {
					t.Errorf("%s: %s holds %q", name, file, s)
				}
			}
			if !bytes.HasSuffix(b, []byte{0xff, 0xd9}) {
				t.Errorf("%s: %s goes on after its end", name, file)
			}
		}
		if got := len(f.files(t)); got != 2 {
			t.Errorf("%s: %d files are kept, want 2", name, got)
		}
	}
}

func TestSizesThatAreKept(t *testing.T) {
	for _, c := range []struct {
		sent         []byte
		w, h, sw, sh int
	}{
		{asJPEG(corners(1, 1)), 1, 1, 1, 1},
		{webpDot(), 1, 1, 1, 1},
		{asPNG(corners(1600, 1200)), 1600, 1200, 320, 240},
		{asPNG(corners(1601, 1200)), 1600, 1199, 320, 240},
		{asPNG(corners(2000, 3000)), 1067, 1600, 213, 320},
		{asPNG(corners(20000, 3)), 1600, 1, 320, 1},
		{asPNG(corners(2, 5000)), 1, 1600, 1, 320},
	} {
		f := newFolder(t)
		k := f.send(t, c.sent)
		sw, sh := journal.Photo{Width: k.Width, Height: k.Height}.Small()
		small, _ := f.picture(t, SmallName(k.Hash))
		got := fmt.Sprint(k.Width, k.Height, sw, sh, small.Bounds().Dx(), small.Bounds().Dy())
		if want := fmt.Sprint(c.w, c.h, c.sw, c.sh, c.sw, c.sh); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
		if fault := f.Fault(k.Hash); fault != "" {
			t.Errorf("%s: %s", got, fault)
		}
	}
}

// What cannot be kept gets its sentence, and leaves nothing behind: not even
// the folder.
func TestWhatIsRefused(t *testing.T) {
	ftyp := func(brands ...string) []byte {
		b := binary.BigEndian.AppendUint32(nil, uint32(16+4*(len(brands)-1)))
		b = append(append(append(b, "ftyp"...), brands[0]...), 0, 0, 0, 0)
		return append(append(b, strings.Join(brands[1:], "")...), make([]byte, 3000)...)
	}
	var moving bytes.Buffer
	ok(t, gif.Encode(&moving, corners(8, 8), nil))
	jpg, pn := asJPEG(noise(300, 300, 1)), asPNG(noise(300, 300, 2))
	for name, c := range map[string]struct {
		sent []byte
		says string
	}{
		"nothing":                    {nil, "empty"},
		"HEIC":                       {ftyp("heic", "mif1", "heic"), "It is a HEIC picture"},
		"HEIC by its structure":      {ftyp("mif1", "mif1", "heic"), "Most Compatible"},
		"HEIF sequence":              {ftyp("msf1", "hevc"), "It is a HEIC picture"},
		"AVIF":                       {ftyp("avif", "mif1"), "It is an AVIF picture"},
		"AVIF by its structure":      {ftyp("mif1", "avif", "miaf"), "It is an AVIF picture"},
		"a film":                     {ftyp("isom", "mp42"), "It is a film"},
		"GIF":                        {moving.Bytes(), "It is a GIF"},
		"SVG":                        {[]byte(`<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>`), "SVG"},
		"PDF":                        {[]byte("%PDF-1.7\n"), "PDF"},
		"a page":                     {[]byte("<!doctype html><script>alert(1)</script>"), "not a picture"},
		"a text":                     {[]byte("wax"), "not a picture"},
		"ZIP":                        {[]byte("PK\x03\x04rest"), "ZIP"},
		"half a JPEG":                {jpg[:len(jpg)/2], "damaged or incomplete"},
		"half a PNG":                 {pn[:len(pn)/2], "damaged or incomplete"},
		"the head of a JPEG":         {jpg[:4], "damaged or incomplete"},
		"half a WebP":                {webpDot()[:30], "damaged or incomplete"},
		"a script dressed as a JPEG": {[]byte("\xff\xd8\xff<script>alert(1)</script>"), "damaged or incomplete"},
		"a bomb":                     {hugePNG(60000, 60000, 8, 6), "60000 × 60000 pixels; at most 50 megapixels"},
		"a bomb of one row":          {hugePNG(1<<31-1, 1, 8, 0), "30000 pixels on one side"},
		"a bomb in deep colour":      {hugePNG(7000, 7000, 16, 6), "too much memory"},
		"a progressive bomb":         {progressiveJPEG(7000, 7000), "too much memory"},
		"a bomb behind a restart":    {before(markSOF2, "\xff\xd0"), "too much memory"},
		"a bomb behind a fill byte":  {before(markSOF2, "\xff"), "too much memory"},
		"a bomb behind stray bytes":  {before(markSOF2, "stray"), "too much memory"},
		"a bomb behind a stuffed ff": {before(markSOF2, "\xff\x00"), "too much memory"},
		"a bomb in a short comment":  {before(markSOF2, "\xff\xfe\x00\x02"), "too much memory"},
		"a bomb of passes":           {inPasses(maxScans + 1), "more than 100 passes"},
		"no pixels":                  {hugePNG(0, 10, 8, 6), "damaged or incomplete"},
		"too many bytes":             {append(asJPEG(corners(9, 9)), make([]byte, MaxBytes)...), "larger than 24 MB"},
	} {
		t.Run(name, func(t *testing.T) {
			f := newFolder(t)
			_, err := f.Keep(t.Context(), bytes.NewReader(c.sent), func(Kept) error { t.Error("it was kept"); return nil })
			var refused *Refused
			if !errors.As(err, &refused) || !strings.Contains(refused.Sentence, c.says) {
				t.Errorf("got %v, want a sentence that says %q", err, c.says)
			}
			if _, err := os.Stat(f.path); !errors.Is(err, os.ErrNotExist) {
				t.Errorf("the folder is there: %v, %v", err, f.files(t))
			}
		})
	}
}

// A picture at the limit of memory passes; its form is told from the file.
func TestWhatIsBearable(t *testing.T) {
	if !frameOf(bytes.NewReader(progressiveJPEG(10, 10))).progressive || frameOf(bytes.NewReader(asJPEG(corners(9, 9)))).progressive {
		t.Error("a progressive JPEG is not told from a plain one")
	}
	for _, c := range []struct {
		kind        string
		w, h        int
		m           color.Model
		progressive bool
		want        bool
	}{
		{"jpeg", 8160, 6120, color.YCbCrModel, false, true}, {"jpeg", 4000, 3000, color.YCbCrModel, true, true},
		{"jpeg", 8160, 6120, color.YCbCrModel, true, false}, {"png", 7000, 7000, color.NRGBAModel, false, true}, {"png", 7000, 7000, color.NRGBA64Model, false, false},
		{"jpeg", 10000, 5001, color.YCbCrModel, false, false}, {"jpeg", 30001, 1, color.GrayModel, false, false},
		// 31.5, 36 and 36 million pixels are just too many for 8, 7 and 7 bytes each in 240 MB.
		{"jpeg", 6000, 5240, color.CMYKModel, false, true}, {"jpeg", 6000, 5250, color.CMYKModel, false, false},
		{"jpeg", 6000, 5990, color.RGBAModel, false, true}, {"jpeg", 6000, 6000, color.RGBAModel, false, false}, {"png", 7000, 7000, color.RGBAModel, false, true},
		{"webp", 6000, 5990, color.NYCbCrAModel, false, true}, {"webp", 6000, 6000, color.NYCbCrAModel, false, false}, {"webp", 7000, 7000, color.NRGBAModel, false, true},
		{"jpeg", 4000, 3000, color.RGBAModel, true, true}, {"jpeg", 4000, 3500, color.RGBAModel, true, false},
		{"jpeg", 4000, 2600, color.CMYKModel, true, true}, {"jpeg", 4000, 2650, color.CMYKModel, true, false},
	} {
		err := bearable(c.kind, image.Config{ColorModel: c.m, Width: c.w, Height: c.h}, c.progressive)
		if (err == nil) != c.want {
			t.Errorf("%s, %d × %d (progressive %v): %v", c.kind, c.w, c.h, c.progressive, err)
		}
	}
}

func TestTheSamePictureIsKeptOnce(t *testing.T) {
	f := newFolder(t)
	sent := asJPEG(noise(400, 300, 3))
	a, b := f.send(t, sent), f.send(t, withExif(sent, tiff(binary.BigEndian, 1)))
	if a != b || len(f.files(t)) != 2 {
		t.Errorf("kept as %v and %v in %v", a, b, f.files(t))
	}
	if c := f.send(t, asJPEG(noise(400, 300, 4))); c == a || len(f.files(t)) != 4 {
		t.Errorf("another picture is kept as %v in %v", c, f.files(t))
	}
}

// When the record cannot be written the picture goes too, unless an earlier
// record has it.
func TestAPictureWithoutARecordGoes(t *testing.T) {
	f := newFolder(t)
	full := errors.New("disk full")
	fail := func(Kept) error { return full }
	sent := asJPEG(noise(40, 30, 5))
	if _, err := f.Keep(t.Context(), bytes.NewReader(sent), fail); !errors.Is(err, full) {
		t.Errorf("got %v", err)
	}
	if _, err := os.Stat(f.path); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("left behind: %v", f.files(t))
	}
	k := f.send(t, sent)
	if _, err := f.Keep(t.Context(), bytes.NewReader(sent), fail); !errors.Is(err, full) {
		t.Errorf("got %v", err)
	}
	if fault := f.Fault(k.Hash); fault != "" {
		t.Errorf("the earlier record lost its picture: %s", fault)
	}
}

// lame is a connection that breaks off.
type lame struct{ rest []byte }

func (l *lame) Read(p []byte) (int, error) {
	if len(l.rest) == 0 {
		return 0, errors.New("connection reset")
	}
	n := copy(p, l.rest)
	l.rest = l.rest[n:]
	return n, nil
}

func TestABrokenConnectionLeavesNothing(t *testing.T) {
	f := newFolder(t)
	_, err := f.Keep(t.Context(), &lame{asJPEG(noise(300, 300, 6))}, fine)
	var refused *Refused
	if err == nil || errors.As(err, &refused) {
		t.Errorf("got %v", err)
	}
	if _, err := os.Stat(f.path); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("left behind: %v", f.files(t))
	}
}

// Many at once, some the same, some refused, some without a record.
func TestManyAtOnce(t *testing.T) {
	f := newFolder(t)
	var all sync.WaitGroup
	for i := range 40 {
		all.Go(func() {
			sent, then := asJPEG(noise(60, 60, uint64(i%5))), fine
			switch i % 4 {
			case 1:
				sent = sent[:len(sent)/2]
			case 2:
				then = func(Kept) error { return errors.New("no") }
			}
			k, err := f.Keep(t.Context(), bytes.NewReader(sent), then)
			if kept := err == nil; kept != (i%4 == 0 || i%4 == 3) {
				t.Errorf("%d: %v", i, err)
			} else if fault := f.Fault(k.Hash); kept && fault != "" {
				t.Errorf("%d: %s", i, fault)
			}
		})
	}
	all.Wait()
	if got := len(f.files(t)); got != 10 {
		t.Errorf("%d files for five pictures", got)
	}
}

// As many passes as may be are opened, and whatever stands between segments is
// passed over.
func TestPassesAreCounted(t *testing.T) {
	newFolder(t).send(t, inPasses(maxScans))
	for _, n := range []int{1, 7, maxScans + 1} {
		if got := frameOf(bytes.NewReader(inPasses(n))); got != (frame{true, n}) {
			t.Errorf("%d passes are taken for %+v", n, got)
		}
	}
	j := asJPEG(noise(64, 64, 8)) // its data has 0xff 0 in it
	if got := frameOf(bytes.NewReader(j)); got != (frame{false, 1}) || !bytes.Contains(j, []byte{0xff, 0}) {
		t.Errorf("a plain JPEG is taken for %+v", got)
	}
	for _, between := range []string{"\xff\xd0", "\xff", "stray", "\xff\x00", "\xff\x00\xff\xd7\xff\xff"} {
		at := bytes.Index(j, []byte{0xff, markSOF0})
		odd := string(j[:at]) + between + string(j[at:])
		if got := frameOf(strings.NewReader(odd)); got != (frame{false, 1}) {
			t.Errorf("with %q it is taken for %+v", between, got)
		}
		newFolder(t).send(t, []byte(odd)) // image/jpeg opens it
		many := strings.ReplaceAll(string(inPasses(9)), "\xff\xda", between+"\xff\xda")
		if got := frameOf(strings.NewReader(many)); got != (frame{true, 9}) {
			t.Errorf("nine passes behind %q are taken for %+v", between, got)
		}
	}
	if got := frameOf(strings.NewReader("\xff\xd8\xff\xe0\x00\x01")); !got.progressive {
		t.Error("what cannot be told is taken to be plain")
	}
}

// A picture that nobody waits for is given up while it is opened, and is not
// called damaged.
func TestOpeningEndsWithItsRequest(t *testing.T) {
	for name, sent := range map[string][]byte{"JPEG": asJPEG(corners(40, 30)), "PNG": asPNG(corners(40, 30)), "WebP": webpDot()} {
		path := filepath.Join(t.TempDir(), "sent")
		ok(t, os.WriteFile(path, sent, 0o600))
		file, err := os.Open(path)
		ok(t, err)
		ctx, cancel := context.WithCancel(t.Context())
		if _, _, err := open(ctx, file); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		cancel()
		if _, _, err := open(ctx, file); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v once the request has ended", name, err)
		}
		ok(t, file.Close())
	}
}
