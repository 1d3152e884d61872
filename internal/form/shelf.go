package form

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// WaxInput is a wax as it was typed.
type WaxInput struct {
	Name   string `form:"name" validate:"required,max=120"`
	Family string `form:"family" validate:"required"`
	Basis  string `form:"load_basis" validate:"omitempty,oneof=wax total"`
	wax    journal.Wax
}

// ReadWax reads the form of a wax.
func ReadWax(p *Parser) WaxInput {
	in := WaxInput{Name: p.Text("name"), Family: p.Choice("family", stringsOf(journal.WaxFamilies)...), Basis: p.Choice("load_basis", "wax", "total")}
	in.wax = journal.Wax{
		BlendNote: p.Text("blend_note"), Form: p.Text("form"),
		SolidDensity: p.Density("solid_density"), LiquidDensity: p.Density("liquid_density"), MeltingPoint: p.Temperature("melting_point"),
		HeatTo: temperatures(p, "heat_to"), AddOilAt: temperatures(p, "add_oil_at"), PourAt: temperatures(p, "pour_at"),
		Load:      journal.Range[quantity.Fraction]{Low: p.Percent("load_low"), High: p.Percent("load_high")},
		CureDays:  journal.Range[quantity.Days]{Low: p.Days("cure_days_low"), High: p.Days("cure_days_high")},
		Shrinkage: p.Percent("shrinkage"), HeatOfCombustion: p.Heat("heat_of_combustion"),
		Price: p.PriceByMass("price"), Stock: stockByMass(p), Note: p.Text("note"),
	}
	p.Check(in)
	p.Merge(in.Wax().Validate()) //nolint:errcheck // only ever a refusal
	return in
}

func temperatures(p *Parser, name string) journal.Range[quantity.Celsius] {
	return journal.Range[quantity.Celsius]{Low: p.Temperature(name + "_low"), High: p.Temperature(name + "_high")}
}

func stringsOf[T ~string](list []T) []string {
	out := make([]string, len(list))
	for i, x := range list {
		out[i] = string(x)
	}
	return out
}

// Wax is the wax that was typed.
func (in WaxInput) Wax() journal.Wax {
	w := in.wax
	w.Name, w.Family, w.LoadBasis = in.Name, journal.WaxFamily(in.Family), basisOr(in.Basis)
	return w
}

// basisOr is the basis that was chosen, of wax where none was.
func basisOr(s string) journal.Basis {
	if s == "" {
		return journal.OfWax
	}
	return journal.Basis(s)
}

// FragranceInput is a fragrance as it was typed.
type FragranceInput struct {
	Name      string `form:"name" validate:"required,max=120"`
	Basis     string `form:"max_basis" validate:"omitempty,oneof=wax total"`
	fragrance journal.Fragrance
}

// ReadFragrance reads the form of a fragrance.
func ReadFragrance(p *Parser) FragranceInput {
	in := FragranceInput{Name: p.Text("name"), Basis: p.Choice("max_basis", "wax", "total")}
	in.fragrance = journal.Fragrance{Density: p.Density("density"), FlashPoint: p.Temperature("flash_point"), MaxLoad: p.Percent("max_load"),
		Price: p.PriceByMass("price"), Stock: stockByMass(p), Note: p.Text("note")}
	p.Check(in)
	p.Merge(in.Fragrance().Validate()) //nolint:errcheck // only ever a refusal
	return in
}

// Fragrance is the fragrance that was typed.
func (in FragranceInput) Fragrance() journal.Fragrance {
	f := in.fragrance
	f.Name, f.MaxBasis = in.Name, basisOr(in.Basis)
	return f
}

// VesselInput is a vessel as it was typed.
type VesselInput struct {
	Name       string                `form:"name" validate:"required,max=120"`
	Shape      string                `form:"shape" validate:"required"`
	Material   string                `form:"material" validate:"required"`
	InnerWidth *quantity.Millimetres `form:"inner_width" validate:"required"`
	vessel     journal.Vessel
}

// ReadVessel reads the form of a vessel.
func ReadVessel(p *Parser) VesselInput {
	in := VesselInput{Name: p.Text("name"), Shape: p.Choice("shape", stringsOf(journal.Shapes)...),
		Material: p.Choice("material", stringsOf(journal.Materials)...), InnerWidth: p.Length("inner_width")}
	in.vessel = journal.Vessel{
		InnerLength: p.Length("inner_length"), FillHeight: p.Length("fill_height"), Volume: p.Volume("volume"), WaterFill: p.Mass("water_fill"),
		EmptyMass: p.Mass("empty_mass"), Certificate: p.Flag("certificate"), TargetHours: p.Hours("target_hours"),
		FlameLimit: p.Length("flame_limit"), WallLimit: p.Temperature("wall_limit"),
		Price: p.Price("price"), Stock: stockByPiece(p), Note: p.Text("note"),
	}
	p.Check(in)
	p.Merge(in.Vessel().Validate()) //nolint:errcheck // only ever a refusal
	return in
}

// Vessel is the vessel that was typed. A round one keeps no length beside its
// width.
func (in VesselInput) Vessel() journal.Vessel {
	v := in.vessel
	v.Name, v.Shape, v.Material = in.Name, journal.Shape(in.Shape), journal.Material(in.Material)
	if in.InnerWidth != nil {
		v.InnerWidth = *in.InnerWidth
	}
	if v.Shape == journal.Round && v.InnerLength != nil && *v.InnerLength == v.InnerWidth {
		v.InnerLength = nil
	}
	return v
}

// LadderInput is a ladder as it was typed.
type LadderInput struct {
	Name string `form:"name" validate:"required,max=120"`
	Kind string `form:"kind" validate:"required"`
	Core string `form:"core" validate:"max=120"`
	Note string `form:"note"`
}

// ReadLadder reads the form of a ladder.
func ReadLadder(p *Parser) LadderInput {
	in := LadderInput{Name: p.Text("name"), Kind: p.Choice("kind", stringsOf(journal.WickKinds)...), Core: p.Text("core"), Note: p.Text("note")}
	p.Check(in)
	return in
}

// Ladder is the ladder that was typed.
func (in LadderInput) Ladder() journal.Ladder {
	return journal.Ladder{Name: in.Name, Kind: journal.WickKind(in.Kind), Core: in.Core, Note: in.Note}
}

// WickInput is one rung as it was typed.
type WickInput struct {
	Label   string                `form:"label" validate:"required,max=60"`
	Rung    *int                  `form:"rung"`
	Width   *quantity.Millimetres `form:"width"`
	Threads *int                  `form:"threads"`
	Price   *float64              `form:"price"`
	OnHand  *int                  `form:"on_hand"`
	Note    string                `form:"note"`
}

// ReadWick reads the form of a rung.
func ReadWick(p *Parser) WickInput {
	in := WickInput{Label: p.Text("label"), Rung: p.Count("rung"), Width: p.Length("width"), Threads: p.Count("threads"),
		Price: p.Price("price"), OnHand: p.Count("on_hand"), Note: p.Text("note")}
	p.Check(in)
	return in
}

// Wick is the rung that was typed; its place is 0 where none was chosen.
func (in WickInput) Wick() journal.Wick {
	w := journal.Wick{Label: in.Label, Width: in.Width, Threads: in.Threads, Price: in.Price, Stock: journal.Stock[int]{OnHand: in.OnHand}, Note: in.Note}
	if in.Rung != nil {
		w.Rung = *in.Rung
	}
	return w
}
