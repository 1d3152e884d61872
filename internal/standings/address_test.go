package standings

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// What a stack calls itself reads back as what it is.
func TestTheKeyOfASeriesReadsBack(t *testing.T) {
	t.Parallel()
	eight := quantity.Fraction(0.08)
	for name, c := range map[string]struct {
		group settingKey
		want  Address
	}{
		"no fragrance":       {settingKey{wax: 1}, Address{Ladder: 4, Wicks: 2}},
		"fragrance alone":    {settingKey{wax: 1, oil: 3}, Address{Ladder: 4, Wicks: 2, Oil: 3}},
		"fragrance and load": {settingKey{wax: 1, oil: 3, load: 8000}, Address{Ladder: 4, Wicks: 2, Oil: 3, Load: &eight}},
		"load not noted":     {settingKey{wax: 1, oil: 3, load: -1}, Address{Ladder: 4, Wicks: 2, Oil: 3}},
	} {
		s := Stack{Ladder: journal.Ladder{Meta: journal.Meta{ID: 4}}, Wicks: 2, group: c.group}
		got, ok := ReadAddress(s.Key())
		if !ok || cmp.Diff(c.want, got) != "" {
			t.Errorf("%s: %s gave %+v, %t", name, s.Key(), got, ok)
		}
	}
}

func TestWhatIsNoKeyIsRefused(t *testing.T) {
	t.Parallel()
	for _, key := range []string{"", "1", "1.1", "a.1.none", "1.b.none", "0.1.none", "1.0.none", "1.1.x", "1.1.0", "1.1.none.2"} {
		if a, ok := ReadAddress(key); ok {
			t.Errorf("%q gave %+v", key, a)
		}
	}
}
