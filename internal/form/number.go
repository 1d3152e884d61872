package form

import "rimward/internal/quantity"

// Number reads a quantity of a kind (length, temperature, hours, seconds or
// rate) as the plain number it is kept as; nil when empty or unreadable.
func (p *Parser) Number(kind, name string) *float64 {
	switch kind {
	case "length":
		return plain(p.Length(name))
	case "temperature":
		return plain(p.Temperature(name))
	case "hours":
		return plain(p.Hours(name))
	case "seconds":
		return plain(p.Seconds(name))
	}
	return read(p, name, quantity.ParseRate)
}

func plain[T ~float64](v *T) *float64 {
	if v == nil {
		return nil
	}
	f := float64(*v)
	return &f
}
