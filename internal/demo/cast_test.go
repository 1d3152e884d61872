package demo_test

import (
	"testing"

	"rimward/internal/demo"
	"rimward/internal/journal"
)

// casts stand beside the ledger of the season.
type casts struct {
	moulds map[journal.ID]journal.Mould
	list   map[journal.ID]journal.Cast
}

func (l *ledger) SaveMould(m *journal.Mould) error {
	if l.casts.moulds == nil {
		l.casts = casts{map[journal.ID]journal.Mould{}, map[journal.ID]journal.Cast{}}
	}
	return put(l, journal.NounMould, l.casts.moulds, m, &m.Meta, m.Validate())
}

func (l *ledger) SaveCast(c *journal.Cast) error {
	f := journal.CastFacts{Now: l.now, Pour: l.pours[c.Pour], Mould: l.casts.moulds[c.Mould]}
	return put(l, journal.NounCast, l.casts.list, c, &c.Meta, c.Validate(f))
}

// Casts come from several pours of both waxes and both moulds; one is still in
// its mould, the newest; and some did not come clean.
func TestSeasonHasCasts(t *testing.T) {
	t.Parallel()
	for name, s := range seasons(t) {
		l := fill(t, s)
		inside, harmed, pours, kinds := 0, 0, map[journal.ID]bool{}, map[[2]journal.ID]bool{}
		for _, c := range l.casts.list {
			pours[c.Pour], kinds[[2]journal.ID{l.pours[c.Pour].Wax, c.Mould}] = true, true
			if c.Out == nil {
				inside++
				continue
			}
			harmed += *c.Chipped + *c.Broken
		}
		if len(l.casts.moulds) != 2 || inside != 1 || len(pours) < 8 || len(kinds) < 4 || harmed < 3 {
			t.Errorf("%s: %d moulds, %d casts inside, %d pours, %d kinds, %d harmed", name, len(l.casts.moulds), inside, len(pours), len(kinds), harmed)
		}
	}
}

// The stated rule shows over many seasons: the softer wax harms more pieces of
// the undercut mould than the firmer one.
func TestSofterWaxHarmsMoreUndercuts(t *testing.T) {
	t.Parallel()
	pieces, harmed := map[string]int{}, map[string]int{}
	for seed := range uint64(20) {
		l := fill(t, demo.NewSeason(seed, evening, lisbon(t)))
		for _, c := range l.casts.list {
			if c.Out != nil && l.casts.moulds[c.Mould].Detail == journal.Undercut {
				wax := l.waxes[l.pours[c.Pour].Wax].Name
				pieces[wax], harmed[wax] = pieces[wax]+c.Pieces, harmed[wax]+*c.Chipped+*c.Broken
			}
		}
	}
	soft, firm := float64(harmed["Harbour blend"])/float64(pieces["Harbour blend"]), float64(harmed["Meadow blend"])/float64(pieces["Meadow blend"])
	if pieces["Harbour blend"] < 60 || soft < 1.4*firm {
		t.Errorf("harmed: %v of %v", harmed, pieces)
	}
}
