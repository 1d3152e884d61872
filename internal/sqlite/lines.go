package sqlite

import (
	"context"
	"database/sql"
	"time"

	"rimward/internal/journal"
)

// lines adds to candles what a list shows of them.
func (r reader) lines(list []journal.Candle, err error) ([]journal.CandleLine, error) {
	if err != nil {
		return nil, err
	}
	made, err := r.made(list)
	if err != nil {
		return nil, err
	}
	lives, err := r.lives(list)
	if err != nil {
		return nil, err
	}
	seen, err := r.setSeen(list)
	if err != nil {
		return nil, err
	}
	out := make([]journal.CandleLine, len(list))
	for i, m := range made {
		l := lives[m.Candle.ID]
		l.life.Gone = m.Candle.IsGone() || m.Pour.IsGone()
		l.life.PouredAt, l.life.CureDays, l.life.SetSeen = m.Pour.At, m.Wax.Cure(), seen[m.Candle.ID]
		out[i] = journal.CandleLine{Candle: m.Candle, WaxName: m.Wax.Name, VesselName: m.Vessel.Name, WickName: m.WickName(),
			Life: l.life, LitHours: l.hours, LastLit: l.lit}
	}
	return out, nil
}

// life is what the burns of one candle come to.
type life struct {
	life  journal.Life
	hours float64
	lit   *time.Time
}

// lives sums up the burns of candles in one query.
func (r reader) lives(list []journal.Candle) (map[journal.ID]life, error) {
	out := map[journal.ID]life{}
	err := r.rows(func(rows *sql.Rows) error {
		var id journal.ID
		var l life
		err := rows.Scan(&id, &l.life.Burns, &l.life.Lit, &l.life.Spent, maybeMoment{&l.life.LastOut}, maybeMoment{&l.lit}, &l.hours)
		out[id] = l
		return err
	}, `SELECT candle_id, count(*), max(out_at IS NULL), max(ending = 'spent'), max(out_at), max(lit_at),
			coalesce(sum((julianday(out_at) - julianday(lit_at)) * 24), 0)
		FROM burn WHERE gone_at IS NULL AND candle_id IN (SELECT value FROM json_each(?)) GROUP BY candle_id`,
		idList(idsOf(list, func(c journal.Candle) journal.ID { return c.ID })))
	return out, err
}

// setSeen is when candles had their last set check that counts; those without
// one are left out.
func (r reader) setSeen(list []journal.Candle) (map[journal.ID]*time.Time, error) {
	out := map[journal.ID]*time.Time{}
	err := r.rows(func(rows *sql.Rows) error {
		var id journal.ID
		var at *time.Time
		err := rows.Scan(&id, maybeMoment{&at})
		out[id] = at
		return err
	}, `SELECT candle_id, max(at) FROM set_check WHERE gone_at IS NULL AND candle_id IN (SELECT value FROM json_each(?)) GROUP BY candle_id`,
		idList(idsOf(list, func(c journal.Candle) journal.ID { return c.ID })))
	return out, err
}

// Candles lists candles, the newest first; more tells whether others follow.
func (s *Store) Candles(ctx context.Context, f journal.CandleFilter) (lines []journal.CandleLine, more bool, err error) {
	if f.Limit <= 0 {
		f.Limit = 50
	}
	lines, err = view(ctx, s, func(r reader) ([]journal.CandleLine, error) {
		return r.candleLines(f)
	})
	if len(lines) > f.Limit {
		return lines[:f.Limit], true, err
	}
	return lines, false, err
}

// candleLines reads one candle more than asked for, if there is one.
func (r reader) candleLines(f journal.CandleFilter) ([]journal.CandleLine, error) {
	where, args := candleConditions(f)
	return r.lines(all(r, candles, where+" ORDER BY candle.id DESC LIMIT ?", append(args, f.Limit+1)...))
}

func candleConditions(f journal.CandleFilter) (string, []any) {
	where := "WHERE 1"
	var args []any
	add := func(id journal.ID, condition string) {
		if id != 0 {
			where += " AND " + condition
			args = append(args, id)
		}
	}
	add(f.Before, "candle.id < ?")
	add(f.Vessel, "candle.vessel_id = ?")
	add(f.Wick, "candle.wick_id = ?")
	add(f.Pour, "candle.pour_id = ?")
	add(f.Ladder, "candle.wick_id IN (SELECT id FROM wick WHERE ladder_id = ?)")
	add(f.Wax, "candle.pour_id IN (SELECT id FROM pour WHERE wax_id = ?)")
	if !f.Withdrawn {
		where += " AND candle.gone_at IS NULL AND candle.pour_id IN (SELECT id FROM pour WHERE gone_at IS NULL)"
	}
	return where, args
}

// PourCandles lists the candles of a pour in the order of their letters,
// withdrawn ones too.
func (s *Store) PourCandles(ctx context.Context, pour journal.ID) ([]journal.CandleLine, error) {
	return view(ctx, s, func(r reader) ([]journal.CandleLine, error) {
		return r.lines(all(r, candles, "WHERE pour_id = ? ORDER BY length(letter), letter", pour))
	})
}

// Waiting lists candles that wait for the next match: not withdrawn, not
// spent, not lit. The one that something happened to last comes first.
func (s *Store) Waiting(ctx context.Context, limit int) ([]journal.CandleLine, error) {
	return view(ctx, s, func(r reader) ([]journal.CandleLine, error) { return r.waiting(limit) })
}

func (r reader) waiting(limit int) ([]journal.CandleLine, error) {
	return r.lines(all(r, candles, `JOIN pour AS p ON p.id = candle.pour_id
			WHERE candle.gone_at IS NULL AND p.gone_at IS NULL
			AND NOT EXISTS (SELECT 1 FROM burn WHERE burn.candle_id = candle.id AND ending = 'spent' AND gone_at IS NULL)
			AND NOT EXISTS (SELECT 1 FROM burn WHERE burn.candle_id = candle.id AND out_at IS NULL AND gone_at IS NULL)
			ORDER BY coalesce((SELECT max(out_at) FROM burn WHERE burn.candle_id = candle.id AND gone_at IS NULL), p.at) DESC, candle.id DESC
			LIMIT ?`, limit))
}
