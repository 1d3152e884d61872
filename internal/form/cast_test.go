package form

import (
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

var castNow = time.Date(2026, 5, 14, 20, 30, 0, 0, time.UTC)

func TestReadMould(t *testing.T) {
	t.Parallel()
	p := metric("name", "Fir cones", "cavities", "4", "detail", "undercut", "cavity_volume", "55", "water_fill", "54.9", "material", "silicone", "note", "n")
	diff(t, "mould", journal.Mould{Name: "Fir cones", Cavities: 4, Detail: journal.Undercut, CavityVolume: of(quantity.Millilitres(55)), WaterFill: of(quantity.Grams(54.9)), Material: "silicone", Note: "n"}, ReadMould(p).Mould())
	diff(t, "problems", Problems(nil), p.Problems())
	refuseAll(t, func(p *Parser) { ReadMould(p) }, []refused{
		{"no cavities, and less than nothing in each", []string{"name", "A", "detail", "plain", "cavities", "0", "cavity_volume", "-3"},
			Problems{{"cavities", "Between 1 and 200 cavities."}, {"cavity_volume", "Between 0.1 mL and 20 L."}}},
		{"a detail of no list", []string{"name", "A", "detail", "ornate", "cavities", "1"}, Problems{{"detail", "Choose one from the list."}}},
	})
}

func TestReadCast(t *testing.T) {
	t.Parallel()
	mould := journal.Mould{Meta: journal.Meta{ID: 3}, Cavities: 6}
	read := func(pairs ...string) journal.Cast {
		return ReadCast(metric(append([]string{"mould", "3"}, pairs...)...), castNow).Cast(mould)
	}
	diff(t, "every cavity once", journal.Cast{Mould: 3, Pieces: 6}, read("state", "in"))
	diff(t, "every cavity twice", journal.Cast{Mould: 3, Pieces: 12}, read("fillings", "2"))
	diff(t, "counted pieces win", journal.Cast{Mould: 3, Pieces: 7}, read("fillings", "2", "pieces", "7"))
	diff(t, "out now, the rest is nothing", journal.Cast{Mould: 3, Pieces: 6, Out: &castNow, Clean: of(6), Chipped: of(0), Broken: of(0)}, read("state", "out", "clean", "6"))
	diff(t, "a count that leaves pieces over is not filled up", journal.Cast{Mould: 3, Pieces: 6, Out: &castNow, Clean: of(5)}, read("state", "out", "clean", "5"))
	at := time.Date(2026, 5, 13, 21, 0, 0, 0, time.UTC)
	diff(t, "a time of day alone is the latest such moment", &at, read("out_time", "21:00").Out)
	refuseAll(t, func(p *Parser) { ReadCast(p, castNow) }, []refused{
		{"no mould", nil, Problems{{"mould", "Please fill this in."}}},
		{"in and out", []string{"mould", "3", "state", "in", "out_time", "21:00"}, Problems{{"out_time", "Choose that they are out, or leave the time empty."}}},
		{"a day without a time", []string{"mould", "3", "state", "out", "out_date", "2026-05-13"}, Problems{{"out_time", "Say at what time of day."}}},
		{"no filling", []string{"mould", "3", "fillings", "0"}, Problems{{"fillings", "It must be more than nothing."}}},
		{"a word of no list", []string{"mould", "3", "state", "out", "surface", "wavy"}, Problems{{"surface", "Choose one from the list."}}},
	})
}

func TestReadTakeOut(t *testing.T) {
	t.Parallel()
	c := journal.Cast{Meta: journal.Meta{ID: 9, Version: 1}, Pour: 2, Mould: 3, Pieces: 8, Note: "old"}
	p := metric("pieces", "8", "clean", "6", "broken", "2", "captured", "soft", "surface", "pitted", "firmness", "brittle", "note", "n")
	want := journal.Cast{Meta: c.Meta, Pour: 2, Mould: 3, Pieces: 8, Out: &castNow, Clean: of(6), Chipped: of(0), Broken: of(2),
		Captured: journal.DetailSoft, Surface: journal.SurfacePitted, Firmness: journal.Brittle, Note: "n"}
	diff(t, "taken out now", want, ReadTakeOut(p, c, castNow))
	diff(t, "problems", Problems(nil), p.Problems())
}
