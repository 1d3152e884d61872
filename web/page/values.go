package page

import (
	"net/url"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// filler writes a record's facts into the boxes of a form, in the person's
// units, so that reading them back changes nothing.
type filler struct {
	url.Values
	u quantity.Units
}

func newFiller(u quantity.Units) filler { return filler{url.Values{}, u} }

func (f filler) text(name, v string) { f.Set(name, v) }

func (f filler) length(name string, v *quantity.Millimetres) {
	if v != nil {
		f.Set(name, f.u.EditLength(*v))
	}
}

func (f filler) mass(name string, v *quantity.Grams) {
	if v != nil {
		f.Set(name, f.u.EditMass(*v))
	}
}

func (f filler) temperature(name string, v *quantity.Celsius) {
	if v != nil {
		f.Set(name, f.u.EditTemperature(*v))
	}
}

func (f filler) volume(name string, v *quantity.Millilitres) {
	if v != nil {
		f.Set(name, f.u.EditVolume(*v))
	}
}

func (f filler) percent(name string, v *quantity.Fraction) {
	if v != nil {
		f.Set(name, quantity.EditPercent(*v))
	}
}

func (f filler) hours(name string, v *quantity.Hours) {
	if v != nil {
		f.Set(name, quantity.EditHours(*v))
	}
}

// plainNumberBox writes any other number as it is.
func plainNumberBox[T ~float64](f filler, name string, v *T) {
	if v != nil {
		f.Set(name, quantity.EditNumber(float64(*v)))
	}
}

func (f filler) count(name string, v *int) {
	if v != nil {
		f.Set(name, strconv.Itoa(*v))
	}
}

func (f filler) flag(name string, v bool) {
	if v {
		f.Set(name, "1")
	}
}

func (f filler) id(name string, v journal.ID) {
	if v != 0 {
		f.Set(name, strconv.FormatInt(int64(v), 10))
	}
}

func idText(v journal.ID) string { return strconv.FormatInt(int64(v), 10) }
