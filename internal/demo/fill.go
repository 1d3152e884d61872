package demo

import (
	"fmt"
	"time"

	"rimward/internal/journal"
)

// Writer is what a season needs of a journal's open transaction.
type Writer interface {
	SaveSettings(*journal.Settings) error
	SaveWax(*journal.Wax) error
	SaveFragrance(*journal.Fragrance) error
	SaveVessel(*journal.Vessel) error
	SaveLadder(*journal.Ladder) error
	SaveWick(*journal.Wick) error
	SavePour(*journal.Pour) error
	SaveRound(*journal.TestRound) error
	SaveCandle(*journal.Candle) error
	NewSitting() (journal.ID, error)
	SaveBurn(*journal.Burn) error
	SaveCheck(*journal.Check) error
	SaveSmelling(*journal.Smelling) error
	SaveCup(*journal.Cup) error
	SaveScore(*journal.Score) error
	SavePhoto(*journal.Photo) error
	CastWriter
	SettingWriter
	Withdraw(noun journal.Noun, id journal.ID, why string) error
}

// Keep draws and keeps the picture of a photo, and calls then, which writes it
// into the journal, with the SHA-256 of what was kept and its size in pixels.
type Keep func(p Photo, then func(hash string, width, height int) error) error

// Fill writes the season into an empty journal. in runs a function in one
// transaction. clock is told the moment of each event before it is written; the
// journal must ask its clock at every write, not once a transaction. Photos and
// verdicts are left out.
func (s Season) Fill(in func(do func(Writer) error) error, clock func(time.Time)) error {
	return s.FillWith(in, clock, nil, nil)
}

// FillWith is Fill with the photos, each kept at its moment, and the verdicts:
// judge is handed each, under the journal's own IDs and without figures,
// between transactions. It works the figures out from what is in the journal
// by then, and saves it. Whatever is nil leaves its kind out.
func (s Season) FillWith(in func(do func(Writer) error) error, clock func(time.Time), keep Keep, judge func(journal.Verdict) error) error {
	c := copying{known: map[key]journal.Meta{}, clock: clock, keep: keep}
	for at := 0; at < len(s.Events); {
		if v, is := s.Events[at].Record.(journal.Verdict); is {
			if err := c.judged(s.Events[at].At, v, judge); err != nil {
				return err
			}
			at++
			continue
		}
		end := s.batchEnd(at)
		batch := s.Events[at:end]
		if err := in(func(w Writer) error { return c.all(w, batch) }); err != nil {
			return fmt.Errorf("fill season: %w", err)
		}
		at = end
	}
	return nil
}

// judged hands a verdict of the season on.
func (c *copying) judged(at time.Time, v journal.Verdict, judge func(journal.Verdict) error) error {
	if judge == nil {
		return nil
	}
	c.clock(at)
	if err := judge(c.verdict(v)); err != nil {
		return fmt.Errorf("judge season: %w", err)
	}
	return nil
}

// batchEnd is where the transaction ends that begins at an event: before the
// next verdict, and before what lies too far away.
func (s Season) batchEnd(at int) int {
	end := at + 1
	for end < len(s.Events) && s.Events[end].At.Sub(s.Events[at].At) <= s.Together {
		if _, is := s.Events[end].Record.(journal.Verdict); is {
			return end
		}
		end++
	}
	return end
}

// verdict is a verdict of the season under the journal's own IDs.
func (c *copying) verdict(v journal.Verdict) journal.Verdict {
	v.Vessel, v.Wick, v.Wax = c.id(journal.NounVessel, v.Vessel), c.id(journal.NounWick, v.Wick), c.id(journal.NounWax, v.Wax)
	if v.Fragrance != nil {
		v.Fragrance = p(c.id(journal.NounFragrance, *v.Fragrance))
	}
	return v
}

// copying remembers what the journal called each record of the season.
type copying struct {
	known map[key]journal.Meta
	clock func(time.Time)
	keep  Keep
	now   time.Time
}

// nounSitting stands beside the journal's nouns; a sitting has no history.
const nounSitting journal.Noun = "sitting"

func (c *copying) all(w Writer, batch []Event) error {
	for _, e := range batch {
		c.now = e.At
		c.clock(e.At)
		if err := c.one(w, e.Record); err != nil {
			return fmt.Errorf("write %T of %s: %w", e.Record, e.At.Format(time.RFC3339), err)
		}
	}
	return nil
}

