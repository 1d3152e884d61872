package server

import (
	"context"
	"net/url"
	"strings"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/web/page"
	"rimward/web/ui"
)

func (s *Server) waxKind() shelfKind[journal.Wax] {
	return shelfKind[journal.Wax]{
		noun: journal.NounWax, base: "/shelf/waxes", one: "wax", load: s.store.Wax,
		read: func(p *form.Parser) journal.Wax { return form.ReadWax(p).Wax() },
		meta: func(x *journal.Wax) *journal.Meta { return &x.Meta },
		save: func(tx *sqlite.Tx, x *journal.Wax, values url.Values) error {
			recounted(&x.Stock, values, tx)
			return tx.SaveWax(x)
		},
		values: page.WaxValues,
		form:   func(in page.Input, a, c string, _ bool) ui.Form { return page.WaxForm(in, a, c) },
		show: func(ctx context.Context, v page.View, x journal.Wax, u journal.Use, h []journal.Change) (string, templ.Component, error) {
			p := page.NewWaxPage(x, u, h, v)
			err := s.showMassTaken(ctx, &p, journal.NounWax, x.ID, x.Stock, v)
			return x.Name, page.Thing(p), err
		},
	}
}

func (s *Server) fragranceKind() shelfKind[journal.Fragrance] {
	return shelfKind[journal.Fragrance]{
		noun: journal.NounFragrance, base: "/shelf/fragrances", one: "fragrance", load: s.store.Fragrance,
		read: func(p *form.Parser) journal.Fragrance { return form.ReadFragrance(p).Fragrance() },
		meta: func(x *journal.Fragrance) *journal.Meta { return &x.Meta },
		save: func(tx *sqlite.Tx, x *journal.Fragrance, values url.Values) error {
			recounted(&x.Stock, values, tx)
			return tx.SaveFragrance(x)
		},
		values: page.FragranceValues,
		form:   func(in page.Input, a, c string, _ bool) ui.Form { return page.FragranceForm(in, a, c) },
		show: func(ctx context.Context, v page.View, x journal.Fragrance, u journal.Use, h []journal.Change) (string, templ.Component, error) {
			p := page.NewFragrancePage(x, u, h, v)
			err := s.showMassTaken(ctx, &p, journal.NounFragrance, x.ID, x.Stock, v)
			return x.Name, page.Thing(p), err
		},
	}
}

func (s *Server) vesselKind() shelfKind[journal.Vessel] {
	return shelfKind[journal.Vessel]{
		noun: journal.NounVessel, base: "/shelf/vessels", one: "vessel", load: s.store.Vessel,
		read: func(p *form.Parser) journal.Vessel { return form.ReadVessel(p).Vessel() },
		meta: func(x *journal.Vessel) *journal.Meta { return &x.Meta },
		save: func(tx *sqlite.Tx, x *journal.Vessel, values url.Values) error {
			recounted(&x.Stock, values, tx)
			return tx.SaveVessel(x)
		},
		values: page.VesselValues,
		form:   func(in page.Input, a, c string, _ bool) ui.Form { return page.VesselForm(in, a, c) },
		show: func(ctx context.Context, v page.View, x journal.Vessel, u journal.Use, h []journal.Change) (string, templ.Component, error) {
			p := page.NewVesselPage(x, u, h, v)
			err := s.showPiecesTaken(ctx, &p, journal.NounVessel, x.ID, x.Stock)
			return x.Name, page.Thing(p), err
		},
	}
}

func (s *Server) ladderKind() shelfKind[journal.Ladder] {
	return shelfKind[journal.Ladder]{
		noun: journal.NounLadder, base: "/shelf/ladders", one: "ladder", load: s.store.Ladder,
		read:   func(p *form.Parser) journal.Ladder { return form.ReadLadder(p).Ladder() },
		meta:   func(x *journal.Ladder) *journal.Meta { return &x.Meta },
		save:   saveLadder,
		values: func(x journal.Ladder, _ quantity.Units) url.Values { return page.LadderValues(x) },
		form:   page.LadderForm,
		show: func(ctx context.Context, v page.View, x journal.Ladder, u journal.Use, h []journal.Change) (string, templ.Component, error) {
			wicks, err := s.store.WicksOf(ctx, x.ID)
			return x.Name, page.Ladder(page.NewLadderPage(x, wicks, u, h, v)), err
		},
	}
}

// saveLadder saves a ladder and, where a new one lists them, its rungs.
func saveLadder(tx *sqlite.Tx, x *journal.Ladder, values url.Values) error {
	if err := tx.SaveLadder(x); err != nil {
		return err
	}
	for _, label := range strings.Split(values.Get("rungs"), "\n") {
		if label = strings.TrimSpace(label); label == "" {
			continue
		}
		if err := tx.SaveWick(&journal.Wick{Ladder: x.ID, Label: label}); err != nil {
			return err
		}
	}
	return nil
}
