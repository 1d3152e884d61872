package sqlite

import (
	"context"
	"database/sql"

	"rimward/internal/journal"
)

var smellings = kind[journal.Smelling]{
	noun: journal.NounSmelling, table: "smelling",
	meta: func(x *journal.Smelling) *journal.Meta { return &x.Meta },
	own: func(x *journal.Smelling) []field {
		return []field{
			{name: "at", at: moment{&x.At}}, {name: "kind", at: &x.Kind}, {name: "room", at: &x.Room}, {name: "blind", at: &x.Blind},
			{name: "uncovered_at", at: maybeMoment{&x.Uncovered}}, {name: "note", at: &x.Note},
		}
	},
}

var cups = kind[journal.Cup]{
	noun: journal.NounCup, table: "cup",
	meta: func(x *journal.Cup) *journal.Meta { return &x.Meta },
	own: func(x *journal.Cup) []field {
		return []field{
			{name: "smelling_id", at: &x.Smelling, ref: "smelling"}, {name: "candle_id", at: &x.Candle, ref: "candle"},
			{name: "code", at: &x.Code}, {name: "minutes", at: &x.Minutes},
		}
	},
	taken: journal.Problem{Field: "code", Text: "Another candle of this smelling has this code."},
}

var scores = kind[journal.Score]{
	noun: journal.NounScore, table: "score",
	meta: func(x *journal.Score) *journal.Meta { return &x.Meta },
	own: func(x *journal.Score) []field {
		return []field{
			{name: "cup_id", at: &x.Cup, ref: "cup"}, {name: "nose", at: &x.Nose}, {name: "score", at: &x.Score},
			{name: "place", at: &x.Order}, {name: "at", at: moment{&x.At}}, {name: "note", at: &x.Note},
		}
	},
	taken: journal.Problem{Field: "nose", Text: "This nose has scored it already. Correct that score instead."},
}

// SaveSmelling keeps a smelling, new or corrected. Setting Uncovered resolves
// the codes of a blind one.
func (tx *Tx) SaveSmelling(x *journal.Smelling) error {
	return save(tx, smellings, x, func(next, before *journal.Smelling) error {
		f := journal.SmellingFacts{Now: tx.Now(), Before: before}
		if before != nil && before.Uncovered != nil && next.Uncovered != nil {
			next.Uncovered = before.Uncovered // the first time stands
		}
		_, err := tx.value(`SELECT count(*), min(score.at) FROM cup JOIN score ON score.cup_id = cup.id
			WHERE cup.smelling_id = ? AND cup.gone_at IS NULL AND score.gone_at IS NULL`, []any{next.ID}, &f.Scores, maybeMoment{&f.First})
		if err != nil {
			return err
		}
		return next.Validate(f)
	})
}

// SaveCup keeps a cup, new or corrected. Its smelling, its candle and its code
// stay.
func (tx *Tx) SaveCup(x *journal.Cup) error {
	return save(tx, cups, x, func(next, before *journal.Cup) error {
		if before != nil {
			next.Smelling, next.Candle, next.Code = before.Smelling, before.Candle, before.Code
		}
		return tx.fitsCup(next)
	})
}

// fitsCup holds the rules of a cup beside what else is kept.
func (tx *Tx) fitsCup(c *journal.Cup) error {
	var f journal.CupFacts
	var err error
	if f.Smelling, err = one(tx.reader, smellings, c.Smelling); err != nil {
		return orMissing(err, "smelling")
	}
	if f.Candle, err = one(tx.reader, candles, c.Candle); err != nil {
		return orMissing(err, "candle")
	}
	p, err := one(tx.reader, pours, f.Candle.Pour)
	if err != nil {
		return err
	}
	f.PouredAt, f.Gone = p.At, p.IsGone() || f.Candle.IsGone()
	if f.Others, err = all(tx.reader, cups, "WHERE smelling_id = ?", c.Smelling); err != nil {
		return err
	}
	return c.Validate(f)
}

