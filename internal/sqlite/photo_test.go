package sqlite_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

// hash is the name of the n-th picture.
func hash(n int) string { return strings.Repeat(string("0123456789abcdef"[n]), 64) }

// photo attaches a picture at the clock's time.
func (b bench) photo(t *testing.T, of journal.Noun, id journal.ID, n int) journal.Photo {
	t.Helper()
	x := journal.Photo{Of: of, OfID: id, Hash: hash(n), Width: 1600, Height: 1200, At: b.clock.at}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SavePhoto(&x) }))
	return x
}

func hashes(list []journal.Photo) string {
	var s string
	for _, p := range list {
		s += p.Hash[:1]
	}
	return s
}

func TestPhotosOfACandleComeInOrderOfTime(t *testing.T) {
	b := newBench(t)
	candle, other := b.st.Candles[0], b.st.Candles[1]
	b.photo(t, journal.NounCandle, candle.ID, 0)
	b.clock.wait(time.Hour)
	burn, elsewhere := b.light(t, candle), b.light(t, other)
	b.clock.wait(time.Hour)
	first, away := b.look(t, burn, 40), b.look(t, elsewhere, 30)
	b.clock.wait(time.Hour)
	second := b.look(t, burn, 50)
	// Attached in the wrong order, an hour later.
	b.clock.wait(time.Hour)
	b.photo(t, journal.NounCandle, candle.ID, 9)
	b.photo(t, journal.NounCheck, second.ID, 3)
	b.photo(t, journal.NounCheck, first.ID, 2)
	b.photo(t, journal.NounBurn, burn.ID, 1)
	b.photo(t, journal.NounCheck, away.ID, 2)
	b.photo(t, journal.NounPour, b.st.Pour.ID, 5)
	if got := hashes(got(b.CandlePhotos(t.Context(), candle.ID))(t)); got != "01239" {
		t.Errorf("photos of the candle come as %s", got)
	}
	if got := hashes(got(b.CandlePhotos(t.Context(), other.ID))(t)); got != "2" {
		t.Errorf("photos of the other candle: %s", got)
	}
	if got := hashes(got(b.PhotosOf(t.Context(), journal.NounCheck, first.ID, second.ID))(t)); got != "32" {
		t.Errorf("photos of two checks: %s", got)
	}
	if got := got(b.PhotosOf(t.Context(), journal.NounCheck))(t); got != nil {
		t.Errorf("photos of nothing: %v", got)
	}
	// What was withdrawn takes its photos out of sight, and brings them back.
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCheck, second.ID, "slip") }))
	if got := hashes(got(b.CandlePhotos(t.Context(), candle.ID))(t)); got != "0129" {
		t.Errorf("without the withdrawn check: %s", got)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounBurn, burn.ID, "wrong candle") }))
	if got := hashes(got(b.CandlePhotos(t.Context(), candle.ID))(t)); got != "09" {
		t.Errorf("without the withdrawn burn: %s", got)
	}
}

func TestPhotosAreSavedCorrectedWithdrawnAndBroughtBack(t *testing.T) {
	b := newBench(t)
	c := b.st.Candles[0]
	x := b.photo(t, journal.NounCandle, c.ID, 1)
	first := x
	b.clock.wait(time.Minute)
	x.Note, x.Of, x.OfID, x.Hash, x.Width = "  top, after a day ", journal.NounPour, 7, hash(2), 3
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SavePhoto(&x) }))
	want := first
	want.Note, want.Version = "top, after a day", 2
	if diff := cmp.Diff(want, got(b.Photo(t.Context(), x.ID))(t)); diff != "" {
		t.Errorf("only the note of a photo is corrected (-want +got):\n%s", diff)
	}
	lines := got(b.CandleHistory(t.Context(), c.ID))(t)
	if len(lines) < 2 || lines[0].Noun != journal.NounPhoto || lines[0].Kind != journal.Corrected || lines[1].Kind != journal.Written || lines[1].Of != x.ID {
		t.Errorf("the candle's history does not tell of its photo: %+v", lines)
	}
	again := journal.Photo{Of: journal.NounCandle, OfID: c.ID, Hash: hash(1), Width: 1600, Height: 1200, At: b.clock.at}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SavePhoto(&again) }))
	if diff := cmp.Diff(want, again); diff != "" {
		t.Errorf("the same photo again is another (-want +got):\n%s", diff)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPhoto, x.ID, "blurred") }))
	if left := got(b.CandlePhotos(t.Context(), c.ID))(t); left != nil {
		t.Errorf("a withdrawn photo is shown: %v", left)
	}
	if gone := got(b.Photo(t.Context(), x.ID))(t); !gone.IsGone() || gone.GoneWhy != "blurred" {
		t.Errorf("withdrawn: %+v", gone)
	}
	b.photo(t, journal.NounCandle, b.st.Candles[1].ID, 1)
	if named := got(sqlite.PhotoHashes(t.Context(), b.path))(t); len(named) != 1 || named[0] != hash(1) {
		t.Errorf("a copy must hold %v", named)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPhoto, x.ID+1, "") }))
	all := got(sqlite.AllPhotos(t.Context(), b.path))(t)
	if len(all) != 2 || journal.PhotoHashes(all)[0] != hash(1) || len(journal.PhotoHashes(all)) != 1 {
		t.Errorf("the journal names %v", all)
	}
	// Attached anew while it was away, it cannot come back beside itself.
	b.photo(t, journal.NounCandle, c.ID, 1)
	b.refused(t, "", func(tx *sqlite.Tx) error { return tx.Restore(journal.NounPhoto, x.ID) })
}

