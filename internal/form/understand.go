package form

import (
	"rimward/internal/quantity"
)

// Understand says how a quantity is read: in the person's own unit, with its
// unit. The problem is a sentence when it cannot be read; both are empty for
// an empty text. Kinds are length, mass, temperature, volume, hours, seconds,
// days, percent, density, heat, room, minutes and price by mass.
func Understand(kind, text string, u quantity.Units) (shown, problem string) {
	if len(text) == 0 || len(text) > 80 {
		return "", ""
	}
	s, err := understood(kind, text, u)
	if err != nil {
		return "", err.Error()
	}
	return s, ""
}

func understood(kind, text string, u quantity.Units) (string, error) {
	switch kind {
	case "length":
		if isFull(text) {
			return "wall all round", nil
		}
		return say(u.ShowLength)(quantity.ParseLength(text, u.Length))
	case "mass":
		return say(u.ShowMass)(quantity.ParseMass(text, u.Mass))
	case "temperature":
		return say(u.ShowTemperature)(quantity.ParseTemperature(text, u.Temperature))
	case "volume":
		return say(u.ShowVolume)(quantity.ParseVolume(text, u.Volume))
	case "room":
		return say(u.ShowRoom)(u.ParseRoom(text))
	case "minutes":
		return say(quantity.Minutes.Shown)(quantity.ParseMinutes(text))
	case "hours":
		return say(func(h quantity.Hours) quantity.Shown { return quantity.Shown{Number: h.Clock()} })(quantity.ParseHours(text))
	case "seconds":
		return say(quantity.Seconds.Shown)(quantity.ParseSeconds(text))
	case "days":
		return say(quantity.Days.Shown)(quantity.ParseDays(text))
	case "percent":
		return say(quantity.Fraction.Percent)(quantity.ParsePercent(text))
	case "density":
		return say(quantity.GramsPerMillilitre.Shown)(quantity.ParseDensity(text))
	case "price by mass":
		return say(func(p float64) quantity.Shown { return u.ShowPriceByMass(p, "") })(u.ParsePriceByMass(text))
	case "heat":
		return say(quantity.KilojoulesPerGram.Shown)(quantity.ParseHeat(text))
	}
	return "", nil
}

// say makes words of a value that was read.
func say[T any](show func(T) quantity.Shown) func(T, error) (string, error) {
	return func(v T, err error) (string, error) {
		if err != nil {
			return "", err
		}
		return show(v).String(), nil
	}
}
