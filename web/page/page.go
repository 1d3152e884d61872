// Package page has one pair for every page: what the page shows, built from
// domain values, and the template that marks it up.
//
// All wording, order and choice of words happen here in Go, where they are
// tested without a server; the templates decide nothing. It refuses to know
// HTTP, SQL or the clock: the moment comes as a value.
package page

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// View is how one studio wants to see things: its units, its zone, and the
// moment the page is made.
type View struct {
	Units quantity.Units
	Zone  *time.Location
	Now   time.Time
	Ruler quantity.Millimetres
	// Currency stands after a price; "" where the studio named none.
	Currency string
}

// NewView is the view that the settings ask for.
func NewView(s journal.Settings, now time.Time) View {
	return View{Units: s.Units, Zone: s.Zone(), Now: now, Ruler: s.Ruler, Currency: s.Currency}
}

// Day writes a date as it is said: today, yesterday, Mon 4 May, 4 May 2025.
func (v View) Day(t time.Time) string {
	t, now := t.In(v.Zone), v.Now.In(v.Zone)
	switch days := civil(now).Sub(civil(t)).Hours() / 24; {
	case days == 0:
		return "today"
	case days == 1:
		return "yesterday"
	case days == -1:
		return "tomorrow"
	case days > -150 && days < 150:
		return t.Format("Mon 2 Jan")
	}
	return t.Format("2 Jan 2006")
}

// civil is midnight UTC of the local date, so that dates can be subtracted
// whatever the clocks do.
func civil(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// Clock writes the time of day.
func (v View) Clock(t time.Time) string { return t.In(v.Zone).Format("15:04") }

// Moment writes date and time.
func (v View) Moment(t time.Time) string { return v.Day(t) + ", " + v.Clock(t) }

// DateBox and TimeBox write a moment into the boxes of a form.
func (v View) DateBox(t time.Time) string { return t.In(v.Zone).Format("2006-01-02") }

// TimeBox writes the time of day into the box of a form.
func (v View) TimeBox(t time.Time) string { return t.In(v.Zone).Format("15:04") }

// Date writes a date in full, whatever day it is.
func (v View) Date(t time.Time) string { return t.In(v.Zone).Format("2 Jan 2006") }

// Short names for showing a quantity in the person's units.

func (v View) length(x quantity.Millimetres) quantity.Shown  { return v.Units.ShowLength(x) }
func (v View) mass(x quantity.Grams) quantity.Shown          { return v.Units.ShowMass(x) }
func (v View) temperature(x quantity.Celsius) quantity.Shown { return v.Units.ShowTemperature(x) }
func (v View) volume(x quantity.Millilitres) quantity.Shown  { return v.Units.ShowVolume(x) }
