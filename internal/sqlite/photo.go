package sqlite

import (
	"context"
	"database/sql"
	"fmt"

	"rimward/internal/journal"
)

var photos = kind[journal.Photo]{
	noun: journal.NounPhoto, table: "photo",
	meta: func(x *journal.Photo) *journal.Meta { return &x.Meta },
	own: func(x *journal.Photo) []field {
		return []field{
			{name: "of_noun", at: &x.Of}, {name: "of_id", at: &x.OfID}, {name: "hash", at: &x.Hash},
			{name: "width", at: &x.Width}, {name: "height", at: &x.Height}, {name: "at", at: moment{&x.At}}, {name: "note", at: &x.Note},
			{name: "wall_marks", at: markLine{&x.Marks.Wall}}, {name: "pool_marks", at: markLine{&x.Marks.Pool}},
		}
	},
	taken: journal.Problem{Text: "This photo is attached to it already."},
}

// photographed names the table of each noun that photos can be attached to,
// with what it belongs to and the columns that tell whether any of it was
// withdrawn.
var photographed = map[journal.Noun]struct{ table, within, gone string }{
	journal.NounPour:     {"pour", "", "pour.gone_at"},
	journal.NounCandle:   {"candle", ofPour, "candle.gone_at, pour.gone_at"},
	journal.NounBurn:     {"burn", ofCandle + ofPour, "burn.gone_at, candle.gone_at, pour.gone_at"},
	journal.NounSetCheck: {"set_check", " JOIN candle ON candle.id = set_check.candle_id" + ofPour, "set_check.gone_at, candle.gone_at, pour.gone_at"},
	journal.NounCheck:    {"checks", ofBurn + ofCandle + ofPour, "checks.gone_at, burn.gone_at, candle.gone_at, pour.gone_at"},
	journal.NounCast:     {"pour_cast", " JOIN pour ON pour.id = pour_cast.pour_id", "pour_cast.gone_at, pour.gone_at"},
}

const (
	ofBurn   = " JOIN burn ON burn.id = checks.burn_id"
	ofCandle = " JOIN candle ON candle.id = burn.candle_id"
	ofPour   = " JOIN pour ON pour.id = candle.pour_id"
)

// Attached finds the photo that shows the same picture of the same as x does
// and was not withdrawn; found is false when there is none.
func (tx *Tx) Attached(x journal.Photo) (there journal.Photo, found bool, err error) {
	list, err := all(tx.reader, photos, "WHERE of_noun = ? AND of_id = ? AND hash = ? AND gone_at IS NULL", x.Of, x.OfID, x.Hash)
	if err != nil || len(list) == 0 {
		return journal.Photo{}, false, err
	}
	return list[0], true, nil
}

// SavePhoto keeps a photo, new or with its note or its marks corrected. What it
// shows, and what that belongs to, must be in the journal and not withdrawn; a
// photo stays with what it shows. One that was withdrawn is not corrected. One
// that is attached to the same already is not attached again: x becomes the
// one that is.
func (tx *Tx) SavePhoto(x *journal.Photo) error {
	if x.ID == 0 {
		there, found, err := tx.Attached(*x)
		if found {
			*x = there
		}
		if found || err != nil {
			return err
		}
	}
	return save(tx, photos, x, func(next, before *journal.Photo) error {
		*next = next.Tidied()
		if before == nil {
			return tx.fitsPhoto(next)
		}
		if before.IsGone() {
			return journal.Invalid("", "This photo was withdrawn. Bring it back first.")
		}
		note, marks := next.Note, next.Marks
		*next = *before
		next.Note, next.Marks = note, marks
		return next.Validate(journal.PhotoFacts{})
	})
}

// fitsPhoto holds the rules of a photo beside what it shows.
func (tx *Tx) fitsPhoto(p *journal.Photo) error {
	var f journal.PhotoFacts
	of, known := photographed[p.Of]
	if known {
		var err error
		known, err = tx.value("SELECT coalesce("+of.gone+", NULL) IS NOT NULL FROM "+of.table+of.within+" WHERE "+of.table+".id = ?", []any{p.OfID}, &f.Gone)
		if err != nil {
			return err
		}
	}
	if !known {
		return journal.Invalid("", "What the photo shows is not in the journal.")
	}
	return p.Validate(f)
}

// Photo reads one photo.
func (s *Store) Photo(ctx context.Context, id journal.ID) (journal.Photo, error) {
	return find(ctx, s, photos, id)
}

// PhotosOf lists the photos of some things of one kind that were not
// withdrawn, in the order in which they were attached.
func (s *Store) PhotosOf(ctx context.Context, noun journal.Noun, ids ...journal.ID) ([]journal.Photo, error) {
	return view(ctx, s, func(r reader) ([]journal.Photo, error) { return r.photosOf(noun, ids) })
}

