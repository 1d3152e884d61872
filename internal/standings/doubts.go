package standings

import (
	"fmt"
	"strings"

	"rimward/internal/meltpool"
)

// notYet says what would be enough to rank the pairing; "" when there is enough.
func (p Pairing) notYet() string {
	if p.Enough() {
		return ""
	}
	return "Not enough yet: one burn with a width at " + p.Vessel.Target().Clock() + " or later, or with a pool seen full before, would do."
}

// warnings are the doubts that the average of a pairing carries.
func (p Pairing) warnings() []string {
	var ws []string
	add := func(yes bool, format string, args ...any) {
		if yes {
			ws = append(ws, fmt.Sprintf(format, args...))
		}
	}
	coarse, held, oneAxis := p.count(meltpool.FromNone), p.count(meltpool.Held), p.oneAxis()
	add(p.Candles == 1, "One candle only: how much candles differ is not known.")
	add(len(p.Settings) > 1, "%s", mixed(p.Settings, "are averaged together"))
	add(p.Full.TooSoon > 0, "Full before half the target hour in %d of %s.", p.Full.TooSoon, burnsText(p.Full.Seen+p.Full.NotSeen))
	add(coarse > 0, "In %d of %s the width at the hour is a coarse guess: the first check came after it.", coarse, burnsText(p.Burns))
	add(held > 0, "In %d of %s the last check came shortly before the hour and stands for it.", held, burnsText(p.Burns))
	add(oneAxis > 0, "In %d of %s some widths were measured one way only.", oneAxis, burnsText(p.Burns))
	return ws
}

// count is how many burns rest on one kind of reading.
func (p Pairing) count(h meltpool.How) int {
	return p.burnsWith(func(b BurnRow) bool { return b.How == h })
}

func (p Pairing) oneAxis() int { return p.burnsWith(func(b BurnRow) bool { return b.OneAxis }) }

// burnsWith counts the burns that tell and are of a kind.
func (p Pairing) burnsWith(is func(BurnRow) bool) int {
	n := 0
	for _, c := range p.Rows {
		for _, b := range c.Burns {
			if b.Used && is(b) {
				n++
			}
		}
	}
	return n
}

func burnsText(n int) string {
	if n == 1 {
		return "1 burn"
	}
	return fmt.Sprintf("%d burns", n)
}

// mixed says which settings are thrown together, and how; "" when there is
// only one.
func mixed(ss []Setting, how string) string {
	if len(ss) < 2 {
		return ""
	}
	waxes := distinct(ss, func(s Setting) string { return s.Wax.Name })
	oils := distinct(ss, Setting.oil)
	switch {
	case len(waxes) > 1 && len(oils) > 1:
		return "Different waxes and fragrance loads " + how + ": " + listed(waxes) + "; " + listed(oils) + "."
	case len(waxes) > 1:
		return "Different waxes " + how + ": " + listed(waxes) + "."
	}
	return "Different fragrance loads " + how + ": " + listed(oils) + "."
}

// oil is a setting's fragrance and load in words.
func (s Setting) oil() string {
	switch {
	case s.Fragrance == nil:
		return "no fragrance"
	case s.Load == nil:
		return s.Fragrance.Name + ", load not noted"
	}
	return s.Fragrance.Name + ", " + s.Load.Percent().String() + " of the wax"
}

// distinct lists the different words of settings in the order they come.
func distinct(ss []Setting, word func(Setting) string) []string {
	var out []string
	seen := map[string]bool{}
	for _, s := range ss {
		if w := word(s); !seen[w] {
			seen[w] = true
			out = append(out, w)
		}
	}
	return out
}

func listed(words []string) string { return strings.Join(words, " and ") }
