package sqlite

import (
	"fmt"
	"time"

	"rimward/internal/journal"
)

// brokenMaking reads what was written before a candle is lit beside its
// neighbours: set checks, casts, rounds, and pour sheets. What was withdrawn
// keeps no rules.
func (r reader) brokenMaking(logs []journal.CandleLog, far time.Time) []string {
	var out []string
	for _, l := range logs {
		out = append(out, brokenLooks(l, far)...)
	}
	for _, find := range []func(time.Time) ([]string, error){r.brokenCasts, r.brokenRounds, r.brokenSeats, r.brokenSheets} {
		found, err := find(far)
		out = append(append(out, found...), sentence(err)...)
	}
	return out
}

// brokenLooks holds the rules of one candle's set checks.
func brokenLooks(l journal.CandleLog, far time.Time) []string {
	f := journal.SetCheckFacts{Now: far, Candle: l.Candle, PouredAt: l.Pour.At}
	for _, b := range l.Burns {
		if f.FirstLit == nil || b.Burn.LitAt.Before(*f.FirstLit) {
			f.FirstLit = &b.Burn.LitAt
		}
	}
	var out []string
	for _, x := range l.SetChecks {
		if err := x.Validate(f); err != nil {
			out = append(out, fmt.Sprintf("A set check of candle %s: %s", l.Candle.Code(), err))
		}
	}
	return out
}

func (r reader) brokenCasts(far time.Time) ([]string, error) {
	lines, err := r.castLines(all(r, casts, "WHERE gone_at IS NULL ORDER BY id"))
	var out []string
	for _, l := range lines {
		if err := l.Cast.Validate(journal.CastFacts{Now: far, Pour: l.Pour, Mould: l.Mould}); err != nil {
			out = append(out, fmt.Sprintf("A cast of pour %d: %s", l.Pour.Number, err))
		}
	}
	return out, err
}

// brokenRounds looks into the texts that rounds are kept as, where no foreign
// key looks.
func (r reader) brokenRounds(time.Time) ([]string, error) {
	list, err := all(r, rounds, "WHERE gone_at IS NULL ORDER BY id")
	var out []string
	for _, x := range list {
		err := x.Validate(journal.RoundRecord{})
		if err == nil {
			err = r.onShelf(&x)
		}
		if err != nil {
			out = append(out, fmt.Sprintf("Round %d: %s", x.ID, err))
		}
	}
	return out, err
}

// brokenSeats finds candles that stand at no place of their round, or at one
// that another has.
func (r reader) brokenSeats(time.Time) ([]string, error) {
	list, err := all(r, candles, `JOIN pour ON pour.id = candle.pour_id
		WHERE round_id IS NOT NULL AND candle.gone_at IS NULL AND pour.gone_at IS NULL ORDER BY candle.id`)
	if err != nil {
		return nil, err
	}
	places := map[journal.ID]int{}
	roundOf, err := byID(r, rounds, "")
	for id, x := range roundOf {
		places[id] = len(x.Places)
	}
	type seat struct {
		round journal.ID
		place int
	}
	var out []string
	taken := map[seat]string{}
	for _, c := range list {
		at := seat{*c.Round, c.RoundPlace}
		switch other := taken[at]; {
		case other != "":
			out = append(out, fmt.Sprintf("Candle %s has place %d of round %d, and so has candle %s.", c.Code(), at.place, at.round, other))
		case at.place > places[at.round]:
			out = append(out, fmt.Sprintf("Candle %s has place %d of round %d, which has %d.", c.Code(), at.place, at.round, places[at.round]))
		}
		taken[at] = c.Code()
	}
	return out, err
}

// brokenSheets looks into the texts that pour sheets are kept as.
func (r reader) brokenSheets(time.Time) ([]string, error) {
	list, err := all(r, pourSheets, "WHERE gone_at IS NULL ORDER BY id")
	var out []string
	for _, x := range list {
		err := x.Validate(journal.SheetFacts{})
		if err == nil {
			err = r.sheetLinesKnown(&x)
		}
		if err != nil {
			out = append(out, fmt.Sprintf("Pour sheet %d: %s", x.ID, err))
		}
	}
	return out, err
}
