package form

import (
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// SettingsInput is the studio's choices as they were typed.
type SettingsInput struct {
	Length      string                `form:"length" validate:"required,oneof=mm in"`
	Mass        string                `form:"mass" validate:"required,oneof=g oz"`
	Temperature string                `form:"temperature" validate:"required,oneof=C F"`
	Volume      string                `form:"volume" validate:"required,oneof=mL floz"`
	Ruler       *quantity.Millimetres `form:"ruler" validate:"required,gt=0,lte=10"`
	TimeZone    string                `form:"time_zone" validate:"required,timezone_known"`
	Scheme      string                `form:"scheme" validate:"required,oneof=auto day night"`
}

// ReadSettings reads the form of the settings.
func ReadSettings(p *Parser) SettingsInput {
	in := SettingsInput{
		Length: p.Text("length"), Mass: p.Text("mass"), Temperature: p.Text("temperature"), Volume: p.Text("volume"),
		Ruler: p.Length("ruler"), TimeZone: strings.ReplaceAll(p.Text("time_zone"), " ", "_"), Scheme: p.Text("scheme"),
	}
	p.Check(in)
	return in
}

// Apply puts the choices into settings, whose limits and version stay.
func (in SettingsInput) Apply(s *journal.Settings) {
	s.Units = quantity.Units{Length: quantity.LengthUnit(in.Length), Mass: quantity.MassUnit(in.Mass),
		Temperature: quantity.TemperatureUnit(in.Temperature), Volume: quantity.VolumeUnit(in.Volume)}
	if in.Ruler != nil {
		s.Ruler = *in.Ruler
	}
	s.TimeZone, s.Scheme = in.TimeZone, journal.Scheme(in.Scheme)
}