// SaveScore keeps a score, new or corrected. Its cup and its nose stay.
func (tx *Tx) SaveScore(x *journal.Score) error {
	return save(tx, scores, x, func(next, before *journal.Score) error {
		if before != nil {
			next.Cup, next.Nose, next.Order, next.At = before.Cup, before.Nose, before.Order, before.At
		}
		next.Nose = journal.TidyNose(next.Nose)
		return tx.fitsScore(next)
	})
}

// fitsScore holds the rules of a score beside what else is kept.
func (tx *Tx) fitsScore(s *journal.Score) error {
	f := journal.ScoreFacts{Now: tx.Now()}
	var err error
	if f.Cup, err = one(tx.reader, cups, s.Cup); err != nil {
		return orMissing(err, "cup")
	}
	if f.Smelling, err = one(tx.reader, smellings, f.Cup.Smelling); err != nil {
		return err
	}
	if f.Others, err = all(tx.reader, scores, "WHERE cup_id = ? AND gone_at IS NULL", s.Cup); err != nil {
		return err
	}
	return s.Validate(f)
}

// Smelling reads one smelling.
func (s *Store) Smelling(ctx context.Context, id journal.ID) (journal.Smelling, error) {
	return find(ctx, s, smellings, id)
}

// Cup reads one cup.
func (s *Store) Cup(ctx context.Context, id journal.ID) (journal.Cup, error) {
	return find(ctx, s, cups, id)
}

// Score reads one score.
func (s *Store) Score(ctx context.Context, id journal.ID) (journal.Score, error) {
	return find(ctx, s, scores, id)
}

// SmellingLog reads everything that was recorded of a smelling, withdrawn
// records too.
func (s *Store) SmellingLog(ctx context.Context, id journal.ID) (journal.SmellingLog, error) {
	return view(ctx, s, func(r reader) (journal.SmellingLog, error) { return r.smellingLog(id) })
}

func (r reader) smellingLog(id journal.ID) (journal.SmellingLog, error) {
	var l journal.SmellingLog
	var err error
	if l.Smelling, err = one(r, smellings, id); err != nil {
		return l, err
	}
	of, err := all(r, cups, "WHERE smelling_id = ? ORDER BY code", id)
	if err != nil {
		return l, err
	}
	given, err := r.scoresOf(of, "")
	if err != nil {
		return l, err
	}
	made, err := r.madeByID(idsOf(of, func(c journal.Cup) journal.ID { return c.Candle }))
	for _, c := range of {
		l.Cups = append(l.Cups, journal.CupLog{Cup: c, Made: made[c.Candle], Scores: given[c.ID]})
	}
	return l, err
}

// scoresOf reads the scores of cups in the order in which they were saved.
func (r reader) scoresOf(of []journal.Cup, which string) (map[journal.ID][]journal.Score, error) {
	list, err := all(r, scores, "WHERE cup_id IN (SELECT value FROM json_each(?))"+which+" ORDER BY cup_id, id",
		idList(idsOf(of, func(c journal.Cup) journal.ID { return c.ID })))
	out := map[journal.ID][]journal.Score{}
	for _, s := range list {
		out[s.Cup] = append(out[s.Cup], s)
	}
	return out, err
}

// madeByID reads what candles are made of.
func (r reader) madeByID(ids []journal.ID) (map[journal.ID]journal.Made, error) {
	list, err := all(r, candles, "WHERE candle.id IN (SELECT value FROM json_each(?))", idList(ids))
	if err != nil {
		return nil, err
	}
	made, err := r.made(list)
	out := map[journal.ID]journal.Made{}
	for _, m := range made {
		out[m.Candle.ID] = m
	}
	return out, err
}

