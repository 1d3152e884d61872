package meltpool_test

import (
	"testing"

	"rimward/internal/meltpool"
)

// A cylinder of 76.2 mm (3 in) inside, filled 69.85 mm (2.75 in) high at
// 0.90 g/mL. Plain geometry, worked by hand and by script:
// pi/4 x 7.62^2 = 45.6037 cm2; x 6.985 cm = 318.542 mL; x 0.90 = 286.687 g.
// At 6.3 g/h the level falls 10 x 7 / 45.6037 = 1.535 mm/h. The last 12.7 mm
// hold 52.125 g, so 234.562 g may burn: 37.23 h.
func TestCylinderWorkedByHand(t *testing.T) {
	t.Parallel()
	mass := tumbler.MassTo(69.85, 0.90)
	near(t, "area, cm2", float64(tumbler.Area()), 45.6037, 5e-5)
	near(t, "volume, mL", float64(tumbler.VolumeTo(69.85)), 318.542, 5e-4)
	near(t, "mass, g", float64(mass), 286.687, 1e-3)
	drop, ok := tumbler.LevelDrop(6.3, 0.90)
	near(t, "level drop, mm/h", float64(drop), 1.535, 5e-4)
	near(t, "last half inch, g", float64(tumbler.MassTo(12.7, 0.90)), 52.125, 1e-3)
	usable := tumbler.Usable(mass, 0.90, 12.7)
	near(t, "usable, g", float64(usable), 234.562, 1e-3)
	hours, ok2 := meltpool.HoursLeft(usable, 6.3)
	near(t, "hours left", float64(hours), 37.23, 5e-3)
	if !ok || !ok2 {
		t.Error("refused a plain case")
	}
	height, _ := tumbler.HeightOf(mass, 0.90)
	near(t, "height of that mass, mm", float64(height), 69.85, 1e-9)
}

// A full pool of that vessel, 12.7 mm deep, holds 57.9 mL (worked by hand).
func TestPoolVolume(t *testing.T) {
	t.Parallel()
	near(t, "volume, mL", float64(tumbler.VolumeTo(12.7)), 57.9, 0.05)
}

// 120 x 80 mm: 96 cm2 as a rectangle, pi/4 of that, 75.398 cm2, as an ellipse.
func TestAreaByOutline(t *testing.T) {
	t.Parallel()
	tray := meltpool.Vessel{Outline: meltpool.Rectangle, Length: 120, Width: 80}
	bowl := meltpool.Vessel{Outline: meltpool.Ellipse, Length: 120, Width: 80}
	near(t, "rectangle", float64(tray.Area()), 96, 1e-9)
	near(t, "ellipse", float64(bowl.Area()), 75.398, 5e-4)
	near(t, "across", float64(bowl.Across()), 97.980, 5e-4) // sqrt(9600)
}

func TestWaxRefusesNothing(t *testing.T) {
	t.Parallel()
	if _, ok := tumbler.HeightOf(10, 0); ok {
		t.Error("height at no density")
	}
	if _, ok := (meltpool.Vessel{}).LevelDrop(6, 0.9); ok {
		t.Error("level drop in no vessel")
	}
	if _, ok := meltpool.HoursLeft(100, 0); ok {
		t.Error("hours left when nothing burns")
	}
	near(t, "usable below the stop", float64(tumbler.Usable(10, 0.9, 12.7)), 0, 0)
}
