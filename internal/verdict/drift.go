package verdict

import (
	"slices"
	"strconv"

	"rimward/internal/quantity"
)

// Moved is how much a figure has moved since a verdict.
type Moved string

// The degrees.
const (
	Same    Moved = ""        // as it was shown then
	Within  Moved = "moved"   // within what was thought likely then
	Outside Moved = "outside" // beyond what was thought likely then
)

// Line is one figure then and now, in words.
type Line struct {
	Name, Then, Now string
	Moved           Moved
	Says            string // why it matters, where it does
}

// Drift sets the frozen figures beside those of now.
func Drift(then, now Figures, u quantity.Units) []Line {
	lines := []Line{
		line("Candles", strconv.Itoa(then.Candles), strconv.Itoa(now.Candles)),
		line("Burns that tell", strconv.Itoa(then.Burns), strconv.Itoa(now.Burns)),
		line("Burned to the end without a hard finding", strconv.Itoa(then.Ended), strconv.Itoa(now.Ended)),
		width(then, now, u),
		chance(then, now),
		line("Closeness, of 100", closeness(then), closeness(now)),
		line("Place", place(then), place(now)),
		rate(then, now),
		label(then, now),
		hard(then, now),
	}
	return append(lines, faults(then, now)...)
}

// Matters reports whether anything moved beyond what was thought likely.
func Matters(lines []Line) bool {
	return slices.ContainsFunc(lines, func(l Line) bool { return l.Moved == Outside })
}

// AnyMoved reports whether any figure is not as it was.
func AnyMoved(lines []Line) bool {
	return slices.ContainsFunc(lines, func(l Line) bool { return l.Moved != Same })
}

func line(name, then, now string) Line {
	l := Line{Name: name, Then: then, Now: now}
	if then != now {
		l.Moved = Within
	}
	return l
}

// flag marks a line that moved as being beyond what was likely.
func (l Line) flag(is bool, says string) Line {
	if is && l.Moved != Same {
		l.Moved, l.Says = Outside, says
	}
	return l
}

const notYet = "not enough yet"

func width(then, now Figures, u quantity.Units) Line {
	l := line("Width at "+quantity.Hours(now.Target).Clock()+" with no wall", widthText(then, u), widthText(now, u))
	if then.Target != now.Target {
		l.Says = "The target hour was " + quantity.Hours(then.Target).Clock() + " then."
	}
	out := then.Known && now.Known && (now.Width.Mid < then.Width.Low || !then.AtLeast && now.Width.Mid > then.Width.High)
	return l.flag(out, "It lies outside the 80 % interval of then.")
}

func widthText(f Figures, u quantity.Units) string {
	at := func(mm float64) string { return u.ColumnLength(quantity.Millimetres(mm)) }
	unit := " " + u.Length.Word()
	switch {
	case !f.Known:
		return notYet
	case f.AtLeast:
		return "at least " + at(f.Width.Low) + unit
	}
	return at(f.Width.Mid) + unit + " (" + at(f.Width.Low) + " – " + at(f.Width.High) + ")"
}

func chance(then, now Figures) Line {
	l := line("Chance on target", chanceText(then), chanceText(now))
	fell := then.Known && now.Known && then.OnTarget >= LikelyOnTarget && now.OnTarget < LikelyOnTarget
	return l.flag(fell, "It fell below "+quantity.Chance(LikelyOnTarget).String()+".")
}

func chanceText(f Figures) string {
	if !f.Known {
		return notYet
	}
	return quantity.Chance(f.OnTarget).String()
}

func closeness(f Figures) string {
	if !f.Known {
		return notYet
	}
	return quantity.Closeness(f.Close).String()
}

func place(f Figures) string {
	if f.Rank == 0 {
		return "none"
	}
	return strconv.Itoa(f.Rank) + " of " + strconv.Itoa(f.Ranked)
}

func rate(then, now Figures) Line {
	l := line("Burn rate", rateText(then), rateText(now))
	out := then.Rate != nil && now.Rate != nil && then.Rate.High > 0 && (now.Rate.Mid < then.Rate.Low || now.Rate.Mid > then.Rate.High)
	return l.flag(out, "It lies outside the 95 % interval of then.")
}

func rateText(f Figures) string {
	if f.Rate == nil {
		return "not weighed"
	}
	mid := quantity.GramsPerHour(f.Rate.Mid).String()
	if f.Rate.High == 0 {
		return mid + ", one candle"
	}
	return mid + " (" + quantity.Number(f.Rate.Low, 1) + " – " + quantity.Number(f.Rate.High, 1) + ")"
}

func label(then, now Figures) Line {
	l := line("Burn time for the label, at most", labelText(then), labelText(now))
	out := then.Label != nil && (now.Label == nil || *now.Label < *then.Label)
	return l.flag(out, "It came down: a time that was printed may be too long.")
}

func labelText(f Figures) string {
	h, ok := f.LabelTime()
	if !ok {
		return notYet
	}
	return h.WholeDown().String() + ", from " + strconv.Itoa(f.LabelOn) + " candles"
}

func hard(then, now Figures) Line {
	l := line("Hard findings", hardText(then), hardText(now))
	fresh := slices.ContainsFunc(now.Hard, func(h string) bool { return !slices.Contains(then.Hard, h) })
	if fresh && l.Moved == Same {
		l.Moved = Within
	}
	return l.flag(fresh, "New since the verdict: "+firstNew(then, now))
}

func hardText(f Figures) string {
	if len(f.Hard) == 0 {
		return "none"
	}
	return strconv.Itoa(len(f.Hard))
}

func firstNew(then, now Figures) string {
	for _, h := range now.Hard {
		if !slices.Contains(then.Hard, h) {
			return h
		}
	}
	return ""
}

// faults sets every fault beside itself that showed then or now.
func faults(then, now Figures) []Line {
	var names []string
	for _, c := range slices.Concat(then.Faults, now.Faults) {
		if !slices.Contains(names, c.Name) {
			names = append(names, c.Name)
		}
	}
	var out []Line
	for _, n := range names {
		l := line(n, faultText(then, n), faultText(now, n))
		fresh := !showed(then, n) && showed(now, n)
		out = append(out, l.flag(fresh, "It had not shown before."))
	}
	return out
}

func showed(f Figures, name string) bool {
	return slices.ContainsFunc(f.Faults, func(c Count) bool { return c.Name == name && c.Burns > 0 })
}

func faultText(f Figures, name string) string {
	for _, c := range f.Faults {
		if c.Name == name {
			return "in " + strconv.Itoa(c.Burns) + " of " + counted(c.Of, "burn")
		}
	}
	return "not seen"
}