// SmelledOf reads what noses made of candles: the smellings, cups and scores
// that count, in order of time. Smellings whose codes are still covered are
// left out, so that no page can tell which code is which candle.
func (s *Store) SmelledOf(ctx context.Context, of []journal.ID) ([]journal.Smelled, error) {
	return view(ctx, s, func(r reader) ([]journal.Smelled, error) { return r.smelledOf(of) })
}

func (r reader) smelledOf(of []journal.ID) ([]journal.Smelled, error) {
	const open = "smelling.gone_at IS NULL AND (smelling.blind = 0 OR smelling.uncovered_at IS NOT NULL)"
	list, err := all(r, cups, `JOIN smelling ON smelling.id = cup.smelling_id
		WHERE cup.candle_id IN (SELECT value FROM json_each(?)) AND cup.gone_at IS NULL AND `+open+` ORDER BY smelling.at, cup.id`, idList(of))
	if err != nil {
		return nil, err
	}
	within := idsOf(list, func(c journal.Cup) journal.ID { return c.Smelling })
	when, err := byID(r, smellings, "WHERE id IN (SELECT value FROM json_each(?))", idList(within))
	if err != nil {
		return nil, err
	}
	given, err := r.scoresOf(list, counts)
	var out []journal.Smelled
	for _, c := range list {
		out = append(out, journal.Smelled{Smelling: when[c.Smelling], Cup: c, Scores: given[c.ID]})
	}
	return out, err
}

// Smellings lists smellings, the latest first, withdrawn ones too; before is
// the last of the page before, 0 for the first page. more tells whether others
// follow.
func (s *Store) Smellings(ctx context.Context, before journal.ID, limit int) (lines []journal.SmellingLine, more bool, err error) {
	lines, err = view(ctx, s, func(r reader) ([]journal.SmellingLine, error) { return r.smellingLines(before, limit+1) })
	if len(lines) > limit {
		return lines[:limit], true, err
	}
	return lines, false, err
}

func (r reader) smellingLines(before journal.ID, limit int) ([]journal.SmellingLine, error) {
	list, err := all(r, smellings, `WHERE ? = 0 OR (at, id) < (SELECT at, id FROM smelling WHERE id = ?) ORDER BY at DESC, id DESC LIMIT ?`, before, before, limit)
	if err != nil {
		return nil, err
	}
	found := map[journal.ID]journal.SmellingLine{}
	err = r.rows(func(rows *sql.Rows) error {
		var l journal.SmellingLine
		var id journal.ID
		err := rows.Scan(&id, &l.Cups, &l.Noses)
		found[id] = l
		return err
	}, `SELECT cup.smelling_id, count(DISTINCT cup.id), count(DISTINCT score.nose COLLATE NOCASE)
		FROM cup LEFT JOIN score ON score.cup_id = cup.id AND score.gone_at IS NULL
		WHERE cup.gone_at IS NULL AND cup.smelling_id IN (SELECT value FROM json_each(?)) GROUP BY 1`,
		idList(idsOf(list, func(x journal.Smelling) journal.ID { return x.ID })))
	out := make([]journal.SmellingLine, len(list))
	for i, x := range list {
		out[i] = found[x.ID]
		out[i].Smelling = x
	}
	return out, err
}

// SmellingHistory lists the changes of a smelling, its cups and its scores,
// newest first.
func (s *Store) SmellingHistory(ctx context.Context, id journal.ID) ([]journal.Change, error) {
	return view(ctx, s, func(r reader) ([]journal.Change, error) { return r.smellingHistory(id) })
}

func (r reader) smellingHistory(id journal.ID) ([]journal.Change, error) {
	ofCups := "IN (SELECT id FROM cup WHERE smelling_id = ?)"
	ofScores := "IN (SELECT score.id FROM cup CROSS JOIN score ON score.cup_id = cup.id WHERE cup.smelling_id = ?)"
	return r.newestFirst(changes+"= ? UNION ALL "+changes+ofCups+" UNION ALL "+changes+ofScores,
		journal.NounSmelling, id, journal.NounCup, id, journal.NounScore, id)
}
