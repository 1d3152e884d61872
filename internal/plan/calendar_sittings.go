package plan

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"rimward/internal/quantity"
)

// burning plans the sittings that lie ahead.
func (c *Calendar) burning(d *desk) {
	js, unknown := d.jobs()
	for _, j := range js {
		d.most = max(d.most, j.left)
	}
	single := d.best(js, d.alone)
	plan, grouped := single, d.best(js, d.together)
	switch {
	case grouped.finish() <= single.finish() && grouped.short() <= single.short():
		plan = grouped
	case d.in.Together:
		plan, c.PartedFinish = grouped, single.finish()
	case d.grouped():
		c.Split, c.TogetherFinish = true, grouped.finish()
	}
	c.Sittings = plan.sittings
	for _, s := range plan.used {
		d.remark(s)
	}
	d.solidNote(plan.sittings)
	c.Left = append(unknown, plan.left()...)
	c.Finish, c.Unproven = plan.finish(), len(d.layings()) > 1
	if c.Split {
		d.note("split", "To finish on %s, candles that were drawn to burn on the same evening are parted. Kept together, they would finish on %s.", c.Finish, c.TogetherFinish)
	}
	if c.PartedFinish != "" {
		d.note("parted", "Candles that were drawn to burn on the same evening are kept together. Parted, they could finish on %s.", c.PartedFinish)
	}
}

func (d *desk) grouped() bool {
	return slices.ContainsFunc(d.in.Candles, func(c CalendarCandle) bool { return c.Group > 0 })
}

// filled is a way to fill the slots.
type filled struct {
	sittings []PlannedSitting
	used     []slot
	rest     []job // with what could not be planned
}

// finish is the day of the last sitting.
func (f filled) finish() Day {
	if len(f.sittings) == 0 {
		return ""
	}
	return f.sittings[len(f.sittings)-1].Day
}

// ends is when the last sitting is over.
func (f filled) ends() time.Time {
	if len(f.sittings) == 0 {
		return time.Time{}
	}
	return f.sittings[len(f.sittings)-1].To
}

// short is how many burns could not be planned.
func (f filled) short() int {
	n := 0
	for _, j := range f.rest {
		n += j.left
	}
	return n
}

func (f filled) left() []LeftOut {
	out := LeftOut{Why: fmt.Sprintf("Not all of their burns fit into the free evenings of the %d years ahead.", 2*horizon/365)}
	for _, j := range f.rest {
		if j.left > 0 {
			out.Places = append(out.Places, j.candle.Place)
		}
	}
	if out.Places == nil {
		return nil
	}
	return []LeftOut{out}
}

// chooser picks, of the candles that can be lit in a slot, which are: indices
// of jobs, at most room of them.
type chooser func(js []job, can []int, room int) []int

// best fills the evenings so that the last burn comes on the earliest day, in
// the best of the ways to lay their sittings.
func (d *desk) best(js []job, choose chooser) filled {
	var best filled
	for i, way := range d.layings() {
		f := d.fill(js, choose, way)
		if i == 0 || cmp.Or(cmp.Compare(f.short(), best.short()), f.ends().Compare(best.ends())) < 0 {
			best = f
		}
	}
	return best
}

// fill plans one sitting after the other.
func (d *desk) fill(from []job, choose chooser, way laying) filled {
	f := filled{rest: slices.Clone(from)}
	var out time.Time
	for day := range d.evenings() {
		if f.short() == 0 {
			break
		}
		for _, s := range d.evening(day, out, way) {
			if s.from = latest(s.from, out); s.from.After(s.by) {
				continue
			}
			can, room := d.able(f.rest, s)
			if lit := choose(f.rest, can, room); len(lit) > 0 {
				s.from = d.begins(f.rest, lit, s)
				f.sittings = append(f.sittings, d.sit(f.rest, lit, s))
				f.used = append(f.used, s)
				out = s.from.Add(d.lasts)
			}
		}
	}
	return f
}

// able are the candles that can be lit in a slot, those with most burns before
// them first and of these those that need not be waited for; and how many
// places are free then.
func (d *desk) able(js []job, s slot) (can []int, room int) {
	room = d.in.Days.BenchPlaces
	waits := map[int]int{}
	for i, j := range js {
		if j.busy.After(s.by) {
			room--
		} else if j.left > 0 && !j.release.After(s.by) {
			can = append(can, i)
		}
		if j.release.After(s.from) {
			waits[i] = 1
		}
	}
	slices.SortStableFunc(can, func(a, b int) int {
		return cmp.Or(cmp.Compare(js[b].left, js[a].left), cmp.Compare(waits[a], waits[b]), cmp.Compare(js[a].candle.Group, js[b].candle.Group), cmp.Compare(js[a].candle.Place, js[b].candle.Place))
	})
	return can, max(room, 0)
}

