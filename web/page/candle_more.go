package page

import (
	"math"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/chart"
)

// ChartFigure is a chart with its heading and what is said over it.
type ChartFigure struct {
	Heading string
	Plain   bool // the heading is none of the page's outline
	Words   string
	Missing string // instead of a chart
	Chart   *chart.Chart
}

// candleChart is one chart of a candle, by the name it has in addresses.
type candleChart struct {
	name, heading string
	build         func(l journal.CandleLog, lim safety.Limits, v View) *chart.Chart
}

// chartsOfCandle lists the charts of a candle in the order of its page. The
// first two are open.
var chartsOfCandle = []candleChart{
	{"growth", "Width against time", widthChart},
	{"mass", "Mass and burn rate", massChart},
	{"burns", "Each burn by itself", burnsChart},
	{"full", "When the pool was full", fullChart},
	{"flame", "Flame and heat", flameChart},
	{"depth", "Depth of the pool", depthChart},
	{"soot", "Soot and mushrooming", sootChart},
	{"faults", "Faults over its life", faultsChart},
}

// openCharts is how many of them stand open.
const openCharts = 2

// CandleChart is one chart of a candle by name, for a file; false when there
// is none of that name, or nothing to draw.
func CandleChart(name string, l journal.CandleLog, lim safety.Limits, v View) (chart.Chart, bool) {
	for _, c := range chartsOfCandle {
		if c.name == name {
			if x := c.build(l, lim, v); x != nil {
				return *x, true
			}
		}
	}
	return chart.Chart{}, false
}

// chartsOf builds the charts of a candle's page: those that stand open, and
// the others that have anything to show.
func chartsOf(l journal.CandleLog, lim safety.Limits, growth *GrowthPair, mass MassPart, v View) (open, more []ChartFigure) {
	at := "/candles/" + idText(l.Candle.ID) + "/charts/"
	for i, c := range chartsOfCandle {
		f := ChartFigure{Heading: c.heading}
		switch c.name {
		case "growth":
			f.Missing = "No width was read yet."
			if growth != nil {
				x := growth.chart()
				f.Chart = &x
			}
		case "mass":
			f.Words, f.Chart = mass.Words, mass.Chart
		default:
			f.Chart = c.build(l, lim, v)
		}
		if f.Chart != nil {
			f.Missing, f.Chart.Files = "", chartFiles(at+c.name, "")
		}
		switch {
		case i < openCharts:
			open = append(open, f)
		case f.Chart != nil:
			more = append(more, f)
		}
	}
	return open, more
}

// chartFiles are the ways to take a chart away.
func chartFiles(address, query string) []chart.File {
	return []chart.File{{Text: "Drawing (svg)", Href: address + ".svg" + query}, {Text: "Numbers (csv)", Href: address + ".csv" + query}}
}

// moreText names the charts that are not open.
func moreText(fs []ChartFigure) string {
	var names []string
	for _, f := range fs {
		names = append(names, strings.ToLower(f.Heading[:1])+f.Heading[1:])
	}
	return "More charts: " + listed(names)
}

func widthChart(l journal.CandleLog, _ safety.Limits, v View) *chart.Chart {
	g := growthOf(l, v)
	if g == nil {
		return nil
	}
	c := g.chart()
	return &c
}

func massChart(l journal.CandleLog, _ safety.Limits, v View) *chart.Chart { return massOf(l, v).Chart }

// burnsChart is each burn with a reading by itself.
func burnsChart(l journal.CandleLog, _ safety.Limits, v View) *chart.Chart {
	unit := v.Units.Length
	s := chart.ManySpec{ID: "burns", Title: "Each burn of candle " + l.Candle.Code() + " by itself", Unit: unit.Word(),
		Desc: "A small chart of the width of the pool for each burn, on axes of the same size.",
		Wall: unit.Of(l.Vessel.Width()), WallLabel: "wall " + v.length(l.Vessel.Width()).String(),
		Target: float64(l.Vessel.Target()), TargetLabel: "target " + l.Vessel.Target().Clock(), MaxHour: float64(journal.LongestBurn),
		Value: v.lengthTick, Steps: v.lengthSteps(), Table: growthTable(l, v)}
	for _, b := range l.Burns {
		g := growthBurn(b, l.Vessel, v)
		if b.Burn.IsGone() || len(g.Points) == 0 {
			continue
		}
		s.Cells = append(s.Cells, chart.ManyCell{Title: g.Label, Note: v.Day(b.Burn.LitAt), Burns: [][]chart.GrowthPoint{g.Points}})
	}
	if len(s.Cells) == 0 {
		return nil
	}
	s.Caption = capital(counted(len(s.Cells), "burn", "burns")) + "."
	return drawn(chart.NewMany(s))
}

// drawn is a chart that is there.
func drawn(c chart.Chart) *chart.Chart { return &c }

