package meltpool_test

import (
	"slices"
	"testing"

	"rimward/internal/grid"
	"rimward/internal/meltpool"
)

// Forty readings of one width and forty-one of another give one answer in
// either order, though they are too many to be multiplied at once.
func TestManyReadingsInAnyOrder(t *testing.T) {
	t.Parallel()
	rs := append(slices.Repeat([]reading{{Hour: 3, Ratio: 0.5}}, 40), slices.Repeat([]reading{{Hour: 3, Ratio: 0.8}}, 41)...)
	tables := meltpool.NewTables(meltpool.Wall{Width: 80, Target: 3}, meltpool.Eye{Ruler: 1, Error: 1.5, Slip: 0.01})
	mean := func() float64 {
		var s grid.Sheet
		tables.Burn(&s, rs, 1, 0.9)
		m, _ := s.Row(grid.Rates / 2).Moments()
		return m
	}
	one := mean()
	slices.Reverse(rs)
	near(t, "the other way round", mean(), one, 1e-6)
}
