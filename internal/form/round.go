package form

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// RoundInput is a round as it was typed.
type RoundInput struct {
	Wax     *journal.ID `form:"wax" validate:"required"`
	Basis   string      `form:"load_basis" validate:"omitempty,oneof=wax total"`
	Copies  *int        `form:"copies" validate:"omitempty,gt=0,lte=12"`
	PerMelt *int        `form:"per_melt" validate:"omitempty,gt=0,lte=400"` // nil: what the melter holds
	Seed    *int        `form:"seed" validate:"omitempty,gt=0"`
	round   journal.TestRound
}

// ReadRound reads the form that plans a round.
func ReadRound(p *Parser) RoundInput {
	in := RoundInput{Wax: p.ID("wax"), Basis: p.Choice("load_basis", "wax", "total"), Copies: p.Count("copies"),
		PerMelt: p.Count("per_melt"), Seed: p.Count("seed")}
	in.round = journal.TestRound{Question: p.Text("question"), Fragrance: p.ID("fragrance"), Note: p.Text("note"), Days: ReadRoundDays(p),
		Drawn: journal.RoundDrawing{OwnMelts: p.Flag("own_melts"), Square: p.Flag("square")}}
	in.round.Factors = journal.RoundFactors{Vessels: p.IDs("vessels"), Wicks: roundWicks(p), Loads: p.Percents("loads"), PourAts: p.Temperatures("pour_ats")}
	if len(in.round.Factors.Vessels) == 0 {
		p.Problem("vessels", "Tick one vessel at least.")
	}
	p.Check(in)
	p.loadRules(in.round)
	return in
}

// roundWicks is every ticked rung with every count of wicks.
func roundWicks(p *Parser) []journal.RoundWick {
	rungs, counts := p.IDs("rungs"), p.Counts("wicks")
	if len(rungs) == 0 {
		p.Problem("rungs", "Tick one rung at least.")
	}
	if p.raw("wicks") == "" {
		counts = []int{1}
	}
	var out []journal.RoundWick
	for _, n := range counts {
		if n < 1 || n > 12 {
			p.Problem("wicks", "Between 1 and 12 wicks in one candle.")
		}
		for _, w := range rungs {
			out = append(out, journal.RoundWick{Wick: w, Wicks: n})
		}
	}
	return out
}

// loadRules notes loads that no wax can hold, or that lack their fragrance.
func (p *Parser) loadRules(r journal.TestRound) {
	for _, l := range r.Factors.Loads {
		if l < 0 || l > 0.5 {
			p.Problem("loads", "Each load lies between 0 and 50 %.")
		}
		if l > 0 && r.Fragrance == nil {
			p.Problem("fragrance", "A load above nothing needs its fragrance.")
		}
	}
	if r.Fragrance != nil && len(r.Factors.Loads) == 0 {
		p.Problem("loads", "Say how much of the fragrance: one load, or several to compare.")
	}
	for _, t := range r.Factors.PourAts {
		if t < 20 || t > 150 {
			p.Problem("pour_ats", "Each pour temperature lies between 20 and 150 °C (68 and 302 °F).")
		}
	}
}

// Round is the round that was typed, its places not yet drawn.
func (in RoundInput) Round() journal.TestRound {
	r := in.round
	r.Copies = 1
	r.Factors.LoadBasis = basisOr(in.Basis)
	if in.Wax != nil {
		r.Wax = *in.Wax
	}
	if in.Copies != nil {
		r.Copies = *in.Copies
	}
	if in.Seed != nil {
		r.Seed = int64(*in.Seed)
	}
	return r
}

// RoundDaysInput is the calendar of a round as it was typed.
type RoundDaysInput struct {
	Hours      *quantity.Hours `form:"hours" validate:"omitempty,gt=0,lte=24"`
	PerEvening *int            `form:"per_evening" validate:"omitempty,gt=0,lte=4"`
	Bench      *int            `form:"bench_places" validate:"omitempty,gt=0,lte=60"`
	Burns      *int            `form:"burns" validate:"omitempty,gt=0,lte=200"`
}

