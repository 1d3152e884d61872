package demo

import (
	"fmt"

	"rimward/internal/journal"
)

// CastWriter is what the season's moulds and casts need of a journal's open
// transaction.
type CastWriter interface {
	SaveMould(*journal.Mould) error
	SaveCast(*journal.Cast) error
}

// cast saves a mould or what came out of it.
func (c *copying) cast(w Writer, record any) error {
	switch r := record.(type) {
	case journal.Mould:
		return save(c, journal.NounMould, &r, &r.Meta, w.SaveMould)
	case journal.Cast:
		r.Pour, r.Mould = c.id(journal.NounPour, r.Pour), c.id(journal.NounMould, r.Mould)
		return save(c, journal.NounCast, &r, &r.Meta, w.SaveCast)
	}
	return fmt.Errorf("a season does not hold a %T", record)
}
