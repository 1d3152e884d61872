package chart

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func someEffects() EffectsSpec {
	return EffectsSpec{ID: "moved", Title: "What moved the pool", Desc: "One line for each.", Unit: "mm", Less: "narrower", More: "wider",
		Rows: []EffectRow{{"one per cent more oil", -1.7, -0.9, -0.1}, {"5 °C hotter", -0.2, 0.4, 1}}}
}

// By hand: the widest end is 1.7, so the axis runs to 1.836 on either side of
// nothing, over 720 less 24 units.
func TestEffectsStandWhereTheirNumbersAre(t *testing.T) {
	t.Parallel()
	e := NewEffects(someEffects(), Wide)
	x := func(v float64) float64 { return 12 + (v/1.836+1)/2*696 }
	for i, r := range someEffects().Rows {
		n := numbers(t, e.Rows[i].Bar)
		if math.Abs(n[0]-x(r.Low)) > 0.02 || math.Abs(n[len(n)-3]-x(r.High)) > 0.02 {
			t.Errorf("bar %s, want from %.2f to %.2f", e.Rows[i].Bar, x(r.Low), x(r.High))
		}
		if dot := numbers(t, e.Rows[i].Dot); math.Abs(dot[0]+4.6-x(r.Mid)) > 0.02 && math.Abs(dot[0]-4.6-x(r.Mid)) > 0.02 {
			t.Errorf("dot %s, want about %.2f", e.Rows[i].Dot, x(r.Mid))
		}
	}
	if zero := numbers(t, e.Zero)[0]; math.Abs(zero-360) > 0.01 {
		t.Errorf("nothing stands at %g", zero)
	}
	sound(t, render(t, Figure(someEffects().Charted())))
}

func TestEffectsThatCannotBeDrawnAreCounted(t *testing.T) {
	t.Parallel()
	s := someEffects()
	s.Rows = append(s.Rows, EffectRow{"no number", math.NaN(), 0, 1}, EffectRow{"no end", 0, 1, math.Inf(1)})
	e := NewEffects(s, Wide)
	if len(e.Rows) != 2 || !strings.Contains(e.Caption, "2 points") {
		t.Errorf("%d rows, caption %q", len(e.Rows), e.Caption)
	}
	if none := NewEffects(EffectsSpec{}, Narrow); len(none.Rows) != 0 {
		t.Errorf("%+v", none)
	}
}

func TestEffectsAreAlwaysSound(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := someEffects()
		for range rapid.IntRange(0, 4).Draw(t, "more") {
			s.Rows = append(s.Rows, EffectRow{"x", rapid.Float64().Draw(t, "low"), rapid.Float64().Draw(t, "mid"), rapid.Float64().Draw(t, "high")})
		}
		sound(t, render(t, Figure(s.Charted())))
	})
}
