package demo

import "rimward/internal/journal"

// SettingWriter is what the season's set checks need of a journal's open
// transaction.
type SettingWriter interface {
	SaveSetCheck(*journal.SetCheck) error
}

// set saves a set check under the journal's own IDs.
func (c *copying) set(w Writer, r journal.SetCheck) error {
	r.Candle = c.id(journal.NounCandle, r.Candle)
	return save(c, journal.NounSetCheck, &r, &r.Meta, w.SaveSetCheck)
}
