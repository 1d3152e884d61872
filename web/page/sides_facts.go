package page

import (
	"strconv"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// sidesFacts parts the facts into those that differ and those that do not; the
// latter stand at the end of the page.
func sidesFacts(facts []compare.Fact, sides []compare.Side, v View) (differ, same []SidesGroup) {
	apart := SidesGroup{Title: "Where they differ", Note: alikeNote(v)}
	alike := SidesGroup{Title: "Where they are alike"}
	if len(sides) < compare.Fewest {
		apart.Title, apart.Note, alike.Title = "Facts", "", "Facts"
	}
	for _, f := range facts {
		if f.Class == compare.Amount {
			continue
		}
		row := sidesFact(f, sides, v)
		if f.Differs || f.Unknown {
			apart.Rows = append(apart.Rows, row)
		} else {
			alike.Rows = append(alike.Rows, row)
		}
	}
	return ifRows(apart), ifRows(alike)
}

// ifRows is a group that has rows, or nothing.
func ifRows(g SidesGroup) []SidesGroup {
	if len(g.Rows) == 0 {
		return nil
	}
	return []SidesGroup{g}
}

// amounts are the rows that say how much there is to go by.
func amounts(facts []compare.Fact, sides []compare.Side, v View) []SidesRow {
	var out []SidesRow
	for _, f := range facts {
		if f.Class == compare.Amount {
			row := sidesFact(f, sides, v)
			row.Mark, row.Differs = "", false
			out = append(out, row)
		}
	}
	return out
}

// alikeNote says what is taken as alike.
func alikeNote(v View) string {
	return "Readings a step of the instrument apart count as alike: temperatures within " + v.Units.ShowTemperatureDifference(compare.DegreesAlike).String() +
		" (the room " + v.Units.ShowTemperatureDifference(compare.RoomAlike).String() + "), loads within " + points(compare.LoadAlike).Number + " of a point, masses within " +
		quantity.Fraction(compare.FillAlike).Percent().String() + ", trims within " + v.length(compare.TrimAlike).String() + ", cures within a day. These steps are chosen by this program."
}

func sidesFact(f compare.Fact, sides []compare.Side, v View) SidesRow {
	row := SidesRow{Label: f.Label, Differs: f.Differs}
	switch {
	case f.Differs:
		row.Mark = "differs"
	case f.Unknown:
		row.Mark = "not noted for all"
	}
	for i, x := range f.Values {
		row.Cells = append(row.Cells, factCell(f.Kind, x, sides[i], v))
	}
	return row
}

func factCell(k compare.Kind, x compare.Value, s compare.Side, v View) SidesCell {
	switch {
	case !x.Known:
		return SidesCell{Text: "not noted", Soft: true}
	case k == compare.Words:
		return wordsCell(x.Tally)
	}
	show := factShow(k, v)
	mid := show(x.Mid)
	c := SidesCell{Text: mid.Number, Unit: mid.Unit}
	low, high := show(x.Low), show(x.High)
	if low != high {
		c.Text = low.Number + "–" + high.Number
		c.Small = []string{"mean " + tight(mid.String())}
	}
	if k == compare.Count && len(s.Logs) > 1 {
		c.Small = []string{"each candle"}
	}
	return c
}

// wordsCell writes words, the most usual first, each but the first with how
// often it was noted.
func wordsCell(ts []compare.Tally) SidesCell {
	c := SidesCell{Text: ts[0].Text}
	for _, t := range ts[1:] {
		c.Small = append(c.Small, t.Text+": "+strconv.Itoa(t.N)+" times")
	}
	if len(ts) > 3 {
		c.Small = []string{"and " + counted(len(ts)-1, "other", "others")}
	}
	for i := range c.Small {
		if len(ts) <= 3 && ts[i+1].N == 1 {
			c.Small[i] = ts[i+1].Text + ": once"
		}
	}
	return c
}

// factShow shows a number of a kind.
func factShow(k compare.Kind, v View) func(float64) quantity.Shown {
	return map[compare.Kind]func(float64) quantity.Shown{
		compare.Temperature: func(x float64) quantity.Shown { return v.temperature(quantity.Celsius(x)) },
		compare.Load:        func(x float64) quantity.Shown { return loadShown(quantity.Fraction(x), journal.OfWax) },
		compare.Mass:        func(x float64) quantity.Shown { return v.mass(quantity.Grams(x)) },
		compare.Length:      func(x float64) quantity.Shown { return v.length(quantity.Millimetres(x)) },
		compare.Days:        func(x float64) quantity.Shown { return quantity.Days(x).Shown() },
		compare.Count:       func(x float64) quantity.Shown { return quantity.Shown{Number: quantity.Number(x, 1)} },
	}[k]
}
