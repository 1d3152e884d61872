package page_test

import (
	"net/url"
	"strings"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/page"
)

// weighed is a burn of three hours with both masses, ago hours before noon.
func weighed(number int, ago, before, after float64, checks ...journal.Check) journal.BurnLog {
	b := aBurn(number, ago, checks...)
	b.Burn.MassBefore, b.Burn.MassAfter = of(quantity.Grams(before)), of(quantity.Grams(after))
	return b
}

// plain takes out the spaces that keep numbers and units together.
func plain(s string) string { return strings.NewReplacer("\u00a0", " ", "\u2009", "").Replace(s) }

// lasting is aCandle with all that its hours ask for.
func lasting(burns ...journal.BurnLog) journal.CandleLog {
	l := aCandle(burns...)
	l.Wax.Family, l.Wax.SolidDensity = "paraffin", of(quantity.GramsPerMillilitre(0.9))
	return l
}

// Five burns of 3 h lose 18, 18.6, 17.4, 18 and 18 g: 90 g in 15 h, 6 g/h.
// Departures 0, 0.6, -0.6, 0, 0: SE sqrt(5 x 0.72/4)/15 = 0.063246, t(4)
// 2.77645: give or take 0.1756. 6 g/h of paraffin at 43.8 kJ/g is 73 W, 5.82 to
// 6.18 g/h 71 to 75 W. Of 182 g 92 g are left; in 76.2 mm at 0.90 g/mL that is
// 22.4 mm; 13 mm are 53.36 g, so 38.64 g or 6.4 h are usable.
func TestCandleLife(t *testing.T) {
	t.Parallel()
	l := lasting(weighed(1, 240, 382, 364), weighed(2, 200, 364, 345.4), weighed(3, 160, 345.4, 328), weighed(4, 120, 328, 310), weighed(5, 80, 310, 292))
	p := candlePage(l, metricView()).Life
	if !p.Show || len(p.Missing) != 0 || len(p.Notes) != 0 {
		t.Errorf("got %+v", p)
	}
	for label, want := range map[string]string{
		"Lit so far":                 "15 h 00 / not burned to the end yet",
		"Burn rate, all hours":       "6 g/h / 95 % interval 5.8–6.2 g/h; over five weighed burns",
		"First hour of a burn":       "cannot be told apart / all burns were about as long as each other; put one out after an hour and weigh it, now and then",
		"Heat while it burns":        "about 73 W / 71–75 W over that interval; 43.8 kJ/g worked out for the alkane C25H52 from measured heats of shorter ones",
		"Hours left to 13 mm of wax": "about 6.4 h / 95 % interval 6.3–6.6 h; two burns of at most 4 h 00",
		"Wax now":                    "about 92 g / 22.4 mm high; falls 1.5 mm/h",
	} {
		f := factOf(t, p.Facts, label)
		got := f.Text
		if f.Unit != "" {
			got += " " + f.Unit
		}
		if got = plain(got + " / " + f.More); got != want {
			t.Errorf("%s: got %q, want %q", label, got, want)
		}
	}
	if f := factOf(t, p.Facts, "From burn to burn"); f.Text != "no drift seen" || !strings.HasPrefix(plain(f.More), "change in 10 h: 95 % interval from −") || !strings.HasSuffix(plain(f.More), "it is called steady once that lies within 10 % of its rate either way") {
		t.Errorf("got %+v", f)
	}
	if !strings.HasPrefix(p.LateWhy, "Not enough yet") || p.Late != nil {
		t.Errorf("late %+v %q", p.Late, p.LateWhy)
	}
}

func TestCandleLifeSaysWhatIsMissing(t *testing.T) {
	t.Parallel()
	l := aCandle(aBurn(1, 48))
	p := candlePage(l, metricView()).Life
	if len(p.Missing) != 2 || p.Missing[0].Href != "/weigh" || p.Missing[1].Href != "/shelf/waxes/1/edit" || p.Missing[1].Link != "Add it to Meadow blend" {
		t.Errorf("got %+v", p.Missing)
	}
	if f := factOf(t, p.Facts, "Hours left to 13 mm of wax"); f.Text != "cannot tell yet" {
		t.Errorf("got %+v", f)
	}
	if len(p.Notes) != 1 || p.Notes[0] != "Burn 1 has no rate: it was not weighed before and after." {
		t.Errorf("notes %q", p.Notes)
	}
	l = lasting(weighed(1, 48, 382, 364))
	l.Wax.Family, l.Candle.Filled = "blend", nil
	p = candlePage(l, metricView()).Life
	if len(p.Missing) != 1 || p.Missing[0].Href != "/candles/7/edit" {
		t.Errorf("got %+v", p.Missing)
	}
	if f := factOf(t, p.Facts, "Heat while it burns"); f.Text != "needs the heat of combustion of Meadow blend" || f.Href != "/shelf/waxes/1/edit" {
		t.Errorf("got %+v", f)
	}
	l = lasting(weighed(1, 48, 382, 364))
	l.Vessel.Shape = journal.Irregular
	if p = candlePage(l, metricView()).Life; len(p.Missing) != 1 || p.Missing[0].Href != "/shelf/vessels/3/edit" {
		t.Errorf("got %+v", p.Missing)
	}
}

