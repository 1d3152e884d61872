package journal

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// MostPlaces is the most candles that a round may have.
const MostPlaces = 400

// RoundRecord is what the rules of a round need to know beside it.
type RoundRecord struct {
	Before *TestRound // what is kept; nil when it is new
	Poured int        // of its candles, that were not withdrawn
}

// Validate holds the rules of a round: whatever its candles were drawn from
// stays once the first of them is poured.
func (r TestRound) Validate(f RoundRecord) error {
	var ps problems
	ps.addIf(strings.TrimSpace(r.Question) == "", "question", "Say what the round is to answer.")
	ps.addIf(utf8.RuneCountInString(r.Question) > 200, "question", "Keep the question under 200 characters.")
	ps.addIf(r.Wax == 0, "wax", "Choose the wax.")
	ps.addIf(r.Copies < 1 || r.Copies > 12, "copies", "Between 1 and 12 candles of each.")
	ps.addIf(r.Factors.LoadBasis != OfWax && r.Factors.LoadBasis != OfTotal, "load_basis", "Say whether the load is a share of the wax or of the total.")
	ps.addIf(len(r.Places) == 0, "rungs", "A round needs at least one candle.")
	ps.addIf(len(r.Places) > MostPlaces, "copies", "At most 400 candles in one round.")
	r.Days.rules(&ps)
	ps.addIf(f.Before != nil && f.Poured > 0 && !r.sameDraw(*f.Before), "", "Candles of this round are poured. Its question may be worded anew and its days moved; what it compares stays.")
	for i, p := range r.Places {
		if text := r.wrongPlace(i, p); text != "" {
			ps.addIf(true, "", text)
			break
		}
	}
	return ps.err()
}

// wrongPlace says what is wrong with the i-th place; "" when nothing is.
func (r TestRound) wrongPlace(i int, p RoundPlace) string {
	switch {
	case p.Number != i+1:
		return fmt.Sprintf("The places of a round are numbered in order: place %d stands where %d belongs.", p.Number, i+1)
	case !slices.Contains(r.Factors.Vessels, p.Vessel) || !slices.Contains(r.Factors.Wicks, RoundWick{p.Wick, p.Wicks}):
		return fmt.Sprintf("Place %d holds a vessel or a wick that the round does not compare.", p.Number)
	case p.Load != nil && !slices.Contains(r.Factors.Loads, *p.Load) || p.PourAt != nil && !slices.Contains(r.Factors.PourAts, *p.PourAt):
		return fmt.Sprintf("Place %d holds a load or a pour temperature that the round does not compare.", p.Number)
	case p.Melt < 1 || p.Copy < 1 || p.Bench < 1 || p.Evening < 1 || p.Wicks < 1:
		return fmt.Sprintf("Place %d lacks its melt, its place on the bench or its evening.", p.Number)
	}
	return ""
}

// rules notes days that no calendar can be worked out from.
func (d RoundDays) rules(ps *problems) {
	ps.addIf(d.Hours <= 0 || d.Hours > 24, "hours", "A sitting lasts more than nothing and at most 24 hours.")
	ps.addIf(d.PerEvening < 1 || d.PerEvening > 4, "per_evening", "Between 1 and 4 sittings in one evening.")
	ps.addIf(d.BenchPlaces < 1 || d.BenchPlaces > 60, "bench_places", "Between 1 and 60 places on the bench.")
	ps.addIf(d.Burns < 0 || d.Burns > 200, "burns", "Between 1 and 200 burns, or none said: until it is spent.")
	ps.addIf(len(d.Weekdays) == 0, "weekdays", "Tick one evening of the week at least.")
}

// Place is the place with a number; false where the round has none.
func (r TestRound) Place(number int) (RoundPlace, bool) {
	if number < 1 || number > len(r.Places) {
		return RoundPlace{}, false
	}
	return r.Places[number-1], true
}

// Melts are the numbers of the round's melts, in order.
func (r TestRound) Melts() []int {
	var out []int
	for _, p := range r.Places {
		if !slices.Contains(out, p.Melt) {
			out = append(out, p.Melt)
		}
	}
	slices.Sort(out)
	return out
}

// RoundSeat is what the rules of a candle's place in a round need to know.
type RoundSeat struct {
	Round TestRound
	Taken *Candle // that has the place and was not withdrawn; nil when it is free
}

// FitsRound holds the rules of a candle's place in its round.
func (c Candle) FitsRound(s RoundSeat) error {
	var ps problems
	_, there := s.Round.Place(c.RoundPlace)
	switch {
	case s.Round.IsGone():
		ps.addIf(true, "round", "This round was withdrawn.")
	case !there:
		ps.addIf(true, "round_place", fmt.Sprintf("The round has places 1 to %d.", len(s.Round.Places)))
	case s.Taken != nil:
		ps.addIf(true, "round_place", fmt.Sprintf("Candle %s has this place already.", s.Taken.Code()))
	}
	return ps.err()
}
