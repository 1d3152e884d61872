package sqlite

import (
	"context"

	"rimward/internal/journal"
)

var wicks = kind[journal.Wick]{
	noun: journal.NounWick, table: "wick",
	meta: func(x *journal.Wick) *journal.Meta { return &x.Meta },
	own: func(x *journal.Wick) []field {
		return []field{
			{name: "ladder_id", at: &x.Ladder, ref: "ladder"}, {name: "rung", at: &x.Rung}, {name: "label", at: &x.Label},
			{name: "width", at: &x.Width}, {name: "threads", at: &x.Threads},
			{name: "price", at: &x.Price}, {name: "on_hand", at: &x.OnHand}, {name: "counted_at", at: maybeMoment{&x.CountedAt}}, {name: "note", at: &x.Note},
		}
	},
	taken: journal.Problem{Field: "rung", Text: "Another wick stands on this rung."},
}

// SaveWick keeps a wick, new or corrected. A new one goes to its rung, and
// those at and above it move up by one; rung 0 is the top of the ladder. A
// correction leaves the rung as it is: MoveWick changes it.
func (tx *Tx) SaveWick(x *journal.Wick) error {
	return save(tx, wicks, x, func(next, before *journal.Wick) error {
		next.Stock = next.Counted(stockOf(before, func(w *journal.Wick) *journal.Stock[int] { return &w.Stock }), tx.Now())
		if before != nil {
			next.Ladder, next.Rung = before.Ladder, before.Rung
			return next.Validate()
		}
		if _, err := one(tx.reader, ladders, next.Ladder); err != nil {
			return orMissing(err, "ladder")
		}
		on, err := tx.rungs(next.Ladder)
		if err != nil {
			return err
		}
		if next.Rung == 0 || next.Rung > len(on)+1 {
			next.Rung = len(on) + 1
		}
		if err := next.Validate(); err != nil {
			return err
		}
		return tx.shift(on, next.Rung, len(on)+1, 1)
	})
}

// rungs are the wicks of a ladder from the bottom up.
func (r reader) rungs(ladder journal.ID) ([]journal.Wick, error) {
	return all(r, wicks, "WHERE ladder_id = ? ORDER BY rung", ladder)
}

// MoveWick puts a wick on another rung of its ladder; those between move by
// one. A rung beyond the ends is the nearest end.
func (tx *Tx) MoveWick(id journal.ID, rung int) error {
	w, err := one(tx.reader, wicks, id)
	if err != nil {
		return err
	}
	on, err := tx.rungs(w.Ladder)
	if err != nil {
		return err
	}
	rung = min(max(rung, 1), len(on))
	if rung == w.Rung {
		return nil
	}
	// The wick steps aside, so that no two stand on one rung at any moment.
	if err := tx.exec("UPDATE wick SET rung = ? WHERE id = ?", len(on)+1000, id); err != nil {
		return err
	}
	if rung > w.Rung {
		err = tx.shift(on, w.Rung+1, rung, -1)
	} else {
		err = tx.shift(on, rung, w.Rung-1, 1)
	}
	if err != nil {
		return err
	}
	return tx.toRung(w, rung)
}

// shift moves the wicks on the rungs from low to high by one, beginning at the
// end that has room.
func (tx *Tx) shift(on []journal.Wick, low, high, by int) error {
	for i := range on {
		w := on[i]
		if by > 0 {
			w = on[len(on)-1-i]
		}
		if w.Rung < low || w.Rung > high {
			continue
		}
		if err := tx.toRung(w, w.Rung+by); err != nil {
			return err
		}
	}
	return nil
}

// toRung writes one wick's new rung, with its line in the history.
func (tx *Tx) toRung(w journal.Wick, rung int) error {
	next := w
	next.Rung = rung
	return update(tx, wicks, journal.Corrected, &next, &w)
}

// Wick reads one wick.
func (s *Store) Wick(ctx context.Context, id journal.ID) (journal.Wick, error) {
	return find(ctx, s, wicks, id)
}

// WicksOf lists the wicks of a ladder from the bottom up, retired ones too.
func (s *Store) WicksOf(ctx context.Context, ladder journal.ID) ([]journal.Wick, error) {
	return view(ctx, s, func(r reader) ([]journal.Wick, error) { return r.rungs(ladder) })
}

// Wicks lists all wicks by the name of their ladder and their rung, retired
// ones too.
func (s *Store) Wicks(ctx context.Context) ([]journal.Wick, error) {
	return list(ctx, s, wicks, "JOIN ladder ON ladder.id = wick.ladder_id ORDER BY ladder.name COLLATE NOCASE, ladder.id, wick.rung")
}