func TestCandleLifeAtItsEnd(t *testing.T) {
	t.Parallel()
	l := lasting(weighed(1, 96, 382, 290), weighed(2, 48, 290, 253))
	l.Burns[1].Burn.Ending = journal.Spent
	p := candlePage(l, metricView()).Life
	if f := factOf(t, p.Facts, "Total life"); f.Text != "6 h 00" || plain(f.More) != "burned to the end, 12.9 mm of wax left" {
		t.Errorf("got %+v", f)
	}
	for _, f := range p.Facts {
		if strings.HasPrefix(f.Label, "Hours left") {
			t.Errorf("a spent candle has %+v", f)
		}
	}
	l.Burns[1].Burn.MassAfter = of(quantity.Grams(275))
	if p = candlePage(l, metricView()).Life; len(p.Notes) != 1 || !strings.HasPrefix(p.Notes[0], "It was called spent with more than 13 mm of wax") {
		t.Errorf("notes %q", p.Notes)
	}
	l.Burns[1].Burn.MassAfter = of(quantity.Grams(230))
	if p = candlePage(l, metricView()).Life; len(p.Notes) != 1 || !strings.HasPrefix(p.Notes[0], "It was burned below 13 mm of wax") {
		t.Errorf("notes %q", p.Notes)
	}
	if p = candlePage(aCandle(), metricView()).Life; p.Show {
		t.Errorf("a candle that was never lit has %+v", p)
	}
}

// Nine burns of 3 h to the end: burns 2 and 3 are early, 7 to 9 late; all early
// pools 10 mm deep at one hour, the late ones 12, 13 and 14 mm. Mean 3 mm;
// squares 2 over 3 df times 1/2 + 1/3: SE 0.745356, t(3) 3.18245: 2.37207.
func TestCandleLateBurns(t *testing.T) {
	t.Parallel()
	var burns []journal.BurnLog
	for i := range 9 {
		depth := quantity.Millimetres(10 + max(i-4, 0))
		if i >= 6 {
			depth = quantity.Millimetres(12 + i - 6)
		}
		burns = append(burns, weighed(i+1, 400-float64(40*i), 382-14*float64(i), 368-14*float64(i), journal.Check{Depth: of(depth)}))
	}
	burns[8].Burn.Ending = journal.Spent
	p := candlePage(lasting(burns...), metricView()).Life
	f := factOf(t, p.Late, "Pool depth")
	if plain(f.Text) != "3 mm deeper" || plain(f.More) != "95 % interval 0.6–5.4 mm; two early burns and three late ones" {
		t.Errorf("got %q, %q", f.Text, f.More)
	}
	if f := factOf(t, p.Late, "Flame"); f.Text != "not enough yet" {
		t.Errorf("got %+v", f)
	}
}

// pairingLife is the life of candles that were burned to the end in so many
// hours.
func pairingLife(claimed string, hoursLit ...float64) page.PairingLife {
	var logs []journal.CandleLog
	for i, h := range hoursLit {
		l := lasting(weighed(1, 200, 382, 253.4))
		l.Candle.Letter = journal.LetterOf(i)
		b := &l.Burns[0].Burn
		b.OutAt, b.Ending = of(b.LitAt.Add(hours(h))), journal.Spent
		logs = append(logs, l)
	}
	q := url.Values{"vessel": {"3"}, "wick": {"11"}, "series": {"a"}}
	if claimed != "" {
		q.Set("claimed", claimed)
	}
	return page.NewPairingLife(logs, safety.NewLimits(nil), q, metricView())
}

