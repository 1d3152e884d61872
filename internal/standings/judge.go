package standings

import (
	"context"
	"errors"
	"runtime"
	"sync"

	"rimward/internal/standings/tree"
)

// Desk works standings out and keeps what it will need again. It may be used
// by several goroutines.
type Desk struct{ tree *tree.Desk }

// NewDesk is an empty desk for what is believed before the first burn.
func NewDesk(p tree.Prior) *Desk { return &Desk{tree.NewDesk(p)} }

// Weighed is what a whole journal says of what its series share: how pools
// open, and how much burns, candles and rungs differ. It does not change.
type Weighed struct {
	tree  *tree.Weighed
	prior tree.Prior
}

// Weigh works out all series of a journal together. It returns the context's
// error when that is done first.
func (d *Desk) Weigh(ctx context.Context, stacks []*Stack) (*Weighed, error) {
	var series []tree.Series
	for _, s := range stacks {
		series = append(series, s.tree())
	}
	w, err := d.tree.Weigh(ctx, series)
	if err != nil {
		return nil, err
	}
	return &Weighed{w, d.tree.Prior()}, nil
}

// Judge puts the pairings of some series in order. Those of one vessel and
// setting are compared with each other too.
func (w *Weighed) Judge(ctx context.Context, stacks []*Stack) (Table, error) {
	parts := groupsOf(stacks)
	t := Table{Shapes: w.Shapes(), Groups: make([]Group, len(parts))}
	errs := make([]error, len(parts))
	var all sync.WaitGroup
	for lane := range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for i := lane; i < len(parts); i += runtime.GOMAXPROCS(0) {
				t.Groups[i], errs[i] = w.group(ctx, parts[i])
			}
		})
	}
	all.Wait()
	for _, g := range t.Groups {
		t.Candles, t.Burns = t.Candles+g.Candles, t.Burns+g.Burns
	}
	return t, errors.Join(errs...)
}

// groupsOf parts stacks, which come in order, into those that can be compared.
func groupsOf(stacks []*Stack) [][]*Stack {
	var out [][]*Stack
	for from := 0; from < len(stacks); {
		to := from + 1
		for to < len(stacks) && sameGroup(stacks[from], stacks[to]) {
			to++
		}
		out = append(out, stacks[from:to])
		from = to
	}
	return out
}

// sameGroup reports whether two stacks can be compared: they stand in the same
// vessel and setting.
func sameGroup(a, b *Stack) bool {
	if a.Vessel.ID != b.Vessel.ID || a.Vessel.Name != b.Vessel.Name || len(a.Settings) == 0 != (len(b.Settings) == 0) {
		return false
	}
	return len(a.Settings) == 0 || a.group == b.group
}

func (w *Weighed) group(ctx context.Context, stacks []*Stack) (Group, error) {
	var series []tree.Series
	for _, s := range stacks {
		series = append(series, s.tree())
	}
	reports, err := w.tree.Reports(ctx, series...)
	if err != nil {
		return Group{}, err
	}
	g := Group{Vessel: stacks[0].Vessel, Target: stacks[0].Vessel.Target()}
	for i, s := range stacks {
		x := w.series(s, reports[i])
		g.Candles, g.Burns = g.Candles+x.Candles, g.Burns+x.Burns
		g.Series = append(g.Series, x)
		g.Settings = append(g.Settings, s.Settings...)
	}
	g.Settings = once(g.Settings)
	if len(stacks) > 1 {
		g.Across = across(stacks, reports)
	}
	return g, nil
}

// Shapes is how pools open in this studio.
func (w *Weighed) Shapes() []ShapeWeight {
	var out []ShapeWeight
	for i, v := range w.tree.Shapes() {
		out = append(out, ShapeWeight{w.prior.Shapes[i].Value, v})
	}
	return out
}

// ShapeWeight is one shape of the growth curve and how well it explains the
// journal, as a share of all shapes.
type ShapeWeight struct{ Exponent, Weight float64 }

// Words says how such a pool opens.
func (s ShapeWeight) Words() string {
	switch {
	case s.Exponent < 0.8:
		return "pools open quickly and then creep"
	case s.Exponent < 0.95:
		return "pools open rather quickly and then slow down"
	case s.Exponent <= 1.05:
		return "pools open at a rate that falls steadily as they near their limit"
	}
	return "pools open slowly at first and then catch up"
}

// onEdge is the weight from which the first or the last shape is doubted.
const onEdge = 0.5

// ShapeDoubt says so when the weights sit on the first or the last shape: the
// true curve may lie outside the list; "" otherwise.
func ShapeDoubt(ss []ShapeWeight) string {
	if len(ss) < 2 || (ss[0].Weight < onEdge && ss[len(ss)-1].Weight < onEdge) {
		return ""
	}
	return "The likeliest shape of the curve is the last on its side of the list, so the true one may lie beyond it, and widths between readings may be off a little."
}