func TestRulesOfPhotosHoldWithinTheTransaction(t *testing.T) {
	b := newBench(t)
	burn := b.light(t, b.st.Candles[0])
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCandle, b.st.Candles[2].ID, "dropped") }))
	fine := journal.Photo{Of: journal.NounBurn, OfID: burn.ID, Hash: hash(1), Width: 1600, Height: 1200, At: start}
	for name, c := range map[string]struct {
		field  string
		change func(*journal.Photo)
	}{
		"of nothing":              {"", func(x *journal.Photo) { x.OfID = 99 }},
		"of a kind that has none": {"", func(x *journal.Photo) { x.Of = journal.NounWax }},
		"of no kind":              {"", func(x *journal.Photo) { x.Of = "burn; DROP TABLE burn" }},
		"of what was withdrawn":   {"", func(x *journal.Photo) { x.Of, x.OfID = journal.NounCandle, b.st.Candles[2].ID }},
		"without a picture":       {"", func(x *journal.Photo) { x.Hash = "" }},
		"with another's name":     {"", func(x *journal.Photo) { x.Hash = strings.ToUpper(hash(10)) }},
		"without an extent":       {"", func(x *journal.Photo) { x.Width = 0 }},
		"larger than is kept":     {"", func(x *journal.Photo) { x.Height = 1601 }},
		"with a book for a note":  {"note", func(x *journal.Photo) { x.Note = strings.Repeat("é", 2001) }},
	} {
		t.Run(name, func(t *testing.T) {
			x := fine
			c.change(&x)
			b.refused(t, c.field, func(tx *sqlite.Tx) error { return tx.SavePhoto(&x) })
		})
	}
	x := b.photo(t, journal.NounBurn, burn.ID, 3)
	must(t, b.write(t, func(tx *sqlite.Tx) error {
		if err := tx.Withdraw(journal.NounPhoto, x.ID, ""); err != nil {
			return err
		}
		return tx.Withdraw(journal.NounBurn, burn.ID, "wrong candle")
	}))
	b.refused(t, "", func(tx *sqlite.Tx) error { return tx.Restore(journal.NounPhoto, x.ID) })
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounBurn, burn.ID) }))
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounPhoto, x.ID) }))
	b.photo(t, journal.NounBurn, burn.ID, 4)
	if got := hashes(got(b.PhotosOf(t.Context(), journal.NounBurn, burn.ID))(t)); got != "34" {
		t.Errorf("after all that: %s", got)
	}
}

