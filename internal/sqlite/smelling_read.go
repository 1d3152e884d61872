package sqlite

import (
	"context"
	"database/sql"

	"rimward/internal/journal"
)

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
