package demo_test

import (
	"fmt"
	"testing"
	"time"

	"rimward/internal/demo"
	"rimward/internal/journal"
)

// ledger is a journal in memory that holds every rule of the nouns. It keeps
// records by its own IDs, which differ from those of the season.
type ledger struct {
	t         testing.TB
	now       time.Time
	settings  journal.Settings
	waxes     map[journal.ID]journal.Wax
	oils      map[journal.ID]journal.Fragrance
	vessels   map[journal.ID]journal.Vessel
	ladders   map[journal.ID]journal.Ladder
	wicks     map[journal.ID]journal.Wick
	pours     map[journal.ID]journal.Pour
	candles   map[journal.ID]journal.Candle
	burns     map[journal.ID]journal.Burn
	checks    map[journal.ID]journal.Check
	smellings map[journal.ID]journal.Smelling
	cups      map[journal.ID]journal.Cup
	scores    map[journal.ID]journal.Score
	rounds    map[journal.ID]journal.TestRound
	photos    map[journal.ID]journal.Photo
	drawn     map[string]demo.Photo // by the hash of the photo
	byCandle  map[journal.ID][]journal.ID
	byBurn    map[journal.ID][]journal.ID
	sets      map[journal.ID]journal.SetCheck
	last      journal.ID
	corrected map[journal.Noun]int
	withdrawn []journal.ID
	breaks    int
	casts     casts
}