// Marks are kept with their photo, corrected and taken away, and its history
// tells.
func TestMarksAreKeptWithTheirPhoto(t *testing.T) {
	b := newBench(t)
	x := b.photo(t, journal.NounCandle, b.st.Candles[0].ID, 1)
	for i, m := range []journal.PhotoMarks{
		{Wall: journal.MarkLine{{X: 12.5, Y: 80}, {X: 1600, Y: 0}}, Pool: journal.MarkLine{{X: 3, Y: 4}}},
		{Wall: journal.MarkLine{{X: 1, Y: 2}}}, {},
	} {
		x.Marks = m
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SavePhoto(&x) }))
		if diff := cmp.Diff(m, got(b.Photo(t.Context(), x.ID))(t).Marks); diff != "" {
			t.Errorf("marks (-want +got):\n%s", diff)
		}
		if h := got(b.History(t.Context(), journal.NounPhoto, x.ID))(t); len(h) != i+2 || h[0].Kind != journal.Corrected {
			t.Errorf("history after %d: %+v", i, h)
		}
	}
	x.Marks = journal.PhotoMarks{Wall: journal.MarkLine{{X: math.Copysign(0, -1), Y: 5}}}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SavePhoto(&x) }))
	x.Marks = journal.PhotoMarks{Pool: journal.MarkLine{{X: 1, Y: 1201}}}
	b.refused(t, "", func(tx *sqlite.Tx) error { return tx.SavePhoto(&x) })
}

// A photo is shown only while nothing that it belongs to was withdrawn, so none
// is taken, and none comes back, until then.
func TestPhotosOfWhatIsGoneWithTheRestAreRefused(t *testing.T) {
	b := newBench(t)
	c := b.st.Candles[0]
	burn := b.light(t, c)
	b.clock.wait(time.Hour)
	check := b.look(t, burn, 40)
	b.snuff(t, burn)
	away := b.photo(t, journal.NounCheck, check.ID, 1)
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPhoto, away.ID, "") }))
	chain := []struct {
		of journal.Noun
		id journal.ID
	}{{journal.NounPour, b.st.Pour.ID}, {journal.NounCandle, c.ID}, {journal.NounBurn, burn.ID}, {journal.NounCheck, check.ID}}
	for i, gone := range chain {
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(gone.of, gone.id, "slip") }))
		for j, shown := range chain {
			x := journal.Photo{Of: shown.of, OfID: shown.id, Hash: hash(2 + j), Width: 9, Height: 9, At: b.clock.at}
			if j >= i {
				b.refused(t, "", func(tx *sqlite.Tx) error { return tx.SavePhoto(&x) })
				continue
			}
			must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SavePhoto(&x) }))
		}
		b.refused(t, "", func(tx *sqlite.Tx) error { return tx.Restore(journal.NounPhoto, away.ID) })
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(gone.of, gone.id) }))
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounPhoto, away.ID) }))
}

// What was withdrawn stays as it was.
func TestAWithdrawnPhotoIsNotCorrected(t *testing.T) {
	b := newBench(t)
	x := b.photo(t, journal.NounCandle, b.st.Candles[0].ID, 1)
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPhoto, x.ID, "blurred") }))
	x = got(b.Photo(t.Context(), x.ID))(t)
	noted, marked := x, x
	noted.Note, marked.Marks = "sharp", journal.PhotoMarks{Wall: journal.MarkLine{{X: 1, Y: 2}}}
	for _, y := range []journal.Photo{noted, marked} {
		b.refused(t, "", func(tx *sqlite.Tx) error { return tx.SavePhoto(&y) })
	}
	if diff := cmp.Diff(x, got(b.Photo(t.Context(), x.ID))(t)); diff != "" {
		t.Errorf("it changed (-want +got):\n%s", diff)
	}
}

// Before it is attached a photo is not found, and afterwards it is until it is
// withdrawn.
func TestAttachedPhotosAreFound(t *testing.T) {
	b := newBench(t)
	c := b.st.Candles[0]
	find := func(of journal.Photo) (there journal.Photo, found bool) {
		t.Helper()
		must(t, b.write(t, func(tx *sqlite.Tx) (err error) { there, found, err = tx.Attached(of); return err }))
		return there, found
	}
	sent := journal.Photo{Of: journal.NounCandle, OfID: c.ID, Hash: hash(1)}
	if _, found := find(sent); found {
		t.Error("found before it is there")
	}
	x := b.photo(t, journal.NounCandle, c.ID, 1)
	if there, found := find(sent); !found || there.ID != x.ID {
		t.Errorf("found %v: %+v", found, there)
	}
	sent.OfID = b.st.Candles[1].ID
	if _, found := find(sent); found {
		t.Error("found on another candle")
	}
	sent.OfID = c.ID
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPhoto, x.ID, "") }))
	if _, found := find(sent); found {
		t.Error("found though it was withdrawn")
	}
}
