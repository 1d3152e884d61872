package pour

import "rimward/internal/quantity"

// Cost is what a sheet uses up, in the studio's currency.
type Cost struct {
	Parts   []Charge
	Known   float64  // the sum of the parts whose price is known
	Missing []string // names of the parts whose price is not
}

// Charge is the cost of one part; Amount is nil when its price is not known.
type Charge struct {
	Name   string
	Amount *float64
}

// Whole reports whether the price of every part is known.
func (c Cost) Whole() bool { return len(c.Missing) == 0 && len(c.Parts) > 0 }

func (a Ask) cost(s Sheet) Cost {
	var c Cost
	c.add(nameOr(a.Wax.Name, "wax"), byKilogram(a.Wax.Price, s.Wax))
	if a.Oil != nil && s.Oil > 0 {
		c.add(nameOr(a.Oil.Name, "fragrance oil"), byKilogram(a.Oil.Price, s.Oil))
	}
	for _, t := range a.Things {
		var amount *float64
		if t.Price != nil {
			x := *t.Price * float64(t.Count)
			amount = &x
		}
		c.add(t.Name, amount)
	}
	return c
}

func (c *Cost) add(name string, amount *float64) {
	c.Parts = append(c.Parts, Charge{name, amount})
	if amount == nil {
		c.Missing = append(c.Missing, name)
		return
	}
	c.Known += *amount
}

func byKilogram(price *float64, m quantity.Grams) *float64 {
	if price == nil {
		return nil
	}
	x := *price * float64(m) / 1000
	return &x
}
