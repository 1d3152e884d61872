package chart

import "strconv"

// TrackSpec is a lit candle's way to the hour at which it must be put out.
type TrackSpec struct {
	Hours  float64   // lit so far
	Stop   float64   // hours after which it is put out
	Target float64   // hour by which the pool should have met the wall; 0 is none
	Checks []float64 // hours at which it was looked at
	Lit    int64     // moment of lighting, in Unix seconds; 0 when it no longer moves
	Title  string    // the accessible name, such as "2 h 12 of 4 h lit"
}

// Track is a progress line, ready to be drawn. Places are in per cent of the
// line's width, so it takes whatever room it is given.
type Track struct {
	Bar, BarClass string
	Target        string // empty when there is none
	Checks        []string
	Lit, Stop     string // for the script that moves the bar; empty when it stands
	Title         string // empty when the line is decorative
}

// NewTrack lays out a progress line. Hours past the stop fill the line and
// say so in the bar's class; places off the line are not drawn.
func NewTrack(s TrackSpec) Track {
	stop := known(s.Stop)
	t := Track{Bar: percent(known(s.Hours), stop), BarClass: "track-bar", Title: s.Title}
	if known(s.Hours) > stop {
		t.BarClass = "track-bar track-over"
	}
	if onLine(s.Target, stop) {
		t.Target = percent(s.Target, stop)
	}
	for _, c := range s.Checks {
		if onLine(c, stop) {
			t.Checks = append(t.Checks, percent(c, stop))
		}
	}
	if s.Lit > 0 && stop > 0 {
		t.Lit, t.Stop = strconv.FormatInt(s.Lit, 10), strconv.FormatFloat(stop, 'f', -1, 64)
	}
	return t
}

// onLine reports whether an hour falls on the line after its beginning.
func onLine(hour, stop float64) bool { return finite(hour) && hour > 0 && hour <= stop }

// percent is a place on the line, from 0% to 100%.
func percent(hour, stop float64) string {
	if stop == 0 {
		return "0%"
	}
	return px(100*clamp(hour/stop, 0, 1)) + "%"
}