// windowOf is the span in which the pool of one burn became full.
func windowOf(g chart.GrowthBurn) meltpool.Window {
	var rs []meltpool.Reading
	for _, p := range g.Points {
		if !p.LeftOut {
			rs = append(rs, meltpool.Reading{Hour: quantity.Hours(p.Hour), Full: p.Full})
		}
	}
	return meltpool.FullWindow(rs)
}

// fullChart is when the pool of each burn became full.
func fullChart(l journal.CandleLog, _ safety.Limits, v View) *chart.Chart {
	s := spanSpec(l.Vessel, "When the pool of candle "+l.Candle.Code()+" was full")
	for _, b := range l.Burns {
		if g := growthBurn(b, l.Vessel, v); !b.Burn.IsGone() {
			addWindow(&s, g.Label, g.Label, windowOf(g))
		}
	}
	return windows(s)
}

// spanSpec begins a chart of when pools were full.
func spanSpec(x journal.Vessel, title string) chart.SpanSpec {
	return chart.SpanSpec{ID: "full", Title: title, Desc: "A bar for the hours between the last look at which the pool was short of the wall and the first at which it was full.",
		Target: float64(x.Target()), TargetLabel: "target " + x.Target().Clock(), HalfLabel: "half of it", MaxHour: float64(max(journal.LongestBurn, x.Target())),
		Table: chart.Table{Name: "The spans as a table", Head: []string{"Burn", "Not full at, h", "Full at, h"}}}
}

// addWindow adds one burn, where it was looked at.
func addWindow(s *chart.SpanSpec, label, short string, w meltpool.Window) {
	if !w.Seen {
		return
	}
	r := chart.SpanRow{Label: label, Short: short, From: float64(w.From), To: float64(w.To), Note: windowText(w)}
	row := []string{label, w.From.Column(), w.To.Column()}
	if w.Never {
		r.To, row[2] = math.Inf(1), "not seen full"
	} else if w.From == 0 {
		row[1] = "not looked at"
	}
	s.Rows, s.Table.Rows = append(s.Rows, r), append(s.Table.Rows, row)
}

// windowText is the span in words.
func windowText(w meltpool.Window) string {
	switch {
	case w.Never:
		return "not yet by " + tight(w.To.Clock())
	case w.From == 0:
		return "by " + tight(w.To.Clock())
	}
	return tight(w.From.Clock()) + " – " + tight(w.To.Clock())
}

// windows is the chart of a spec with any row.
func windows(s chart.SpanSpec) *chart.Chart {
	if len(s.Rows) == 0 {
		return nil
	}
	s.Caption = "A bar runs from the last look short of the wall to the first full one, from lighting where that was the first look; an arrow begins at the last look of a pool that was not full. " +
		capital(counted(len(s.Rows), "burn", "burns")) + "."
	return drawn(chart.NewSpans(s))
}

// flameChart is flame height and vessel temperature, each where it was read.
func flameChart(l journal.CandleLog, lim safety.Limits, v View) *chart.Chart {
	flame, heat := v.lengthReading(func(c journal.Check) *quantity.Millimetres { return c.Flame }), v.heatReading()
	height := chart.CourseSpec{Name: "Flame height", Unit: v.Units.Length.Word(), FromZero: true, Value: v.lengthTick, Steps: v.lengthSteps(),
		Limits: []chart.CourseLimit{v.lengthLimit("limit", lim.FlameHardIn(l.Vessel)), v.lengthLimit("take care above", lim.FlameTall())}}
	warm := chart.CourseSpec{Name: "Outside of the vessel", Unit: v.Units.Temperature.Word(), Value: v.heatTick,
		Limits: []chart.CourseLimit{v.heatLimit("put it out at", lim.WallStopIn(l.Vessel)), v.heatLimit("take care above", lim.WallHot(l.Vessel.Material))}}
	whole := chart.CourseSpec{ID: "flame", Title: "Flame and heat of candle " + l.Candle.Code() + " over the hours it was lit",
		Desc:  "The readings of the flame’s height and of the vessel’s temperature, burns joined end to end.",
		Table: readingsTable(l, v, []string{"Flame, " + v.Units.Length.Word(), "Vessel, " + v.Units.Temperature.Word()}, flame, heat), Caption: limitsAre}
	return courses(l, v, whole, []chart.CourseSpec{height, warm}, flame, heat)
}

// heatTick writes a number on an axis of temperatures.
func (v View) heatTick(x float64) string {
	return v.temperature(v.Units.Temperature.From(x)).Number
}

