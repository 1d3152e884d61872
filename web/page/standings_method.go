package page

import (
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// MethodPage says in a maker's words how the standings are worked out, with
// one burn worked through.
type MethodPage struct {
	Near    string // how long before the hour a last check still stands for it
	Vessel  string // the example: its inside and target hour
	Reads   string // what was read
	Between string // where the hour lies between the two checks
	Answer  string // width and share at the hour
	Left    string // wax left at the wall
	Candles string // how two candles are averaged
}

// The example: a round vessel with a check half an hour before its target
// hour and one half an hour after.
const (
	methodWall   quantity.Millimetres = 76
	methodTarget quantity.Hours       = 3
	methodPool   quantity.Millimetres = 60
)

// NewMethodPage works the example through by the same functions that the
// standings use.
func NewMethodPage(v View) MethodPage {
	before, after := methodTarget-0.5, methodTarget+0.5
	e, _, _ := meltpool.AtHour([]meltpool.Reading{
		{Hour: before, Ratio: float64(methodPool / methodWall)}, {Hour: after, Full: true},
	}, methodTarget)
	width := quantity.Millimetres(e.Ratio) * methodWall
	left := meltpool.LeftAtWall(methodWall, width)
	other := 0.95
	mean := (e.Ratio + other) / 2
	return MethodPage{
		Near:    tight(meltpool.Near.Clock()),
		Vessel:  "A round vessel is " + v.length(methodWall).String() + " wide inside, and its pool should be full by " + tight(methodTarget.Clock()) + ".",
		Reads:   "One burn reads " + v.length(methodPool).String() + " at " + tight(before.Clock()) + " and full at " + tight(after.Clock()) + ".",
		Between: "The hour lies halfway between the two checks, so the line stands halfway between " + v.length(methodPool).String() + " and the wall:",
		Answer:  v.length(width).String() + ", which is " + percent(e.Ratio) + " % of the width,",
		Left:    "with " + v.length(left).String() + " of wax left at the wall on each side.",
		Candles: "If that is the candle’s only burn and a second candle’s burns have a mean of " + percent(other) + " %, the pairing stands at " + percent(mean) + " %.",
	}
}