// Usual numbers of a round whose boxes were left empty.
const (
	UsualSitting = quantity.Hours(4)
	UsualBench   = 6
	UsualStart   = "18:00"
)

// ReadRoundDays reads the part of a form that the calendar is worked out from.
func ReadRoundDays(p *Parser) journal.RoundDays {
	in := RoundDaysInput{Hours: p.Hours("hours"), PerEvening: p.Count("per_evening"), Bench: p.Count("bench_places"), Burns: p.Count("burns")}
	p.Check(in)
	d := journal.RoundDays{PourOn: p.day("pour_on"), Start: p.clock("start"), Hours: UsualSitting, PerEvening: 1, BenchPlaces: UsualBench,
		Weekdays: p.weekdays("weekdays"), Away: p.DaysAway("away")}
	if in.Hours != nil {
		d.Hours = *in.Hours
	}
	if in.PerEvening != nil {
		d.PerEvening = *in.PerEvening
	}
	if in.Bench != nil {
		d.BenchPlaces = *in.Bench
	}
	if in.Burns != nil {
		d.Burns = *in.Burns
	}
	return d
}

const dayLayout = "2006-01-02"

// day reads a local date; "" when empty or unreadable.
func (p *Parser) day(name string) string {
	s := p.raw(name)
	if s == "" {
		return ""
	}
	t, ok := dateOf(s)
	if !ok {
		p.Problem(name, dateSentence)
		return ""
	}
	return t.Format(dayLayout)
}

// clock reads a time of day.
func (p *Parser) clock(name string) string {
	if p.raw(name) == "" {
		return UsualStart
	}
	t, ok := clockTime(p.raw(name))
	if !ok {
		p.Problem(name, clockSentence)
		return UsualStart
	}
	return t.Format("15:04")
}

// weekdays reads the evenings that are free, Monday first.
func (p *Parser) weekdays(name string) []time.Weekday {
	var out []time.Weekday
	for _, s := range p.Strings(name) {
		n, err := strconv.Atoi(s)
		if err != nil || n < 0 || n > 6 {
			p.Problem(name, chooseSentence)
			return nil
		}
		out = append(out, time.Weekday(n))
	}
	if len(out) == 0 {
		p.Problem(name, "Tick one evening of the week at least.")
	}
	slices.SortFunc(out, func(a, b time.Weekday) int { return int(a+6)%7 - int(b+6)%7 })
	return slices.Compact(out)
}

// dateOf reads a date as a calendar or a hand writes it.
func dateOf(s string) (time.Time, bool) {
	for _, layout := range []string{dayLayout, "2 Jan 2006", "2 January 2006", "2.1.2006"} {
		if t, err := time.Parse(layout, strings.TrimSpace(s)); err == nil && t.Year() >= 1900 && t.Year() <= 9000 {
			return t, true
		}
	}
	return time.Time{}, false
}

const (
	awaySentence = "Write the days you are away such as 2026-05-04, or 2026-05-04 to 2026-05-11, parted by commas."
	mostAway     = 400
)

// DaysAway reads dates and runs of dates: 2026-05-04, 2026-05-08 to 2026-05-11.
func (p *Parser) DaysAway(name string) []string {
	var out []string
	for _, part := range strings.FieldsFunc(p.raw(name), func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		if strings.TrimSpace(part) == "" {
			continue
		}
		from, to, run := strings.Cut(part, " to ")
		first, ok := dateOf(from)
		last := first
		if run && ok {
			last, ok = dateOf(to)
		}
		if !ok || last.Before(first) || last.Sub(first).Hours() > mostAway*24 || len(out) > mostAway {
			p.Problem(name, awaySentence)
			return nil
		}
		for d := first; !d.After(last); d = d.AddDate(0, 0, 1) {
			out = append(out, d.Format(dayLayout))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
