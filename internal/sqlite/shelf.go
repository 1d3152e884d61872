package sqlite

import (
	"context"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

var waxes = kind[journal.Wax]{
	noun: journal.NounWax, table: "wax",
	meta: func(x *journal.Wax) *journal.Meta { return &x.Meta },
	own: func(x *journal.Wax) []field {
		return []field{
			{name: "name", at: &x.Name}, {name: "family", at: &x.Family}, {name: "blend_note", at: &x.BlendNote}, {name: "form", at: &x.Form},
			{name: "solid_density", at: &x.SolidDensity}, {name: "liquid_density", at: &x.LiquidDensity}, {name: "melting_point", at: &x.MeltingPoint},
			{name: "heat_to_low", at: &x.HeatTo.Low}, {name: "heat_to_high", at: &x.HeatTo.High},
			{name: "add_oil_at_low", at: &x.AddOilAt.Low}, {name: "add_oil_at_high", at: &x.AddOilAt.High},
			{name: "pour_at_low", at: &x.PourAt.Low}, {name: "pour_at_high", at: &x.PourAt.High},
			{name: "load_low", at: &x.Load.Low}, {name: "load_high", at: &x.Load.High}, {name: "load_basis", at: &x.LoadBasis},
			{name: "cure_days_low", at: &x.CureDays.Low}, {name: "cure_days_high", at: &x.CureDays.High},
			{name: "shrinkage", at: &x.Shrinkage}, {name: "heat_of_combustion", at: &x.HeatOfCombustion},
			{name: "price", at: &x.Price}, {name: "on_hand", at: &x.OnHand}, {name: "counted_at", at: maybeMoment{&x.CountedAt}}, {name: "note", at: &x.Note},
		}
	},
}

var fragrances = kind[journal.Fragrance]{
	noun: journal.NounFragrance, table: "fragrance",
	meta: func(x *journal.Fragrance) *journal.Meta { return &x.Meta },
	own: func(x *journal.Fragrance) []field {
		return []field{
			{name: "name", at: &x.Name}, {name: "density", at: &x.Density}, {name: "flash_point", at: &x.FlashPoint},
			{name: "max_load", at: &x.MaxLoad}, {name: "max_basis", at: &x.MaxBasis},
			{name: "price", at: &x.Price}, {name: "on_hand", at: &x.OnHand}, {name: "counted_at", at: maybeMoment{&x.CountedAt}}, {name: "note", at: &x.Note},
		}
	},
}

var vessels = kind[journal.Vessel]{
	noun: journal.NounVessel, table: "vessel",
	meta: func(x *journal.Vessel) *journal.Meta { return &x.Meta },
	own: func(x *journal.Vessel) []field {
		return []field{
			{name: "name", at: &x.Name}, {name: "shape", at: &x.Shape}, {name: "inner_width", at: &x.InnerWidth}, {name: "inner_length", at: &x.InnerLength},
			{name: "fill_height", at: &x.FillHeight}, {name: "volume", at: &x.Volume}, {name: "water_fill", at: &x.WaterFill},
			{name: "material", at: &x.Material}, {name: "empty_mass", at: &x.EmptyMass}, {name: "certificate", at: &x.Certificate},
			{name: "target_hours", at: &x.TargetHours}, {name: "flame_limit", at: &x.FlameLimit}, {name: "wall_limit", at: &x.WallLimit},
			{name: "price", at: &x.Price}, {name: "on_hand", at: &x.OnHand}, {name: "counted_at", at: maybeMoment{&x.CountedAt}}, {name: "note", at: &x.Note},
		}
	},
}

var ladders = kind[journal.Ladder]{
	noun: journal.NounLadder, table: "ladder",
	meta: func(x *journal.Ladder) *journal.Meta { return &x.Meta },
	own: func(x *journal.Ladder) []field {
		return []field{{name: "name", at: &x.Name}, {name: "kind", at: &x.Kind}, {name: "core", at: &x.Core}, {name: "note", at: &x.Note}}
	},
}

// saveValid saves a record whose only rules are its own.
func saveValid[T interface{ Validate() error }](tx *Tx, k kind[T], v *T) error {
	return save(tx, k, v, func(next, _ *T) error { return (*next).Validate() })
}

// SaveWax keeps a wax, new or corrected.
func (tx *Tx) SaveWax(x *journal.Wax) error {
	return save(tx, waxes, x, func(next, before *journal.Wax) error {
		if next.LoadBasis == "" && !next.Load.IsZero() {
			return journal.Invalid("load_basis", noBasis)
		}
		next.Stock = next.Counted(stockOf(before, func(w *journal.Wax) *journal.Stock[quantity.Grams] { return &w.Stock }), tx.Now())
		return next.Validate()
	})
}

// noBasis is said of a load that may be a share of either.
const noBasis = "Say whether the load is a share of the wax or of the total."

// SaveFragrance keeps a fragrance, new or corrected.
func (tx *Tx) SaveFragrance(x *journal.Fragrance) error {
	return save(tx, fragrances, x, func(next, before *journal.Fragrance) error {
		if next.MaxBasis == "" && next.MaxLoad != nil {
			return journal.Invalid("max_basis", noBasis)
		}
		next.Stock = next.Counted(stockOf(before, func(f *journal.Fragrance) *journal.Stock[quantity.Grams] { return &f.Stock }), tx.Now())
		return next.Validate()
	})
}

// SaveVessel keeps a vessel, new or corrected.
func (tx *Tx) SaveVessel(x *journal.Vessel) error {
	return save(tx, vessels, x, func(next, before *journal.Vessel) error {
		next.Stock = next.Counted(stockOf(before, func(v *journal.Vessel) *journal.Stock[int] { return &v.Stock }), tx.Now())
		return next.Validate()
	})
}

// SaveLadder keeps a ladder, new or corrected.
func (tx *Tx) SaveLadder(x *journal.Ladder) error { return saveValid(tx, ladders, x) }

// find reads one record; journal.ErrNotFound when there is none.
func find[T any](ctx context.Context, s *Store, k kind[T], id journal.ID) (T, error) {
	return view(ctx, s, func(r reader) (T, error) { return one(r, k, id) })
}

// list reads the records that the rest of a query picks.
func list[T any](ctx context.Context, s *Store, k kind[T], rest string, args ...any) ([]T, error) {
	return view(ctx, s, func(r reader) ([]T, error) { return all(r, k, rest, args...) })
}

const byName = "ORDER BY name COLLATE NOCASE, id"

// Wax reads one wax.
func (s *Store) Wax(ctx context.Context, id journal.ID) (journal.Wax, error) {
	return find(ctx, s, waxes, id)
}

// Waxes lists all waxes by name, retired ones too.
func (s *Store) Waxes(ctx context.Context) ([]journal.Wax, error) { return list(ctx, s, waxes, byName) }

// Fragrance reads one fragrance.
func (s *Store) Fragrance(ctx context.Context, id journal.ID) (journal.Fragrance, error) {
	return find(ctx, s, fragrances, id)
}

// Fragrances lists all fragrances by name, retired ones too.
func (s *Store) Fragrances(ctx context.Context) ([]journal.Fragrance, error) {
	return list(ctx, s, fragrances, byName)
}

// Vessel reads one vessel.
func (s *Store) Vessel(ctx context.Context, id journal.ID) (journal.Vessel, error) {
	return find(ctx, s, vessels, id)
}

// Vessels lists all vessels by name, retired ones too.
func (s *Store) Vessels(ctx context.Context) ([]journal.Vessel, error) {
	return list(ctx, s, vessels, byName)
}

// Ladder reads one ladder.
func (s *Store) Ladder(ctx context.Context, id journal.ID) (journal.Ladder, error) {
	return find(ctx, s, ladders, id)
}

// Ladders lists all ladders by name, retired ones too.
func (s *Store) Ladders(ctx context.Context) ([]journal.Ladder, error) {
	return list(ctx, s, ladders, byName)
}