func (r reader) photosOf(noun journal.Noun, ids []journal.ID) ([]journal.Photo, error) {
	return all(r, photos, "WHERE of_noun = ? AND of_id IN (SELECT value FROM json_each(?)) AND photo.gone_at IS NULL ORDER BY photo.at, photo.id", noun, idList(ids))
}

// CandlePhotos lists the photos of a candle, of its set checks, of its burns
// and of its checks that were not withdrawn, in order of time: a check's photo stands at the
// moment of the check, a burn's where it was lit, the candle's own where they
// were attached. Photos of burns and checks that were withdrawn are left out.
func (s *Store) CandlePhotos(ctx context.Context, candle journal.ID) ([]journal.Photo, error) {
	return view(ctx, s, func(r reader) ([]journal.Photo, error) { return r.candlePhotos(candle) })
}

func (r reader) candlePhotos(candle journal.ID) ([]journal.Photo, error) {
	return all(r, photos, `JOIN (
		SELECT id AS shown, at AS seen FROM photo WHERE of_noun = 'candle' AND of_id = ?
		UNION ALL SELECT p.id, burn.lit_at FROM burn CROSS JOIN photo AS p ON p.of_noun = 'burn' AND p.of_id = burn.id
			WHERE burn.candle_id = ? AND burn.gone_at IS NULL
		UNION ALL SELECT p.id, checks.at FROM burn CROSS JOIN checks ON checks.burn_id = burn.id
			CROSS JOIN photo AS p ON p.of_noun = 'check' AND p.of_id = checks.id
			WHERE burn.candle_id = ? AND burn.gone_at IS NULL AND checks.gone_at IS NULL
		UNION ALL SELECT p.id, set_check.at FROM set_check CROSS JOIN photo AS p ON p.of_noun = 'set check' AND p.of_id = set_check.id
			WHERE set_check.candle_id = ? AND set_check.gone_at IS NULL
		) ON shown = photo.id WHERE photo.gone_at IS NULL ORDER BY seen, photo.id`, candle, candle, candle, candle)
}

// photosOfCandle selects the ids of all photos of one candle, withdrawn ones
// too, from its id given four times.
const photosOfCandle = `IN (SELECT id FROM photo WHERE of_noun = 'candle' AND of_id = ?
	UNION ALL SELECT photo.id FROM burn CROSS JOIN photo ON photo.of_noun = 'burn' AND photo.of_id = burn.id WHERE burn.candle_id = ?
	UNION ALL SELECT photo.id FROM burn CROSS JOIN checks ON checks.burn_id = burn.id
		CROSS JOIN photo ON photo.of_noun = 'check' AND photo.of_id = checks.id WHERE burn.candle_id = ?
	UNION ALL SELECT photo.id FROM set_check CROSS JOIN photo ON photo.of_noun = 'set check' AND photo.of_id = set_check.id WHERE set_check.candle_id = ?)`

// PhotoHashes lists the hashes of all photos that the journal at a path names,
// withdrawn ones too, each once: what a copy must hold. It reads journals of
// other versions as well; one that knows no photos yet has none.
func PhotoHashes(ctx context.Context, path string) ([]string, error) {
	if _, err := recogniseJournal(path); err != nil {
		return nil, err
	}
	db, err := handle(path, onlyLook, 1)
	if err != nil {
		return nil, err
	}
	defer db.Close()
	return view(ctx, &Store{read: db}, func(r reader) ([]string, error) {
		var name string
		if known, err := r.value("SELECT name FROM sqlite_schema WHERE type = 'table' AND name = 'photo'", nil, &name); !known {
			return nil, err
		}
		return r.texts("SELECT DISTINCT hash FROM photo ORDER BY hash")
	})
}

// texts reads one column.
func (r reader) texts(query string, args ...any) (out []string, err error) {
	err = r.rows(func(rows *sql.Rows) error {
		var text string
		err := rows.Scan(&text)
		out = append(out, text)
		return err
	}, query, args...)
	return out, err
}

// AllPhotos lists every photo that the journal at a path names, withdrawn ones
// too, without changing anything. The journal must have this program's version.
func AllPhotos(ctx context.Context, path string) ([]journal.Photo, error) {
	h, err := recogniseJournal(path)
	if err != nil {
		return nil, err
	}
	knows, err := newest(steps())
	if err != nil {
		return nil, err
	}
	if h.version != knows {
		return nil, fmt.Errorf("list photos: the journal has version %d and this program keeps %d", h.version, knows)
	}
	db, err := handle(path, onlyLook, 1)
	if err != nil {
		return nil, err
	}
	defer db.Close()
	return view(ctx, &Store{read: db}, func(r reader) ([]journal.Photo, error) { return all(r, photos, "ORDER BY id") })
}
