package page

import (
	"cmp"
	"net/url"
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/plan"
)

// tonight is the sitting that a round plans for the day of the view, with the
// candles that are not lit already; false where there is none.
func (x RoundAhead) tonight(v View) (plan.PlannedSitting, bool) {
	s, is := x.Calendar.Tonight(v.Now)
	s.Burns = slices.DeleteFunc(slices.Clone(s.Burns), func(b plan.PlannedBurn) bool {
		c := x.candle(b.Place)
		return c == nil || c.Life.Lit
	})
	slices.SortFunc(s.Burns, func(a, b plan.PlannedBurn) int { return cmp.Compare(a.Bench, b.Bench) })
	return s, is && len(s.Burns) > 0
}

// candle is the candle that took a place; nil where there is none.
func (x RoundAhead) candle(place int) *journal.CandleLine {
	return nextWords{progress: x.Progress}.candle(place)
}

// TonightLines are the candles of tonight's sitting, in the order in which
// they stand on the bench; none where none is planned.
func (x RoundAhead) TonightLines(v View) (out []journal.CandleLine) {
	s, _ := x.tonight(v)
	for _, b := range s.Burns {
		out = append(out, *x.candle(b.Place))
	}
	return out
}

// TonightValues tick the candles of tonight's sitting on the lighting page and
// write the place on the bench that was drawn for each.
func (x RoundAhead) TonightValues(v View) url.Values {
	values := url.Values{}
	s, _ := x.tonight(v)
	for _, b := range s.Burns {
		prefix := LightPrefix(x.candle(b.Place).Candle.ID)
		values.Set(prefix+"pick", "1")
		values.Set(prefix+"place", benchText(b.Bench))
	}
	return values
}

// benchText is a place on the bench as it is written into a burn.
func benchText(n int) string { return "bench " + strconv.Itoa(n) }

// TonightCandles are the candles that running rounds plan to light tonight.
func TonightCandles(list []RoundAhead, v View) map[journal.ID]bool {
	out := map[journal.ID]bool{}
	for _, x := range list {
		for _, c := range x.TonightLines(v) {
			out[c.Candle.ID] = true
		}
	}
	return out
}

// lightRoundHref is where tonight's sitting of a round is lit.
func lightRoundHref(round journal.ID) string { return "/light?round=" + idText(round) }

// eveningWord calls the day of a sitting by its time: from 17:00 on it is an
// evening (our choice).
func eveningWord(s plan.PlannedSitting, v View) string {
	if s.From.In(v.Zone).Hour() < 17 {
		return "Today"
	}
	return "Tonight"
}

// burnsOf says which burn a sitting is of which candles: burn 6 of 18-A and
// 18-B; burn 2 of 19-C.
func (x RoundAhead) burnsOf(s plan.PlannedSitting) string {
	byNumber, order := map[int][]string{}, []int{}
	for _, b := range s.Burns {
		if byNumber[b.Number] == nil {
			order = append(order, b.Number)
		}
		byNumber[b.Number] = append(byNumber[b.Number], x.candle(b.Place).Candle.Code())
	}
	slices.Sort(order)
	text := ""
	for _, n := range order {
		text = joinBy("; ", text, "burn "+strconv.Itoa(n)+" of "+listed(byNumber[n]))
	}
	return text
}