// 38, 40 and 42 h: mean 40, deviation 2, factor 4.258 (the usual table): 31.5 h.
func TestPairingLife(t *testing.T) {
	t.Parallel()
	p := pairingLife("", 38, 40, 42)
	f := factOf(t, p.Facts, "Burn time for a label")
	if f.Text != "at most 31" || f.Unit != "h" || plain(f.More) != "nine candles in ten last at least this long, at 90 % confidence; rests on three candles burned to the end, from one pour; rounded down from 31.5 h" {
		t.Errorf("got %+v", f)
	}
	if f := factOf(t, p.Facts, "Lasted, on average"); f.Text != "40" || plain(f.More) != "three candles, from 38 to 42 h" {
		t.Errorf("got %+v", f)
	}
	if len(p.Rows) != 3 || p.Rows[1] != (page.LifeRow{Code: "14-B", Href: "/candles/7", Lit: "40 h 00", Ended: "burned to the end", Left: "13 mm"}) {
		t.Errorf("rows %+v", p.Rows)
	}
	if p.Rejected() || len(p.Claim.Says) != 0 || len(p.Claim.Hidden) != 3 {
		t.Errorf("claim %+v", p.Claim)
	}
	if f := factOf(t, pairingLife("", 38).Facts, "Burn time for a label"); f.Text != "not enough yet" || f.More != "one candle burned to the end; two more are needed" {
		t.Errorf("got %+v", f)
	}
	if f := factOf(t, pairingLife("", 38, 40).Facts, "Burn time for a label"); f.More != "two candles burned to the end; one more is needed" {
		t.Errorf("got %+v", f)
	}
	if f := factOf(t, pairingLife("", 10, 40, 70).Facts, "Burn time for a label"); f.Text != "none can be given" {
		t.Errorf("got %+v", f)
	}
	if pairingLife("").Show {
		t.Error("no candles have a life")
	}
}

func TestPairingClaim(t *testing.T) {
	t.Parallel()
	const mean = " measured on average over three candles: "
	for claimed, want := range map[string][2]string{
		"44":      {"44 h claimed, 40 h" + mean + "within 10 % either way, a quality mark’s reference.", "It is longer than the 31 h that nine candles in ten are sure enough to last: more than one in ten may fall short."},
		"50 h":    {"50 h claimed, 40 h" + mean + "25 % too long. A quality mark’s reference is 10 % either way.", "It is longer than the 31 h"},
		"30 h 00": {"30 h claimed, 40 h" + mean + "25 % too short. A quality mark’s reference is 10 % either way.", "Nine candles in ten are sure enough to last that long."},
	} {
		p := pairingLife(claimed, 38, 40, 42)
		if p.Rejected() || len(p.Claim.Says) != 2 || p.Claim.Says[0] != want[0] || !strings.HasPrefix(p.Claim.Says[1], want[1]) {
			t.Errorf("%s: got %q", claimed, p.Claim.Says)
		}
	}
	if p := pairingLife("soon", 38, 40, 42); !p.Rejected() || p.Claim.Field.Value != "soon" || p.Claim.Field.Problem != "Write hours such as 3, 2 h 30 or 90 min." || p.Claim.Says != nil {
		t.Errorf("got %+v", p.Claim)
	}
	if p := pairingLife("0", 38); !p.Rejected() {
		t.Errorf("got %+v", p.Claim)
	}
	if p := pairingLife("40", 38); len(p.Claim.Says) != 2 || !strings.HasPrefix(p.Claim.Says[1], "There is no bound") {
		t.Errorf("got %q", p.Claim.Says)
	}
}

// Equal burns: 24 g in 4 h each. Nothing scatters, so the page gives no interval
// and does not call the candle steady.
func TestEqualBurnsAreTooAlike(t *testing.T) {
	t.Parallel()
	p := candlePage(aCandle(massed(1, 90, 4, 300, 276), massed(2, 80, 4, 276, 252), massed(3, 70, 4, 252, 228), massed(4, 60, 4, 228, 204)), metricView()).Life
	for label, want := range map[string]string{
		"Burn rate, all hours": "6 / values too alike to tell how far others may lie; over four weighed burns",
		"From burn to burn":    "no drift seen / change in 10 h: values too alike to tell how far others may lie",
	} {
		f := factOf(t, p.Facts, label)
		if got := plain(f.Text + " / " + f.More); got != want {
			t.Errorf("%s: got %q, want %q", label, got, want)
		}
	}
}
