package page

import "rimward/web/ui"

// FirstSteps says which first things an empty journal still lacks; Plan is a
// round or a pour sheet.
type FirstSteps struct{ Wax, Ladder, Vessel, Plan, Pour, Candle, Burn bool }

// FirstStep is one step of an empty journal: a link or two to choose from, or
// words where it is done.
type FirstStep struct {
	Ways []ui.Item // either will do
	More string
	Done bool
}

// steps lists what is to be done, in order; none once a candle was burned. A
// plan can be passed over: it is not asked for once something was poured.
func (f FirstSteps) steps() []FirstStep {
	if f.Burn {
		return nil
	}
	way := func(text, href string) ui.Item { return ui.Item{Text: text, Href: href} }
	out := []FirstStep{
		{[]ui.Item{way("Put a wax on the shelf", "/shelf/waxes/new")}, "with the ranges of its supplier’s sheet", f.Wax},
		{[]ui.Item{way("Measure a vessel", "/shelf/vessels/new")}, "its inside at the wax line", f.Vessel},
		{[]ui.Item{way("Write down a ladder of wicks", "/shelf/ladders/new")}, "one series, in order of how much it melts", f.Ladder},
	}
	if f.Plan || !f.Pour {
		out = append(out, FirstStep{[]ui.Item{way("Plan a round", "/rounds/new"), way("make a pour sheet", "/pours/sheets/new")},
			"a round for a question, such as which wick; a sheet for what to melt and weigh", f.Plan})
	}
	return append(out,
		FirstStep{[]ui.Item{way("Record a pour", "/pours/new")}, "wax, load and temperatures; a sheet becomes its pour at one click", f.Pour},
		FirstStep{[]ui.Item{way("Say which candles it filled", "/pours")}, "vessel and wick of each; it gets a code for its base", f.Candle},
		FirstStep{[]ui.Item{way("Light the first one", "/light")}, "once it is set and cured", f.Burn})
}
