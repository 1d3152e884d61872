package plan

import (
	"math"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Course is a candle burned down in turns of burning and resting.
type Course struct {
	Burns   int            // the last may be shorter
	Last    quantity.Hours // how long the last one is
	Rests   int            // one between every two burns
	Elapsed quantity.Hours // from the first lighting to the last end, without a pause beyond the rests
}

// BackToBack is the course of a candle that burns for lit hours in all, on at
// a time with a rest between; nothing without hours.
func BackToBack(lit, on, rest quantity.Hours) Course {
	if !(lit > 0) || !(on > 0) {
		return Course{}
	}
	n := max(1, int(math.Ceil(float64(lit/on)-1e-9)))
	return Course{Burns: n, Last: lit - quantity.Hours(n-1)*on, Rests: n - 1, Elapsed: lit + quantity.Hours(n-1)*rest}
}

// job is what a candle still has before it.
type job struct {
	candle  CalendarCandle
	release time.Time // it cannot be lit before
	busy    time.Time // it stands on the bench, lit, until then
	next    int       // number of the next burn
	left    int       // burns
	last    quantity.Hours
}

// jobs are the candles that have burns before them; the rest are told apart.
func (d *desk) jobs() ([]job, []LeftOut) {
	var js []job
	unknown := LeftOut{Why: "It is not known how long they burn, so it cannot be said when they are spent. Choose a number of burns, or weigh what is filled in."}
	for _, c := range d.in.Candles {
		if c.Over {
			continue
		}
		j := d.job(c)
		if j.left < 0 {
			unknown.Places = append(unknown.Places, c.Place)
			j.left = 0
		}
		if j.left > 0 || !j.busy.IsZero() {
			js = append(js, j)
		}
	}
	if unknown.Places == nil {
		return js, nil
	}
	return js, []LeftOut{unknown}
}

// job is what one candle still has before it. One that was lit before it was
// cured is burned on: waiting would not undo that.
func (d *desk) job(c CalendarCandle) job {
	j := job{candle: c, next: c.Burns + 1}
	if c.Burns == 0 {
		j.release = d.readyAt(c)
	}
	if c.LastOut != nil && c.LastOut.Add(d.gap).After(j.release) {
		j.release = c.LastOut.Add(d.gap)
	}
	if c.LitAt != nil {
		j.next++
		j.busy = c.LitAt.Add(d.lasts)
		if j.busy.Before(d.in.Now) {
			j.busy = d.in.Now
		}
		j.release = j.busy.Add(d.gap)
	}
	j.left, j.last = d.left(c, j.next-1)
	return j
}

// left is how many burns a candle has before it after those begun, and how
// long the last of them is; below nothing where that is not known. A candle
// that outlasts what was expected is given one more burn.
func (d *desk) left(c CalendarCandle, begun int) (int, quantity.Hours) {
	hours := d.in.Days.Hours
	wanted := d.in.Days.Burns - begun
	if d.in.Days.Burns > 0 && (c.Lasts <= 0 || wanted <= 0) {
		return max(wanted, 0), hours
	}
	if !(c.Lasts > 0) {
		return -1, 0
	}
	lit := c.LitHours + quantity.Hours(begun-c.Burns)*hours
	way := BackToBack(c.Lasts-lit, hours, 0)
	if way.Burns == 0 {
		way = Course{Burns: 1, Last: hours}
	}
	if d.in.Days.Burns > 0 && wanted < way.Burns {
		return wanted, hours
	}
	return way.Burns, way.Last
}

// readyAt is when a candle is set and cured; of one that is not poured, when
// it will be.
func (d *desk) readyAt(c CalendarCandle) time.Time {
	poured := d.pourAt()
	if c.PouredAt != nil {
		poured = *c.PouredAt
	}
	cure := journal.Wax{CureDays: c.Cure}.Cure()
	return journal.Life{PouredAt: poured, CureDays: cure}.ReadyAt()
}

// pourAt is when what is not poured yet is taken to be: by noon of its day
// (chosen by us), or now where that has passed.
func (d *desk) pourAt() time.Time {
	if t := d.pourDay().Noon(d.in.Zone); t.After(d.in.Now) {
		return t
	}
	return d.in.Now
}

// pourDay is the day on which what is not poured yet will be: the one that was
// chosen, or the first from today that is not away.
func (d *desk) pourDay() Day {
	day := max(Day(d.in.Days.PourOn), d.today)
	for day > Day(d.in.Days.PourOn) && d.isAway(day) {
		day = day.Add(1)
	}
	return day
}