// one saves a record under the journal's own IDs.
func (c *copying) one(w Writer, record any) error {
	switch r := record.(type) {
	case journal.Settings:
		return w.SaveSettings(&r)
	case Sitting:
		id, err := w.NewSitting()
		c.known[key{nounSitting, r.ID}] = journal.Meta{ID: id}
		return err
	case Withdrawal:
		return w.Withdraw(r.Noun, c.id(r.Noun, r.ID), r.Why)
	case Photo:
		return c.photo(w, r)
	case journal.SetCheck:
		return c.set(w, r)
	case journal.Burn:
		r.Candle = c.id(journal.NounCandle, r.Candle)
		r.Sitting = p(c.id(nounSitting, *r.Sitting))
		return save(c, journal.NounBurn, &r, &r.Meta, w.SaveBurn)
	case journal.Check:
		r.Burn = c.id(journal.NounBurn, r.Burn)
		return save(c, journal.NounCheck, &r, &r.Meta, w.SaveCheck)
	case journal.TestRound:
		r = c.round(r)
		return save(c, journal.NounRound, &r, &r.Meta, w.SaveRound)
	case journal.Candle:
		r.Pour, r.Vessel, r.Wick = c.id(journal.NounPour, r.Pour), c.id(journal.NounVessel, r.Vessel), c.id(journal.NounWick, r.Wick)
		if r.Round != nil {
			r.Round = p(c.id(journal.NounRound, *r.Round))
		}
		return save(c, journal.NounCandle, &r, &r.Meta, w.SaveCandle)
	case journal.Pour:
		r.Wax, r.Fragrance = c.id(journal.NounWax, r.Wax), p(c.id(journal.NounFragrance, *r.Fragrance))
		return save(c, journal.NounPour, &r, &r.Meta, w.SavePour)
	}
	return c.smelled(w, record)
}

// smelled saves what noses did.
func (c *copying) smelled(w Writer, record any) error {
	switch r := record.(type) {
	case journal.Smelling:
		return save(c, journal.NounSmelling, &r, &r.Meta, w.SaveSmelling)
	case journal.Cup:
		r.Smelling, r.Candle = c.id(journal.NounSmelling, r.Smelling), c.id(journal.NounCandle, r.Candle)
		return save(c, journal.NounCup, &r, &r.Meta, w.SaveCup)
	case journal.Score:
		r.Cup = c.id(journal.NounCup, r.Cup)
		return save(c, journal.NounScore, &r, &r.Meta, w.SaveScore)
	}
	return c.shelf(w, record)
}

// drawnNote is said of every photo of the season.
const drawnNote = "Drawn for the demo from what was written down. No real candle was photographed."

// photo attaches a picture, if pictures are kept.
func (c *copying) photo(w Writer, p Photo) error {
	if c.keep == nil {
		return nil
	}
	return c.keep(p, func(hash string, width, height int) error {
		return w.SavePhoto(&journal.Photo{
			Of: p.Of, OfID: c.id(p.Of, p.OfID), Hash: hash, Width: width, Height: height, At: c.now, Note: drawnNote,
		})
	})
}

// shelf saves a record that refers to nothing but the shelf.
func (c *copying) shelf(w Writer, record any) error {
	switch r := record.(type) {
	case journal.Wax:
		return save(c, journal.NounWax, &r, &r.Meta, w.SaveWax)
	case journal.Fragrance:
		return save(c, journal.NounFragrance, &r, &r.Meta, w.SaveFragrance)
	case journal.Vessel:
		return save(c, journal.NounVessel, &r, &r.Meta, w.SaveVessel)
	case journal.Ladder:
		return save(c, journal.NounLadder, &r, &r.Meta, w.SaveLadder)
	case journal.Wick:
		r.Ladder = c.id(journal.NounLadder, r.Ladder)
		return save(c, journal.NounWick, &r, &r.Meta, w.SaveWick)
	}
	return c.cast(w, record)
}

func (c *copying) id(n journal.Noun, of journal.ID) journal.ID { return c.known[key{n, of}].ID }

// save writes a record, a known one as a correction of its last version.
func save[T any](c *copying, n journal.Noun, record *T, m *journal.Meta, write func(*T) error) error {
	k := key{n, m.ID}
	*m = c.known[k]
	if err := write(record); err != nil {
		return err
	}
	c.known[k] = *m
	return nil
}
