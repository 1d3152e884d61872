package sqlite

import (
	"context"
	"fmt"

	"rimward/internal/journal"
)

// made reads what candles are made of, in one query for each kind of thing.
func (r reader) made(list []journal.Candle) ([]journal.Made, error) {
	out := make([]journal.Made, len(list))
	p, err := byID(r, pours, "WHERE pour.id IN (SELECT value FROM json_each(?))", idList(idsOf(list, func(c journal.Candle) journal.ID { return c.Pour })))
	if err != nil {
		return nil, err
	}
	w, err := byID(r, wicks, "WHERE wick.id IN (SELECT value FROM json_each(?))", idList(idsOf(list, func(c journal.Candle) journal.ID { return c.Wick })))
	if err != nil {
		return nil, err
	}
	v, err := byID(r, vessels, "WHERE vessel.id IN (SELECT value FROM json_each(?))", idList(idsOf(list, func(c journal.Candle) journal.ID { return c.Vessel })))
	if err != nil {
		return nil, err
	}
	x, err := byID(r, waxes, "")
	if err != nil {
		return nil, err
	}
	f, err := byID(r, fragrances, "")
	if err != nil {
		return nil, err
	}
	l, err := byID(r, ladders, "")
	if err != nil {
		return nil, err
	}
	for i, c := range list {
		of := p[c.Pour]
		out[i] = journal.Made{Candle: c, Pour: of, Wax: x[of.Wax], Vessel: v[c.Vessel], Wick: w[c.Wick], Ladder: l[w[c.Wick].Ladder]}
		if of.Fragrance != nil {
			oil := f[*of.Fragrance]
			out[i].Fragrance = &oil
		}
	}
	return out, nil
}

// idsOf lists one ID of each record, each once.
func idsOf[T any](list []T, id func(T) journal.ID) []journal.ID {
	seen := map[journal.ID]bool{}
	var out []journal.ID
	for _, x := range list {
		if !seen[id(x)] {
			seen[id(x)] = true
			out = append(out, id(x))
		}
	}
	return out
}

// logs reads candles with the burns, the checks of those, and the set checks
// that the conditions pick.
func (r reader) logs(list []journal.Candle, whichBurns, whichChecks, whichSet string) ([]journal.CandleLog, error) {
	out, err := r.unlit(list, whichSet)
	if err != nil {
		return nil, err
	}
	of, err := all(r, burns, "WHERE candle_id IN (SELECT value FROM json_each(?))"+whichBurns+" ORDER BY candle_id, number",
		idList(idsOf(list, func(c journal.Candle) journal.ID { return c.ID })))
	if err != nil {
		return nil, err
	}
	seen, err := r.checksOf(of, whichChecks)
	if err != nil {
		return nil, err
	}
	byCandle := map[journal.ID][]journal.BurnLog{}
	for _, b := range of {
		byCandle[b.Candle] = append(byCandle[b.Candle], journal.BurnLog{Burn: b, Checks: seen[b.ID]})
	}
	for i := range out {
		out[i].Burns = byCandle[out[i].Candle.ID]
	}
	return out, nil
}

// checksOf reads the checks of burns, in order of time.
func (r reader) checksOf(of []journal.Burn, which string) (map[journal.ID][]journal.Check, error) {
	list, err := all(r, checks, "WHERE burn_id IN (SELECT value FROM json_each(?))"+which+" ORDER BY burn_id, at, id",
		idList(idsOf(of, func(b journal.Burn) journal.ID { return b.ID })))
	out := map[journal.ID][]journal.Check{}
	for _, c := range list {
		out[c.Burn] = append(out[c.Burn], c)
	}
	return out, err
}

// CandleLog reads everything that was recorded of a candle, withdrawn records
// too.
func (s *Store) CandleLog(ctx context.Context, id journal.ID) (journal.CandleLog, error) {
	return view(ctx, s, func(r reader) (journal.CandleLog, error) { return r.candleLog(id) })
}

func (r reader) candleLog(id journal.ID) (journal.CandleLog, error) {
	c, err := one(r, candles, id)
	if err != nil {
		return journal.CandleLog{}, err
	}
	list, err := r.logs([]journal.Candle{c}, "", "", "")
	if err != nil {
		return journal.CandleLog{}, fmt.Errorf("read candle %d: %w", id, err)
	}
	return list[0], nil
}

// LitLogs reads the candles that are lit now, each with the burn that is open
// and its checks; earlier burns are left out.
func (s *Store) LitLogs(ctx context.Context) ([]journal.CandleLog, error) {
	return view(ctx, s, reader.litLogs)
}

func (r reader) litLogs() ([]journal.CandleLog, error) {
	list, err := all(r, candles, `JOIN pour AS p ON p.id = candle.pour_id
		WHERE candle.id IN (SELECT candle_id FROM burn INDEXED BY burn_open WHERE out_at IS NULL AND gone_at IS NULL)
		ORDER BY p.number, length(candle.letter), candle.letter`)
	if err != nil {
		return nil, err
	}
	return r.logs(list, " AND out_at IS NULL AND gone_at IS NULL", "", "")
}

const counts = " AND gone_at IS NULL"

// Logs reads the candles that count and were burned, with the burns and checks
// that count, for standings.
func (s *Store) Logs(ctx context.Context) ([]journal.CandleLog, error) {
	return view(ctx, s, func(r reader) ([]journal.CandleLog, error) { return r.logsThatCount("") })
}

// LogsOf is Logs for some candles alone.
func (s *Store) LogsOf(ctx context.Context, only []journal.ID) ([]journal.CandleLog, error) {
	return view(ctx, s, func(r reader) ([]journal.CandleLog, error) { return r.logsOf(only) })
}

func (r reader) logsOf(only []journal.ID) ([]journal.CandleLog, error) {
	return r.logsThatCount(" AND candle.id IN (SELECT value FROM json_each(?))", idList(only))
}

func (r reader) logsThatCount(and string, args ...any) ([]journal.CandleLog, error) {
	list, err := all(r, candles, `JOIN pour AS p ON p.id = candle.pour_id
		WHERE candle.gone_at IS NULL AND p.gone_at IS NULL
		AND EXISTS (SELECT 1 FROM burn WHERE burn.candle_id = candle.id AND burn.gone_at IS NULL)`+and+`
		ORDER BY p.number, length(candle.letter), candle.letter`, args...)
	if err != nil {
		return nil, err
	}
	return r.logs(list, counts, counts, counts)
}