func fill(t testing.TB, s demo.Season) *ledger {
	t.Helper()
	l := &ledger{
		t: t, last: 1000, corrected: map[journal.Noun]int{},
		waxes: map[journal.ID]journal.Wax{}, oils: map[journal.ID]journal.Fragrance{}, vessels: map[journal.ID]journal.Vessel{},
		ladders: map[journal.ID]journal.Ladder{}, wicks: map[journal.ID]journal.Wick{}, pours: map[journal.ID]journal.Pour{},
		candles: map[journal.ID]journal.Candle{}, burns: map[journal.ID]journal.Burn{}, checks: map[journal.ID]journal.Check{},
		smellings: map[journal.ID]journal.Smelling{}, cups: map[journal.ID]journal.Cup{}, scores: map[journal.ID]journal.Score{},
		sets: map[journal.ID]journal.SetCheck{}, photos: map[journal.ID]journal.Photo{}, drawn: map[string]demo.Photo{},
		byCandle: map[journal.ID][]journal.ID{}, byBurn: map[journal.ID][]journal.ID{},
	}
	in := func(do func(demo.Writer) error) error { l.breaks++; return do(l) }
	err := s.FillWith(in, func(at time.Time) { l.now = at }, l.keep, nil)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// put numbers a new record, or counts the correction of one that is known.
func put[T any](l *ledger, n journal.Noun, kept map[journal.ID]T, r *T, m *journal.Meta, broken error) error {
	if broken != nil {
		return broken
	}
	if m.ID == 0 {
		l.last++
		m.ID, m.Created = l.last, l.now
	} else if _, ok := kept[m.ID]; !ok {
		return journal.ErrNotFound
	} else {
		l.corrected[n]++
	}
	m.Version++
	kept[m.ID] = *r
	return nil
}

func (l *ledger) SaveSettings(s *journal.Settings) error { l.settings = *s; return nil }
func (l *ledger) SaveWax(w *journal.Wax) error {
	return put(l, journal.NounWax, l.waxes, w, &w.Meta, w.Validate())
}
func (l *ledger) SaveFragrance(f *journal.Fragrance) error {
	return put(l, journal.NounFragrance, l.oils, f, &f.Meta, f.Validate())
}
func (l *ledger) SaveVessel(v *journal.Vessel) error {
	return put(l, journal.NounVessel, l.vessels, v, &v.Meta, v.Validate())
}
func (l *ledger) SaveLadder(v *journal.Ladder) error {
	return put(l, journal.NounLadder, l.ladders, v, &v.Meta, v.Validate())
}
func (l *ledger) SaveWick(w *journal.Wick) error {
	return put(l, journal.NounWick, l.wicks, w, &w.Meta, w.Validate())
}
func (l *ledger) SavePour(p *journal.Pour) error {
	return put(l, journal.NounPour, l.pours, p, &p.Meta, p.Validate(l.now))
}
func (l *ledger) SaveCandle(c *journal.Candle) error {
	return put(l, journal.NounCandle, l.candles, c, &c.Meta, c.Validate())
}
func (l *ledger) NewSitting() (journal.ID, error) { l.last++; return l.last, nil }

func (l *ledger) SaveBurn(b *journal.Burn) error {
	f := journal.BurnFacts{Now: l.now, Candle: l.candles[b.Candle], Checks: l.checksOf(b.ID)}
	log := l.log(l.candles[b.Candle])
	f.Life = log.Life()
	for _, o := range log.Burns {
		if o.Burn.ID != b.ID {
			f.Others = append(f.Others, o.Burn)
		}
	}
	for _, d := range journal.DoubtsOfBurn(*b, f.Candle.Wicks, f) {
		l.t.Errorf("burn %d of %s is doubted: %s", b.Number, f.Candle.Code(), d.Text)
	}
	known := b.ID != 0
	err := put(l, journal.NounBurn, l.burns, b, &b.Meta, b.Validate(f))
	if !known && err == nil {
		l.byCandle[b.Candle] = append(l.byCandle[b.Candle], b.ID)
	}
	return err
}

func (l *ledger) SaveCheck(c *journal.Check) error {
	candle := l.candles[l.burns[c.Burn].Candle]
	f := journal.CheckFacts{
		Now: l.now, Burn: l.burns[c.Burn], Vessel: l.vessels[candle.Vessel],
		Wicks: candle.Wicks, Ruler: l.settings.Ruler, Others: l.checksOf(c.Burn),
	}
	known := c.ID != 0
	err := put(l, journal.NounCheck, l.checks, c, &c.Meta, c.Validate(f))
	if !known && err == nil {
		l.byBurn[c.Burn] = append(l.byBurn[c.Burn], c.ID)
	}
	return err
}

func (l *ledger) SaveSetCheck(c *journal.SetCheck) error {
	f := journal.SetCheckFacts{Now: l.now, Candle: l.candles[c.Candle], PouredAt: l.pours[l.candles[c.Candle].Pour].At}
	for _, b := range l.log(l.candles[c.Candle]).Burns {
		f.FirstLit = &b.Burn.LitAt
	}
	return put(l, journal.NounSetCheck, l.sets, c, &c.Meta, c.Validate(f))
}

// keep makes a hash up: the ledger has no pictures.
func (l *ledger) keep(p demo.Photo, then func(hash string, width, height int) error) error {
	hash := fmt.Sprintf("%064x", p.ID)
	l.drawn[hash] = p
	return then(hash, p.Scene.Wide, p.Scene.High)
}

func (l *ledger) SavePhoto(p *journal.Photo) error {
	var f journal.PhotoFacts
	there := false
	switch p.Of {
	case journal.NounSetCheck:
		_, there = l.sets[p.OfID]
	case journal.NounCheck:
		_, there = l.checks[p.OfID]
		f.Gone = there && l.checks[p.OfID].Gone != nil
	}
	if !there {
		return journal.ErrNotFound
	}
	return put(l, journal.NounPhoto, l.photos, p, &p.Meta, p.Validate(f))
}

func (l *ledger) Withdraw(n journal.Noun, id journal.ID, why string) error {
	c, ok := l.checks[id]
	if n != journal.NounCheck || !ok || why == "" {
		return journal.ErrNotFound
	}
	c.Gone, c.GoneWhy = &l.now, why
	l.checks[id], l.withdrawn = c, append(l.withdrawn, id)
	return nil
}

// checksOf are the checks of a burn that count.
func (l *ledger) checksOf(burn journal.ID) []journal.Check {
	var cs []journal.Check
	for _, id := range l.byBurn[burn] {
		if c := l.checks[id]; !c.IsGone() {
			cs = append(cs, c)
		}
	}
	return cs
}

// log is a candle with all that counts.
func (l *ledger) log(c journal.Candle) journal.CandleLog {
	p, w := l.pours[c.Pour], l.wicks[c.Wick]
	oil := l.oils[*p.Fragrance]
	log := journal.CandleLog{Made: journal.Made{
		Candle: c, Pour: p, Wax: l.waxes[p.Wax], Fragrance: &oil, Vessel: l.vessels[c.Vessel], Wick: w, Ladder: l.ladders[w.Ladder],
	}}
	for _, id := range l.byCandle[c.ID] {
		log.Burns = append(log.Burns, journal.BurnLog{Burn: l.burns[id], Checks: l.checksOf(id)})
	}
	return log
}

func (l *ledger) logs() []journal.CandleLog {
	var ls []journal.CandleLog
	for _, c := range l.candles {
		ls = append(ls, l.log(c))
	}
	return ls
}