// courses stacks the panels that have a reading; nil when none has.
func courses(l journal.CandleLog, v View, whole chart.CourseSpec, panels []chart.CourseSpec, qs ...gauge) *chart.Chart {
	var kept []chart.CourseSpec
	n := 0
	for i, p := range panels {
		x := qs[i].over(l, v)
		if len(x.Points) == 0 {
			continue
		}
		n += len(x.Points)
		p.Burns, p.Series = burnStretches(l, v), []chart.CourseSeries{x}
		kept = append(kept, p)
	}
	if n == 0 {
		return nil
	}
	whole.Caption = joinWords(readingsSaid(n, len(litBurns(l, v))), whole.Caption)
	if len(kept) < len(panels) {
		whole.Caption = joinWords(kept[0].Name+" only: nothing else was read.", whole.Caption)
	}
	return drawn(chart.NewCourses(whole, kept...))
}

// depthChart is the depth of the pool.
func depthChart(l journal.CandleLog, lim safety.Limits, v View) *chart.Chart {
	depth := v.lengthReading(func(c journal.Check) *quantity.Millimetres { return c.Depth })
	p := chart.CourseSpec{Name: "Depth of the pool", Unit: v.Units.Length.Word(), FromZero: true, Value: v.lengthTick, Steps: v.lengthSteps(),
		Limits: []chart.CourseLimit{v.lengthLimit("deep from", lim.PoolDeep()), v.lengthLimit("too deep from", lim.PoolVeryDeep())}}
	whole := chart.CourseSpec{ID: "depth", Title: "Depth of the pool of candle " + l.Candle.Code() + " over the hours it was lit",
		Desc:  "The readings of the pool’s depth, burns joined end to end.",
		Table: readingsTable(l, v, []string{"Depth, " + v.Units.Length.Word()}, depth), Caption: limitsAre}
	return courses(l, v, whole, []chart.CourseSpec{p}, depth)
}

// sootChart is soot and mushrooming on their scales of words.
func sootChart(l journal.CandleLog, _ safety.Limits, v View) *chart.Chart {
	soot := gradeReading(journal.SootScale, func(c journal.Check) journal.Grade { return c.Soot })
	tip := gradeReading(journal.MushroomScale, func(c journal.Check) journal.Grade { return c.Mushroom })
	panels := []chart.CourseSpec{
		{Name: "Soot", Words: gradeWords(journal.SootScale), Limits: []chart.CourseLimit{sootFault()}},
		{Name: "Mushrooming", Words: gradeWords(journal.MushroomScale), Limits: []chart.CourseLimit{mushroomFault()}},
	}
	whole := chart.CourseSpec{ID: "soot", Title: "Soot and mushrooming of candle " + l.Candle.Code() + " over the hours it was lit",
		Desc: "The grades of soot and of mushrooming at each check, burns joined end to end.", Table: readingsTable(l, v, []string{"Soot", "Mushrooming"}, soot, tip)}
	return courses(l, v, whole, panels, soot, tip)
}

// faultsChart is what each burn showed of each fault that was ever seen.
func faultsChart(l journal.CandleLog, lim safety.Limits, v View) *chart.Chart {
	burns, faults := safety.FaultsOverLife(l, lim, v.Units)
	s := chart.SignSpec{ID: "faults", Title: "Faults of candle " + l.Candle.Code() + " over its life",
		Desc:  "A row for each fault that was seen, a column for each burn.",
		Words: signWords, Table: chart.Table{Name: "The faults as a table", Head: []string{"Fault"}}}
	for _, n := range burns {
		s.Columns, s.Table.Head = append(s.Columns, strconv.Itoa(n)), append(s.Table.Head, "Burn "+strconv.Itoa(n))
	}
	var never []string
	for _, f := range faults {
		if best := worstOf(f.Burns); best == safety.NotSeen {
			never = append(never, f.Name)
		} else if best > safety.NotSeen {
			s.Rows, s.Table.Rows = append(s.Rows, signRow(f)), append(s.Table.Rows, signCells(f))
		}
	}
	if len(s.Rows) == 0 {
		return nil
	}
	if len(never) > 0 {
		s.Caption = "Looked for and never seen: " + listed(never) + "."
	}
	return drawn(chart.NewSigns(s))
}

// signWords are what the signs of a fault are called.
var signWords = [4]string{"not looked at", "none seen", "a little", "seen"}

// worstOf is the most that any burn showed.
func worstOf(looks []safety.Look) safety.Look {
	worst := safety.NotLooked
	for _, l := range looks {
		worst = max(worst, l)
	}
	return worst
}

func signRow(f safety.FaultLife) chart.SignRow {
	r := chart.SignRow{Name: f.Name, Limit: f.From}
	for _, l := range f.Burns {
		r.Signs = append(r.Signs, chart.Sign(l))
	}
	return r
}

func signCells(f safety.FaultLife) []string {
	out := []string{joinBy(", ", f.Name, f.From)}
	for _, l := range f.Burns {
		out = append(out, signWords[l])
	}
	return out
}
