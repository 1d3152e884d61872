package chart

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestTrackPlacesAreSharesOfTheStop(t *testing.T) {
	t.Parallel()
	got := NewTrack(TrackSpec{Hours: 2.2, Stop: 4, Target: 3, Checks: []float64{1, 2}, Lit: 1747243800, Title: "2 h 12 of 4 h lit"})
	want := Track{Bar: "55%", BarClass: "track-bar", Target: "75%", Checks: []string{"25%", "50%"}, Lit: "1747243800", Stop: "4", Title: "2 h 12 of 4 h lit"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("track (-want +got):\n%s", diff)
	}
}

func TestTrackPastTheStopIsFullAndSaysSo(t *testing.T) {
	t.Parallel()
	got := NewTrack(TrackSpec{Hours: 4.5, Stop: 4})
	if got.Bar != "100%" || !strings.Contains(got.BarClass, "track-over") {
		t.Errorf("bar %q, class %q", got.Bar, got.BarClass)
	}
	if at := NewTrack(TrackSpec{Hours: 4, Stop: 4}); strings.Contains(at.BarClass, "track-over") {
		t.Errorf("exactly at the stop: class %q", at.BarClass)
	}
}

func TestTrackDropsWhatIsOffTheLine(t *testing.T) {
	t.Parallel()
	got := NewTrack(TrackSpec{Hours: math.NaN(), Stop: 4, Target: 5, Checks: []float64{-1, 0, 2, 4.1, math.NaN(), math.Inf(1)}})
	want := Track{Bar: "0%", BarClass: "track-bar", Checks: []string{"50%"}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("track (-want +got):\n%s", diff)
	}
	if none := NewTrack(TrackSpec{Hours: 2, Lit: 1}); none.Bar != "0%" || none.Lit != "" {
		t.Errorf("without a stop: bar %q, lit %q", none.Bar, none.Lit)
	}
}

func TestTrackThatStandsHasNothingForTheScript(t *testing.T) {
	t.Parallel()
	lit := render(t, TrackLine(NewTrack(TrackSpec{Hours: 1, Stop: 4, Lit: 1747243800})))
	out := render(t, TrackLine(NewTrack(TrackSpec{Hours: 1, Stop: 4})))
	if !strings.Contains(lit, `data-lit="1747243800" data-stop-hours="4"`) {
		t.Errorf("a lit candle's bar cannot be moved: %s", lit)
	}
	if strings.Contains(out, "data-lit") {
		t.Errorf("a bar that stands asks to be moved: %s", out)
	}
}
