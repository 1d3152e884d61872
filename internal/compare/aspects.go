package compare

import (
	"strconv"

	"rimward/internal/guide"
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

func vesselName(l journal.CandleLog) []datum {
	return []datum{{key: key(l.Vessel.ID), text: l.Vessel.Name}}
}

func wickName(l journal.CandleLog) []datum {
	return []datum{{key: key(l.Wick.ID), text: l.WickName()}}
}

func waxName(l journal.CandleLog) []datum {
	return []datum{{key: key(l.Wax.ID), text: l.Wax.Name}}
}

func oilName(l journal.CandleLog) []datum {
	if l.Fragrance == nil {
		return []datum{{key: "none", text: "none"}}
	}
	return []datum{{key: key(l.Fragrance.ID), text: l.Fragrance.Name}}
}

// lot reads a lot of the pour; an empty one was not noted.
func lot(of func(journal.Pour) string) func(journal.CandleLog) []datum {
	return func(l journal.CandleLog) []datum {
		if t := of(l.Pour); t != "" {
			return []datum{{key: t, text: t}}
		}
		return nil
	}
}

func loadOfWax(l journal.CandleLog) []datum {
	if l.Fragrance == nil {
		return nil
	}
	return maybe(l.Pour.LoadOn(journal.OfWax))
}

// dye that was not noted is taken for none, and says so.
func dye(l journal.CandleLog) []datum {
	if l.Pour.Dye == "" {
		return []datum{{key: "", text: "none noted"}}
	}
	return []datum{{key: l.Pour.Dye, text: l.Pour.Dye}}
}

func degrees(of func(journal.Pour) *quantity.Celsius) func(journal.CandleLog) []datum {
	return func(l journal.CandleLog) []datum { return maybe(of(l.Pour)) }
}

func ticked(of func(journal.Pour) bool) func(journal.CandleLog) []datum {
	return func(l journal.CandleLog) []datum {
		if of(l.Pour) {
			return []datum{{key: "yes", text: "yes"}}
		}
		return []datum{{key: "no", text: "no"}}
	}
}

func filled(l journal.CandleLog) []datum { return maybe(l.Candle.Filled) }

// cured is the days from pour to first burn.
func cured(l journal.CandleLog) []datum {
	if len(l.Burns) == 0 {
		return nil
	}
	first := l.Burns[0].Burn.LitAt
	for _, b := range l.Burns {
		if b.Burn.LitAt.Before(first) {
			first = b.Burn.LitAt
		}
	}
	return []datum{{number: first.Sub(l.Pour.At).Hours() / 24}}
}

func trimmed(l journal.CandleLog) []datum {
	return eachBurn(l, func(b journal.Burn) []datum { return maybe(b.Trim) })
}

func rooms(l journal.CandleLog) []datum {
	return eachBurn(l, func(b journal.Burn) []datum { return maybe(b.Room) })
}

func draughts(l journal.CandleLog) []datum {
	return eachBurn(l, func(b journal.Burn) []datum {
		if b.Draught == journal.DraughtUnknown {
			return nil
		}
		return []datum{{key: string(b.Draught), text: string(b.Draught)}}
	})
}

func pourNumber(l journal.CandleLog) []datum {
	return []datum{{key: key(l.Pour.ID), text: strconv.Itoa(l.Pour.Number)}}
}

// earlyCount is how many burns were lit before the candle was set and cured;
// nothing where none was lit at all.
func earlyCount(l journal.CandleLog) []datum {
	if len(l.Burns) == 0 {
		return nil
	}
	return []datum{{number: float64(len(guide.EarlyBurns(l)))}}
}

func burnCount(l journal.CandleLog) []datum { return []datum{{number: float64(len(l.Burns))}} }

// made reads a number that every candle has.
func made(of func(journal.CandleLog) float64) func(journal.CandleLog) []datum {
	return func(l journal.CandleLog) []datum { return []datum{{number: of(l)}} }
}

func eachBurn(l journal.CandleLog, of func(journal.Burn) []datum) []datum {
	var out []datum
	for _, b := range l.Burns {
		out = append(out, of(b.Burn)...)
	}
	return out
}

// maybe is a quantity that may not have been written down.
func maybe[T ~float64](x *T) []datum {
	if x == nil {
		return nil
	}
	return []datum{{number: float64(*x)}}
}