// begins is when the chosen candles can all be lit: set, cured and rested, and
// with a place for each.
func (d *desk) begins(js []job, lit []int, s slot) time.Time {
	t := s.from
	for _, i := range lit {
		t = latest(t, fullMinute(js[i].release))
	}
	for t.Before(s.by) {
		busy, next := 0, s.by
		for _, j := range js {
			if j.busy.After(t) {
				busy++
				if j.busy.Before(next) {
					next = j.busy
				}
			}
		}
		if busy+len(lit) <= d.in.Days.BenchPlaces {
			return t
		}
		t = next
	}
	return s.by
}

// alone lights the candles that have most burns before them. No other choice
// finishes in an earlier slot: where a plan lights j instead of i, which has as
// many burns before it or more, the two can exchange their slots from there to
// the first that leaves both of them rested, or to the end.
func (d *desk) alone(_ []job, can []int, room int) []int { return can[:min(len(can), room)] }

// together lights whole groups, the one with most burns before it first; only
// a group that no bench would hold is parted. Groups that the design is to keep
// share a sitting only where each candle finds the place that was drawn for it:
// the evenings of a Latin square stay evenings of their own on a larger bench.
func (d *desk) together(js []job, can []int, room int) []int {
	var lit []int
	for _, g := range groups(js, can) {
		switch {
		case d.in.Together && clash(js, lit, g):
		case len(g) <= room-len(lit):
			lit = append(lit, g...)
		case len(lit) == 0:
			lit = append(lit, g[:room]...)
		}
	}
	return lit
}

// clash reports whether a candle of a group was drawn to stand where one that
// is lit already was.
func clash(js []job, lit, group []int) bool {
	taken := map[int]bool{}
	for _, i := range lit {
		taken[js[i].candle.benchAt(js[i].next)] = true
	}
	return slices.ContainsFunc(group, func(i int) bool {
		at := js[i].candle.benchAt(js[i].next)
		return at > 0 && taken[at]
	})
}

// groups are the candles of each group, in the order in which the groups'
// first candles stand; one without a group is its own.
func groups(js []job, can []int) [][]int {
	var out [][]int
	at := map[int]int{}
	for _, i := range can {
		g := js[i].candle.Group
		if n, known := at[g]; known && g > 0 {
			out[n] = append(out[n], i)
			continue
		}
		at[g] = len(out)
		out = append(out, []int{i})
	}
	return out
}

// sit is the sitting of the chosen candles, which have one burn less after it.
func (d *desk) sit(js []job, lit []int, s slot) PlannedSitting {
	out := PlannedSitting{Day: s.day, From: s.from}
	var longest quantity.Hours
	for _, i := range lit {
		j := &js[i]
		b := PlannedBurn{Place: j.candle.Place, Number: j.next, Hours: d.in.Days.Hours}
		if j.left == 1 {
			b.Hours = j.last
		}
		j.next, j.left, j.release = j.next+1, j.left-1, s.from.Add(d.lasts+d.gap)
		longest = max(longest, b.Hours)
		out.Burns = append(out.Burns, b)
	}
	slices.SortFunc(out.Burns, func(a, b PlannedBurn) int { return cmp.Compare(a.Place, b.Place) })
	out.To = after(s.from, longest)
	out.Key = fmt.Sprintf("burn-%d-%d", out.Burns[0].Place, out.Burns[0].Number)
	d.stand(out.Burns, js, s)
	return out
}

// solidNote warns of moving what has just burned, where others follow at once.
func (d *desk) solidNote(ss []PlannedSitting) {
	for i, s := range ss {
		if i > 0 && s.From.Before(ss[i-1].To.Add(solidAfter)) {
			d.note("solid", "Candles that were put out stay where they are until they are solid: those that follow at once are lit beside them.")
		}
	}
}

// stand gives every candle of a sitting its place on the bench: its own where
// that is free, or else the first that is.
func (d *desk) stand(bs []PlannedBurn, js []job, s slot) {
	taken, of := map[int]bool{}, map[int]CalendarCandle{}
	for _, j := range js {
		of[j.candle.Place] = j.candle
		if j.busy.After(s.from) {
			taken[j.candle.benchAt(j.candle.Burns+1)] = true
		}
	}
	for i, b := range bs {
		if at := of[b.Place].benchAt(b.Number); at >= 1 && at <= d.in.Days.BenchPlaces && !taken[at] {
			bs[i].Bench, taken[at] = at, true
		}
	}
	next := 1
	for i := range bs {
		for ; bs[i].Bench == 0; next++ {
			if !taken[next] {
				bs[i].Bench, taken[next] = next, true
			}
		}
	}
	slices.SortFunc(bs, func(a, b PlannedBurn) int { return cmp.Compare(a.Bench, b.Bench) })
}

// benchAt is where a candle is to stand at one of its burns; 0 where that is
// open.
func (c CalendarCandle) benchAt(burn int) int {
	if len(c.Benches) == 0 {
		return 0
	}
	return c.Benches[(burn-1)%len(c.Benches)]
}
